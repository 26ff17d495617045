package picture

import (
	"math"

	"ampstead/fit"
	q "ampstead/quantity"
)

// chart is a picture over time: panels one below another on one time axis, with
// ticks to the left and, to the right, a gutter in which every line is named at
// the height where it ends.
type chart struct {
	c        *canvas
	x        linear // from days to px
	units    q.System
	narrow   bool
	gutter   float64 // px from where its labels begin to the right edge
	gutterAt float64
}

func newChart(c *canvas, days int, o Options) *chart {
	t := &chart{c: c, units: o.Units, narrow: o.narrow(), gutter: 150}
	if t.narrow {
		t.gutter = 76
	}
	t.gutterAt = c.width - t.gutter
	t.x = linear{0, math.Max(1, float64(days)), axisWide - 8, t.gutterAt - 14}
	return t
}

// title writes the name of a panel and what there is to say about it on one
// line, or on more where they do not fit. It returns the top of the panel.
func (t *chart) title(y float64, name, said string) float64 {
	wide := strong.measure(name) + 10
	y += strong.leading()
	t.c.text(strong, 0, y-4, "start", name)
	if wide+plain.measure(said) <= t.c.width {
		t.c.text(plain, wide, y-4, "start", said)
		return y + 9
	}
	l := newLabel(words{}, 0, t.c.width, words{plain, said})
	l.draw(t.c, 0, y)
	return y + l.height + 9
}

// note names a line in the gutter, level with where it ends.
type note struct {
	at   float64 // px, its height where it ends
	text []words
}

func (t *chart) label(n note) label { return newLabel(words{}, 0, t.gutter, n.text...) }

// notes sets the labels of a panel, apart from each other, in order of height.
func (t *chart) notes(b band, list []note) {
	sortNotes(list)
	var want, size []float64
	for _, n := range list {
		want, size = append(want, n.at-middle), append(size, t.label(n).height)
	}
	for i, top := range spread(want, size, labelGap, b.top-4, b.bottom+4) {
		n := list[i]
		t.c.path("leader", (&trace{}).move(t.x.p1+1, n.at).to(t.gutterAt-4, top+middle))
		t.label(n).draw(t.c, t.gutterAt, top)
	}
}

func sortNotes(list []note) {
	for i := range list {
		for j := i; j > 0 && list[j].at < list[j-1].at; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

// axis draws the lines and ticks of a panel's values; show turns a tick into its
// text.
func (t *chart) axis(b band, least float64, show func(v, every float64) string) {
	every := step(least * (b.high - b.low) / (b.bottom - b.top))
	lines := &trace{}
	for _, v := range ticks(b.low, b.high, every) {
		lines.move(t.x.p0, b.y(v)).to(t.x.p1, b.y(v))
		t.c.text(tick, t.x.p0-6, b.y(v)+4, "end", show(v, every))
	}
	t.c.path("hair", lines)
}

func percentTick(v, _ float64) string { return tickText(100*v, 1) }

// marksOf draws a hairline through all panels at each of the days.
func (t *chart) marksOf(class string, days []int, top, bottom float64) {
	lines := &trace{}
	for _, d := range days {
		x := t.x.at(float64(d))
		if d > 0 {
			lines.move(x, top).to(x, bottom)
		}
	}
	t.c.path(class, lines)
}

// names writes below the panels what each span of days is called: in full, or by
// its first letter where there is no room for all. starts holds the first days.
func (t *chart) names(y float64, starts []int, names []string) {
	left := func(i int) float64 {
		if i < len(starts) {
			return t.x.at(float64(starts[i]))
		}
		return t.x.p1
	}
	least := math.Inf(1)
	for i, name := range names {
		least = math.Min(least, left(i+1)-left(i)-tick.measure(name))
	}
	for i, text := range names {
		if least < 4 {
			text = string([]rune(text)[:1])
		}
		if tick.measure(text)+2 <= left(i+1)-left(i) {
			t.c.text(tick, (left(i)+left(i+1))/2, y+14, "middle", text)
		}
	}
}

// warmScale is the scale of a panel of temperatures, in the unit shown.
type warmScale struct {
	band
	unit string
}

func (t *chart) warm(low, high, top, tall float64) warmScale {
	w := warmScale{unit: q.Celsius.Show(0, t.units)}
	pad := math.Max(1, 0.06*(high-low))
	w.band = band{w.shown(low - pad), w.shown(high + pad), top, top + tall}
	return w
}

func (w warmScale) shown(c float64) float64 {
	v, _ := q.Celsius.In(c, w.unit)
	return v
}

// turn gives a strand of °C in the unit shown.
func (w warmScale) turn(s strand) strand {
	for i := range s.x {
		s.low[i], s.high[i] = w.shown(s.low[i]), w.shown(s.high[i])
	}
	return s
}

// frost fills what lies below the temperature at which charging harms, and says
// so in a note; none when it lies outside the panel.
func (t *chart) frost(w warmScale, c float64) []note {
	v := w.shown(c)
	if math.IsNaN(c) || !w.holds(v) {
		return nil
	}
	zone := box{t.x.p0, w.y(v), t.x.p1 - t.x.p0, w.bottom - w.y(v)}
	t.c.rect("warn", zone)
	return []note{{w.y(v), []words{{alert, "no charging below " + degrees(c, t.units)}}}}
}

// frostOf is the temperature below which the cells must not be charged; NaN when
// it is not known.
func frostOf(set *fit.Result) float64 {
	if set == nil {
		return math.NaN()
	}
	for _, m := range set.Warmth {
		if m.Device == "cell" {
			return m.TempC // the coldest mark of the cell itself
		}
	}
	return math.NaN()
}
