package picture

import (
	"math"

	"ampstead/fit"
	"ampstead/physics/cell"
)

// RestCurve draws rest voltage against state of charge, with the harm zones
// outside the safe window, the daily window as the area under the curve, and
// the daily limits as marks.
func RestCurve(res *fit.Result, o Options) string {
	c, height := restCurve(res, o)
	return c.finish(o, height, "Rest voltage against state of charge", describeCurve(res))
}

func restCurve(res *fit.Result, o Options) (*canvas, float64) {
	c := newCanvas("curve", o)
	if res.Kind == nil || res.Kind.Curve.Empty() {
		return c, caption(c, 0, "No rest-voltage curve is known for this cell.")
	}
	p := newPlot(c, res, res.Kind.Curve, o)
	p.grounds()
	p.axes()
	p.outline()
	p.dailyMark(p.daily.CellHighV, p.daily.HighSoC, "daily top")
	p.dailyMark(p.daily.CellLowV, p.daily.LowSoC, "daily bottom")
	p.energy(o)
	return c, p.foot()
}

func describeCurve(res *fit.Result) string {
	w, d := res.Window, res.Daily
	return "Safe window " + volts(w.CellLowV) + " to " + volts(w.CellHighV) + " a cell. Daily window " +
		volts(d.CellLowV) + " to " + volts(d.CellHighV) + " a cell, " + percent(d.LowSoC) + " to " + percent(d.HighSoC) + " charged."
}

// plot is the frame of the curve: state of charge to the right, volts upward.
type plot struct {
	c      *canvas
	curve  cell.Curve
	lim    limits
	daily  fit.Window
	series float64
	x, y   linear
	unsaid []string // what found no room in the frame
}

const harmZone = 26.0 // least height of a harm zone, px

func newPlot(c *canvas, res *fit.Result, curve cell.Curve, o Options) *plot {
	p := &plot{c: c, curve: curve, daily: res.Daily, series: math.Max(1, float64(res.Cell.Series)),
		lim: limitsOf(res)}
	p.daily.LowSoC, p.daily.HighSoC = curve.SoC(p.daily.CellLowV), curve.SoC(p.daily.CellHighV)
	tall := 430.0
	if o.narrow() {
		tall = 380
	}
	first, last := curve.Span()
	low, high := math.Min(first, p.lim.low), math.Max(last, p.lim.high)
	perVolt := (tall - 2*harmZone) / math.Max(high-low, 0.01)
	low = math.Min(low, p.lim.low-harmZone/perVolt)
	high = math.Max(high, p.lim.high+harmZone/perVolt)
	p.x = linear{0, 1, axisWide, c.width - axisWide}
	p.y = linear{high, low, 30, 30 + tall}
	return p
}

// grounds fills the harm zones and the area of the daily window.
func (p *plot) grounds() {
	left, right := p.x.p0, p.x.p1
	top, bottom := p.y.at(p.lim.high), p.y.at(p.lim.low)
	p.area(bottom)
	for _, zone := range [][2]float64{{p.y.p0, top}, {bottom, p.y.p1}} {
		p.c.rect("warn", box{left, zone[0], right - left, zone[1] - zone[0]})
		p.c.path("shade bad", slanted(left, left+8, zone[0], zone[1], 7))
	}
	p.c.line("strong", left, top, right, top)
	p.c.line("strong", left, bottom, right, bottom)
	p.c.text(alert, left+14, top-8, "start", p.zoneWords("above", p.lim.high))
	p.c.text(alert, right-6, bottom+18, "end", p.zoneWords("below", p.lim.low))
}

// zoneWords names a harm zone, more briefly where there is little width.
func (p *plot) zoneWords(where string, v float64) string {
	text := where + " the safe window: harm"
	return alert.longest(p.x.p1-p.x.p0-20, text+", from "+volts(v)+" a cell, "+volts(v*p.series)+" for the bank",
		text+", "+volts(v)+" a cell", "harm "+where+" "+volts(v))
}

// area fills the daily window below the curve, down to the safe limit.
func (p *plot) area(bottom float64) {
	from, to := p.daily.LowSoC, p.daily.HighSoC
	if !(to > from) {
		return
	}
	t := (&trace{}).move(p.x.at(from), bottom)
	p.follow(t.to(p.x.at(from), p.y.at(p.curve.Voltage(from))), from, to)
	p.c.path("wash", t.to(p.x.at(to), bottom).close())
}

// follow traces the curve from one state of charge, where t is, to another.
func (p *plot) follow(t *trace, from, to float64) *trace {
	soc, volt := p.curve.Points()
	for i, s := range soc {
		if s > from && s < to {
			t.to(p.x.at(s), p.y.at(volt[i]))
		}
	}
	return t.to(p.x.at(to), p.y.at(p.curve.Voltage(to)))
}

// outline draws the curve, its daily part heavier.
func (p *plot) outline() {
	first, last := p.curve.Span()
	t := (&trace{}).move(p.x.at(0), p.y.at(first))
	p.c.path("line", p.follow(t, 0, 1))
	from, to := p.daily.LowSoC, p.daily.HighSoC
	if !(to > from) || first > last {
		return
	}
	t = (&trace{}).move(p.x.at(from), p.y.at(p.curve.Voltage(from)))
	p.c.path("curve", p.follow(t, from, to))
}
