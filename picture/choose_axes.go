package picture

import (
	"math"

	"ampstead/choose"
	q "ampstead/quantity"
)

// frontAxis is something designs differ in.
type frontAxis struct {
	key, title, better string
	of                 func(d *choose.Design) float64
	unit               func(res *choose.Result, sys q.System) string
}

var frontAxes = []frontAxis{
	{"price", "price", "left", func(d *choose.Design) float64 { return d.Price }, func(res *choose.Result, _ q.System) string { return currencyOf(res) }},
	{"short", "hours short a year", "down", func(d *choose.Design) float64 { return d.ShortHours }, nil},
	{"mass", "mass", "left", func(d *choose.Design) float64 { return d.MassKg }, func(_ *choose.Result, sys q.System) string { return q.Kilograms.Show(1, sys) }},
	{"years", "years of life", "up", func(d *choose.Design) float64 { return d.Years }, nil},
}

// FrontAxes names what a front can be drawn over, the best first: what is known
// of the designs. There are always two at least.
func FrontAxes(res *choose.Result) []string {
	var list []string
	for _, a := range frontAxes {
		known := a.key == "short" || a.key == "years"
		for i := range res.Front {
			known = known || a.of(&res.Front[i]) > 0
		}
		if known {
			list = append(list, a.key)
		}
	}
	return list
}

func axisOf(key string, res *choose.Result, not string) frontAxis {
	keys := FrontAxes(res)
	pick := ""
	for _, k := range keys {
		if k == key && k != not {
			pick = k
		}
	}
	for _, k := range keys {
		if pick == "" && k != not {
			pick = k
		}
	}
	for _, a := range frontAxes {
		if a.key == pick {
			return a
		}
	}
	return frontAxes[1]
}

// title is the axis's name with its unit.
func (a frontAxis) titled(res *choose.Result, sys q.System) string {
	if a.unit == nil {
		return a.title
	}
	if u := a.unit(res, sys); u != "" {
		return a.title + ", " + u
	}
	return a.title
}

// shown is a value in the unit of its axis.
func (a frontAxis) shown(v float64, sys q.System) float64 {
	if a.key == "mass" {
		v, _ = q.Kilograms.In(v, q.Kilograms.Show(1, sys))
	}
	return v
}

func currencyOf(res *choose.Result) string {
	for i := range res.Candidates {
		if c := res.Candidates[i].Currency; c != "" {
			return c
		}
	}
	return ""
}

// few is how much of their reach most designs' hours take for the scale to need
// opening towards zero.
const few = 0.25

// spreads reports whether most designs' hours lie crowded at the foot.
func (f *frontier) spreads() bool {
	most, below := 0.0, 0
	for i := range f.res.Front {
		most = math.Max(most, f.res.Front[i].ShortHours)
	}
	for i := range f.res.Front {
		if f.res.Front[i].ShortHours < few*most {
			below++
		}
	}
	return 2*below > len(f.res.Front) && most > 50
}

func (f *frontier) marksUp() []mark {
	if f.roots && f.up.key == "short" {
		return rootMarks(f.y.low, f.y.high, (f.y.high-f.y.low)/(f.y.bottom-f.y.top), func(string) float64 { return 22 })
	}
	return f.upMarks()
}

func (f *frontier) marksAcross() []mark {
	if f.roots && f.across.key == "short" {
		return rootMarks(f.x.v0, f.x.v1, (f.x.v1-f.x.v0)/(f.x.p1-f.x.p0), func(text string) float64 { return 2*tick.measure(text) + 8 })
	}
	return f.acrossMarks()
}
