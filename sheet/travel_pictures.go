package sheet

import (
	"html/template"

	"ampstead/fit"
	"ampstead/picture"
	"ampstead/travel"
)

// Drawings are one picture for a desk, or paper, and for a phone.
type Drawings struct {
	Desk, Phone template.HTML
	Caption     string
	Reckoned    string // key of how it is reckoned, "" for none
}

type draw func(res *travel.Result, set *fit.Result, o picture.Options) string

func (m *Model) drawings(caption string, of draw) Drawings {
	if m.Trip == nil || m.Trip.res == nil {
		return Drawings{}
	}
	var set *fit.Result
	if m.made != nil {
		set = m.made.res
	}
	o := picture.Options{Units: m.Units, Width: m.width(), Pick: m.Trip.Pick}
	d := Drawings{Caption: caption, Reckoned: "year", Desk: template.HTML(of(m.Trip.res, set, o))} // drawings escape the texts they carry
	if !m.Paper {
		o.Width = picture.Phone
		d.Phone = template.HTML(of(m.Trip.res, set, o))
	}
	return d
}

// YearPicture is the year as a ribbon of days.
func (m *Model) YearPicture() Drawings {
	caption := "The first weather year, day by day; the pale ground behind the state of charge is the range over all years."
	if m.Trip != nil && m.Trip.Pick != "" {
		caption += " Press anywhere on it to see those days in detail."
	}
	return m.drawings(caption, picture.Year)
}

// MonthPicture is the energy of the months.
func (m *Model) MonthPicture() Drawings {
	return m.drawings("", func(res *travel.Result, _ *fit.Result, o picture.Options) string { return picture.Months(res, o) })
}

// WeekPicture is the span in detail.
func (m *Model) WeekPicture() Drawings { return m.drawings("", picture.Week) }

// RoutePicture is the route.
func (m *Model) RoutePicture() Drawings {
	return m.drawings("", func(res *travel.Result, _ *fit.Result, o picture.Options) string { return picture.Route(res, o) })
}

// LimitPicture shows what each change would bring.
func (m *Model) LimitPicture() Drawings {
	return m.drawings("", func(res *travel.Result, _ *fit.Result, o picture.Options) string { return picture.Gains(res, o) })
}
