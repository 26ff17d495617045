package picture

import (
	"math"

	"ampstead/drill"
	q "ampstead/quantity"
)

// current draws the current of the bank; charging lies above the line.
func (r *playback) current(top, tall float64) float64 {
	amps := r.run(r.s.BankA, r.s.BankA)
	low, high := amps.extent()
	if !(low <= high) {
		return top
	}
	top = r.title(top, "Current of the bank, A", currentSaid(low, high))
	low, high = math.Min(low, 0), math.Max(high, 0)
	pad := math.Max(1, 0.08*(high-low))
	b := band{low - pad, high + pad, top, top + tall}
	if low == 0 {
		b.low = 0
	}
	r.axis(b, 26, tickText)
	zero := b.y(0)
	r.c.line("axis", r.x.p0, zero, r.x.p1, zero)
	r.c.path("fine", amps.course(b))
	if last := len(amps.x) - 1; last >= 0 {
		r.notes(b, []note{{b.y(amps.high[last]), []words{{small, r.brief("charging is up", "charging up")}}}})
	}
	return r.panel(b)
}

func currentSaid(low, high float64) string {
	switch {
	case high >= 0.5 && low <= -0.5:
		return "up to " + amperes(high) + " in, " + amperes(-low) + " out"
	case high >= 0.5:
		return "up to " + amperes(high) + " in"
	case low <= -0.5:
		return "up to " + amperes(-low) + " out"
	}
	return "next to none"
}

// warmth draws the bank between its coldest and its hottest cell, with the limits
// for charging and for harm where they are near.
func (r *playback) warmth(top, tall float64) float64 {
	bank := r.run(r.s.ColdC, r.s.HotC)
	low, high := bank.extent()
	if !(low <= high) {
		return top
	}
	said := degrees(low, r.units) + " to " + degrees(high, r.units)
	if ah := r.s.Out.FrostAh; ah >= 0.05 {
		said += ", " + q.AmpereHours.Text(figures(ah, 2), r.units) + " charged at or below " + degrees(r.s.FrostC, r.units)
	}
	top = r.title(top, "Temperature of the cells", said)
	const close = 8 // K within which a limit is worth showing
	if low-r.s.FrostC < close {
		low = math.Min(low, r.s.FrostC-1)
	}
	if r.s.HotMax-high < close {
		high = math.Max(high, r.s.HotMax+1)
	}
	w := r.warm(low, high, top, tall)
	notes := append(r.frost(w, r.s.FrostC), r.heat(w)...)
	bank = w.turn(bank)
	r.axis(w.band, 26, func(v, every float64) string { return tickText(v, every) + "°" })
	r.c.path("tone", bank.area(w.band))
	r.c.path("fine", bank.edge(w.band, bank.low))
	r.c.path("curve", bank.edge(w.band, bank.high))
	if last := len(bank.x) - 1; last >= 0 {
		notes = append(notes, note{w.y((bank.low[last] + bank.high[last]) / 2), []words{{plain, r.brief("coldest to hottest", "the cells")}}})
	}
	r.notes(w.band, notes)
	return r.panel(w.band)
}

// heat fills what lies above the hottest a cell may be.
func (r *playback) heat(w warmScale) []note {
	v := w.shown(r.s.HotMax)
	if !w.holds(v) || r.s.HotMax <= r.s.FrostC {
		return nil
	}
	r.c.rect("warn", box{r.x.p0, w.top, r.x.p1 - r.x.p0, w.y(v) - w.top})
	return []note{{w.y(v), []words{{alert, "harm above " + degrees(r.s.HotMax, r.units)}}}}
}

// clock writes the time since the fault below the panels.
func (r *playback) clock(y float64) float64 {
	unit, size := "s", 1.0
	for _, u := range []struct {
		name string
		size float64
	}{{"min", 60}, {"h", 3600}, {"days", 86400}} {
		if r.end >= 2.5*u.size {
			unit, size = u.name, u.size
		}
	}
	each := (r.x.p1 - r.x.p0) / (r.end / size)
	every := step(math.Max(1e-9, 56/each))
	lines := &trace{}
	for _, v := range ticks(0, r.end/size, every) {
		x := r.x.at(v * size)
		lines.move(x, y).by(0, 5)
		text := tickText(v, every)
		if half := tick.measure(text) / 2; x-half >= 0 {
			r.c.text(tick, x, y+18, "middle", text)
		}
	}
	r.c.path("axis", lines)
	said := unit + " since the fault"
	if r.s.Fault == "" {
		said = unit + " since the scene began"
	}
	if all := r.s.Time[len(r.s.Time)-1]; r.end < 0.99*all {
		said += ", of " + drill.Lapse(all) + " played"
	}
	l := newLabel(words{}, 0, r.c.width-r.x.p0, words{tick, said})
	l.draw(r.c, r.x.p0, y+21)
	return y + 21 + l.height
}
