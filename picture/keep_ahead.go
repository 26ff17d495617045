package picture

import (
	"fmt"
	"math"

	"ampstead/keep"
)

// YearsAhead draws how many years are left, by capacity and by what the year on
// the road asks for.
func YearsAhead(res *keep.Result, o Options) string {
	c, height := yearsAhead(res, o)
	return c.finish(o, height, "Years left", describeAhead(res))
}

// outlook is one way of reckoning what is left.
type outlook struct {
	name string
	keep.Band
	first bool // it comes first
}

func outlooks(res *keep.Result) []outlook {
	if res.Life == nil {
		return nil
	}
	var list []outlook
	for _, o := range []outlook{{name: "until the year is short", Band: res.Life.ByFunction}, {name: "until its capacity ends", Band: res.Life.ByCapacity}} {
		if plausible(o.Low) && plausible(o.Middle) && plausible(o.High) && o.High > 0 && o.High < 1000 {
			list = append(list, o)
		}
	}
	if len(list) == 2 {
		list[0].first = list[0].Middle <= list[1].Middle
		list[1].first = !list[0].first
	}
	return list
}

const outlookTall = 52.0

func yearsAhead(res *keep.Result, o Options) (*canvas, float64) {
	c := newCanvas("ahead", o)
	list := outlooks(res)
	if len(list) == 0 {
		return c, caption(c, 0, "The years ahead were not run.")
	}
	t := newChart(c, 1, o)
	said := "the line is the range, the mark the middle"
	if f := res.Life.FirstShort; f != "" {
		said = "first month that leaves you short: " + f
	}
	top := t.title(0, "Years left", said)
	most, text := 1.0, 0.0
	for _, l := range list {
		most = math.Max(most, l.High)
		text = math.Max(text, strong.measure(yearsText(l.Band)))
	}
	t.x = linear{0, 1.03 * most, 20, c.width - text - 12}
	t.gutterAt = c.width - tick.measure("years")
	for i, l := range list {
		t.outlook(l, top+outlookTall*float64(i))
	}
	return c, t.foot(top+outlookTall*float64(len(list)), "years")
}

func (t *chart) outlook(l outlook, y float64) {
	t.c.text(plain, 0, y+14, "start", l.name)
	line := y + 32
	from, to := t.x.at(math.Max(0, l.Low)), t.x.at(l.High)
	t.c.line("hair", t.x.p0, line, t.x.p1, line)
	t.c.path(marked("reach", l.first), (&trace{}).move(from, line).to(to, line).move(from, line-6).to(from, line+6).move(to, line-6).to(to, line+6))
	class := "solid"
	if l.first {
		class = "hot"
	}
	t.c.dot(class, t.x.at(math.Max(0, l.Middle)), line, 5)
	t.c.text(strong, t.x.p1+10, line+4, "start", yearsText(l.Band))
}

func yearsText(b keep.Band) string {
	return fmt.Sprintf("%s (%s to %s)", short(figures(b.Middle, 2)), short(figures(b.Low, 2)), short(figures(b.High, 2)))
}

func describeAhead(res *keep.Result) string {
	text := ""
	for _, l := range outlooks(res) {
		text += l.name + ": " + yearsText(l.Band) + " years; "
	}
	if res.Life != nil && res.Life.FirstShort != "" {
		text += "first short in " + res.Life.FirstShort + "."
	}
	return text
}
