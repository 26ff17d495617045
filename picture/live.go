package picture

import (
	"fmt"
	"math"
	"slices"
	"time"

	q "ampstead/quantity"
)

// Trail is a live series over some time.
type Trail struct {
	Title    string // plain name, such as "group 4"
	Dim      *q.Dimension
	From, To time.Time // in the zone of the person
	Points   []TrailPoint
	Limits   []TrailLimit
}

// TrailPoint is what a series was from a time on, in SI. Width 0 is one value.
type TrailPoint struct {
	From           time.Time
	Width          time.Duration
	Min, Mean, Max float64
}

// TrailLimit is an alarm's limit in SI.
type TrailLimit struct {
	V    float64
	Name string
}

// Live draws a live series: its mean as a line, with the band between lowest and
// highest behind it. Where nothing was heard the line breaks.
func Live(t Trail, o Options) string {
	c, height := live(t, o)
	return c.finish(o, height, t.Title+" over time", describeTrail(t, o))
}

func live(t Trail, o Options) (*canvas, float64) {
	c := newCanvas("live", o)
	if len(t.Points) == 0 || !t.From.Before(t.To) {
		return c, caption(c, 0, "Nothing was heard of "+t.Title+" in this time.")
	}
	d := &trailChart{chart: newChart(c, 1, o), trail: t, unit: trailUnit(t.Dim, o.Units)}
	d.x.v0, d.x.v1, d.x.p0 = 0, t.To.Sub(t.From).Seconds(), trailLeft
	low, high := d.extent()
	top := d.title(0, t.Title+", "+d.unit, d.text(low)+" to "+d.text(high)+", last "+d.text(t.Points[len(t.Points)-1].Mean))
	low, high = d.shown(low), d.shown(high)
	pad := math.Max(0.06*(high-low), 0.005) // a flat line is no reason for ticks of microvolts
	b := band{low - pad, high + pad, top, top + 190}
	d.axis(b, 30, tickText)
	d.times(b)
	d.draw(b)
	d.limits(b)
	return c, b.bottom + 22
}

// trailLeft is where the panel begins: millivolts want room for their digits.
const trailLeft = 56

// trailChart is the picture while it is drawn; its time axis counts seconds.
type trailChart struct {
	*chart
	trail Trail
	unit  string
}

func trailUnit(d *q.Dimension, units q.System) string {
	switch d {
	case q.Celsius:
		return q.Celsius.Show(0, units)
	case q.Fraction:
		return "%"
	}
	return d.Base
}

func (d *trailChart) shown(v float64) float64 {
	v, _ = d.trail.Dim.In(v, d.unit)
	return v
}

func (d *trailChart) text(v float64) string { return trailText(v, d.trail.Dim, d.unit) }

func trailText(v float64, dim *q.Dimension, unit string) string {
	decimals := 1
	if dim == q.Volts {
		decimals = 3
	}
	return dim.Fixed(v, unit, decimals)
}

func (d *trailChart) extent() (low, high float64) { return trailExtent(d.trail.Points) }

func trailExtent(points []TrailPoint) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range points {
		low, high = math.Min(low, p.Min), math.Max(high, p.Max)
	}
	return low, high
}

// draw draws each stretch in which something was heard all along.
func (d *trailChart) draw(b band) {
	points := d.trail.Points
	most := 3 * d.usual()
	from := 0
	for i := 1; i <= len(points); i++ {
		if i < len(points) && points[i].From.Sub(points[i-1].From) <= most {
			continue
		}
		d.stretch(b, points[from:i])
		from = i
	}
}

// usual is the time from one point to the next that half of them keep to.
func (d *trailChart) usual() time.Duration {
	var steps []time.Duration
	for i := 1; i < len(d.trail.Points); i++ {
		steps = append(steps, d.trail.Points[i].From.Sub(d.trail.Points[i-1].From))
	}
	if len(steps) == 0 {
		return time.Hour
	}
	slices.Sort(steps)
	return steps[len(steps)/2]
}

