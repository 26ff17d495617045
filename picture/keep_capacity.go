package picture

import (
	"fmt"
	"math"

	"ampstead/keep"
)

// CapacityTrend draws each estimate of the capacity with its error, the trend
// through them and where it leads.
func CapacityTrend(res *keep.Result, o Options) string {
	c, height := capacityTrend(res, o)
	return c.finish(o, height, "Capacity against time", describeCapacity(res))
}

func capacityTrend(res *keep.Result, o Options) (*canvas, float64) {
	c := newCanvas("capacity", o)
	points := capacityPoints(res)
	if len(points) == 0 {
		return c, caption(c, 0, "Charge counted between two rests tells the capacity; the log has no such pair yet.")
	}
	var when []string
	for _, p := range points {
		when = append(when, p.When)
	}
	l, _ := newLogTime(when)
	ahead := math.Max(180, l.span()/2)
	t := logChart(c, o, 0, l.span()+ahead)
	top := t.title(0, "Capacity, Ah", capacitySaid(res))
	b := capacityBand(res, points, top)
	t.room(b, 30)
	t.axis(b, 30, tickText)
	t.capacityLines(res, l, b)
	for _, p := range points {
		x := t.x.at(l.days(p.When))
		if e := p.Err; e > 0 {
			hi, lo := b.y(p.Ah+e), b.y(p.Ah-e)
			t.c.path("reach", (&trace{}).move(x, hi).to(x, lo).move(x-4, hi).to(x+4, hi).move(x-4, lo).to(x+4, lo))
		}
		t.c.dot("solid", x, b.y(p.Ah), 3.2)
	}
	t.notes(b, t.capacityNotes(res, l, b))
	return c, t.dates(l, b.bottom+4)
}

func capacityPoints(res *keep.Result) []keep.CapacityPoint {
	var list []keep.CapacityPoint
	for _, p := range res.Capacity.Points {
		if _, ok := readInstant(p.When); ok && plausible(p.Ah) && plausible(p.Err) && p.Ah > 0 {
			list = append(list, p)
		}
	}
	return list
}

// ratedAh is the capacity when new; 0 when it is not known.
func ratedAh(res *keep.Result) float64 {
	if c := res.Capacity; c.Share > 0.05 && plausible(c.Ah) && plausible(c.Ah/c.Share) {
		return c.Ah / c.Share
	}
	return 0
}

func capacityBand(res *keep.Result, points []keep.CapacityPoint, top float64) band {
	low, high := math.Inf(1), math.Inf(-1)
	take := func(v float64) { low, high = math.Min(low, v), math.Max(high, v) }
	for _, p := range points {
		take(p.Ah - math.Max(0, p.Err))
		take(p.Ah + math.Max(0, p.Err))
	}
	if rated := ratedAh(res); rated > 0 {
		take(rated)
	}
	pad := math.Max(1, 0.08*(high-low))
	return band{math.Max(0, low-3*pad), high + pad, top, top + 200} // room below for where the trend leads
}

// slopes reports whether the log tells a trend.
func slopes(res *keep.Result) bool {
	c := res.Capacity
	return plausible(c.PerYear) && c.PerYearErr > 0 && plausible(c.PerYearErr) && plausible(c.Ah) && c.Ah > 0 && math.Abs(c.PerYear) > 2*c.PerYearErr
}

func (t *chart) capacityLines(res *keep.Result, l logTime, b band) {
	if rated := ratedAh(res); rated > 0 {
		t.c.line("dash", t.x.p0, b.y(rated), t.x.p1, b.y(rated))
	}
	if !slopes(res) {
		if v := res.Capacity.Ah; plausible(v) && b.holds(v) {
			t.c.line("fine", t.x.at(0), b.y(v), t.x.at(l.span()), b.y(v))
		}
		return
	}
	at := func(days float64) float64 { return res.Capacity.Ah + res.Capacity.PerYear/365.25*(days-l.span()) }
	t.c.line("fine", t.x.at(0), b.y(at(0)), t.x.at(l.span()), b.y(at(l.span())))
	end := t.x.v1
	if v := at(end); v < b.low && res.Capacity.PerYear < 0 {
		end = l.span() + (res.Capacity.Ah-b.low)/-res.Capacity.PerYear*365.25 // where it leaves the panel
	}
	t.c.line("fine ghost", t.x.at(l.span()), b.y(at(l.span())), t.x.at(end), b.y(at(end)))
}

func (t *chart) capacityNotes(res *keep.Result, l logTime, b band) []note {
	var list []note
	if rated := ratedAh(res); rated > 0 {
		list = append(list, note{b.y(rated), []words{{small, "when new " + short(rated)}}})
	}
	c := res.Capacity
	if !slopes(res) {
		if plausible(c.Ah) && c.Ah > 0 {
			list = append(list, note{b.y(c.Ah), []words{{plain, withError(c.Ah, c.ErrAh)}}})
		}
		return list
	}
	ahead := c.Ah + c.PerYear/365.25*(t.x.v1-l.span())
	return append(list, note{b.y(ahead), []words{{plain, perYear(c.PerYear, c.PerYearErr)}}})
}

func perYear(v, err float64) string {
	sign := "+"
	if v < 0 {
		sign, v = "−", -v
	}
	return fmt.Sprintf("%s%s a year", sign, withError(v, err))
}

func capacitySaid(res *keep.Result) string {
	c := res.Capacity
	if !plausible(c.Ah) || c.Ah <= 0 {
		return ""
	}
	text := withError(c.Ah, c.ErrAh) + " Ah"
	if c.Basis != "" {
		text += ", from " + c.Basis
	}
	return text
}

func describeCapacity(res *keep.Result) string {
	text := capacitySaid(res)
	if slopes(res) {
		text += "; " + perYear(res.Capacity.PerYear, res.Capacity.PerYearErr)
	}
	return fmt.Sprintf("%s; %s.", counted(len(capacityPoints(res)), "estimate"), text)
}