func (d *trailChart) stretch(b band, points []TrailPoint) {
	var s strand
	mean := make([]float64, len(points))
	for i, p := range points {
		x := d.x.at(p.From.Add(p.Width / 2).Sub(d.trail.From).Seconds())
		s.x = append(s.x, math.Min(math.Max(x, d.x.p0), d.x.p1))
		s.low, s.high = append(s.low, d.shown(p.Min)), append(s.high, d.shown(p.Max))
		mean[i] = d.shown(p.Mean)
	}
	if len(points) == 1 {
		d.c.line("fine", s.x[0], b.y(s.low[0]), s.x[0], b.y(s.high[0])+1)
		return
	}
	d.c.path("wash", s.area(b))
	d.c.path("fine", s.edge(b, mean))
}

func (d *trailChart) limits(b band) {
	last := d.trail.Points[len(d.trail.Points)-1]
	notes := []note{{b.y(d.shown(last.Mean)), []words{{plain, "last " + d.text(last.Mean)}}}}
	for _, l := range d.trail.Limits {
		v := d.shown(l.V)
		if !b.holds(v) {
			continue
		}
		d.c.line("dash", d.x.p0, b.y(v), d.x.p1, b.y(v))
		notes = append(notes, note{b.y(v), []words{{alert, l.Name + " " + d.text(l.V)}}})
	}
	d.notes(b, notes)
}

// times writes hours, days or months below, as close as there is room.
func (d *trailChart) times(b band) {
	lines := &trace{}
	for _, m := range timeMarks(d.trail.From, d.trail.To, (d.x.p1-d.x.p0)/(tick.measure("30 Mar")+16)) {
		x := d.x.at(m.at.Sub(d.trail.From).Seconds())
		lines.move(x, b.top).to(x, b.bottom)
		if wide := tick.measure(m.text); x+wide/2 <= d.x.p1+12 && x-wide/2 >= 0 {
			d.c.text(tick, x, b.bottom+14, "middle", m.text)
		}
	}
	d.c.path("hair", lines)
}

type timeMark struct {
	at   time.Time
	text string
}

// timeMarks lists round times in a span, at most so many: full hours, days or
// first days of months, in the zone of from.
func timeMarks(from, to time.Time, most float64) []timeMark {
	hours := to.Sub(from).Hours()
	for _, every := range []int{1, 2, 3, 6, 12} {
		if hours/float64(every) <= most {
			return roundTimes(from, to, "15:04", func(n int) time.Time {
				return time.Date(from.Year(), from.Month(), from.Day(), n*every, 0, 0, 0, from.Location())
			})
		}
	}
	for _, every := range []int{1, 2, 7, 14} {
		if hours/24/float64(every) <= most {
			return roundTimes(from, to, "2 Jan", func(n int) time.Time {
				return time.Date(from.Year(), from.Month(), from.Day()+n*every, 0, 0, 0, 0, from.Location())
			})
		}
	}
	every := max(1, int(math.Ceil(hours/24/30/math.Max(1, most))))
	layout := "Jan"
	if every >= 6 {
		every, layout = 12*((every+11)/12), "2006"
		from = time.Date(from.Year(), 1, 1, 0, 0, 0, 0, from.Location())
	}
	return roundTimes(from, to, layout, func(n int) time.Time {
		return time.Date(from.Year(), from.Month()+time.Month(n*every), 1, 0, 0, 0, 0, from.Location())
	})
}

func roundTimes(from, to time.Time, layout string, nth func(int) time.Time) (list []timeMark) {
	for n := 0; n < 1000; n++ {
		at := nth(n)
		if at.After(to) {
			break
		}
		if at.After(from) {
			list = append(list, timeMark{at, at.Format(layout)})
		}
	}
	return list
}

func describeTrail(t Trail, o Options) string {
	if len(t.Points) == 0 {
		return "Nothing was heard of " + t.Title + " in this time."
	}
	unit := trailUnit(t.Dim, o.Units)
	low, high := trailExtent(t.Points)
	return fmt.Sprintf("%s from %s to %s: between %s and %s, last %s.", t.Title, t.From.Format("2 January 2006 15:04"), t.To.Format("2 January 2006 15:04"),
		trailText(low, t.Dim, unit), trailText(high, t.Dim, unit), trailText(t.Points[len(t.Points)-1].Mean, t.Dim, unit))
}
