package picture

import (
	"strings"

	q "ampstead/quantity"
)

// overlaps reports whether two boxes come closer than gap.
func (b box) overlaps(o box, gap float64) bool {
	return b.x < o.x+o.w+gap && o.x < b.x+b.w+gap && b.y < o.y+o.h+gap && o.y < b.y+b.h+gap
}

// dailyMark marks one daily limit on the curve and labels it where the curve
// leaves room: the top limit to the left of the curve, the bottom one below it.
func (p *plot) dailyMark(v, soc float64, name string) {
	first, last := p.curve.Span()
	y := p.y.at(v)
	top := name == "daily top"
	brief, bank, when := name+" "+volts(v), ", bank "+volts(v*p.series), ""
	reached := v >= first && v <= last
	x, left, right := p.x.at(soc), p.x.p0, p.x.p1
	switch {
	case v > last:
		when = ", only while charging"
	case !reached:
		when = ", only under load"
	case top:
		right = x
	default:
		left = x
	}
	p.c.line("dash", left, y, right, y)
	if reached {
		p.c.dot("solid", x, p.y.at(p.curve.Voltage(soc)), 4.5)
	}
	at, anchor := p.x.p0+14, "start"
	if !top {
		at, anchor = max(p.x.at(p.daily.HighSoC)-8, (p.x.p0+p.x.p1)/2), "end"
	}
	for _, text := range []string{brief + bank + when, brief + when, brief} {
		for _, baseline := range []float64{y - 7, y + 16} {
			if p.say(plain, at, baseline, anchor, text) {
				return
			}
		}
	}
	p.unsaid = append(p.unsaid, brief+bank+when)
}

// say sets a text if it is clear of the frame, the curve, the lines of the
// daily limits and every text so far.
func (p *plot) say(s style, x, y float64, anchor, text string) bool {
	w := s.measure(text)
	b := box{x, y - 0.8*s.size, w, s.size}
	switch anchor {
	case "end":
		b.x -= w
	case "middle":
		b.x -= w / 2
	}
	if !p.free(b) {
		return false
	}
	p.c.text(s, x, y, anchor, text)
	return true
}

func (p *plot) free(b box) bool {
	const gap = 3
	if b.x < p.x.p0+gap || b.x+b.w > p.x.p1-gap || b.y < p.y.at(p.lim.high)+gap || b.y+b.h > p.y.at(p.lim.low)-gap {
		return false
	}
	for _, t := range p.c.texts {
		if b.overlaps(t, gap) {
			return false
		}
	}
	for _, v := range []float64{p.daily.CellLowV, p.daily.CellHighV} {
		if y := p.y.at(v); y > b.y-gap && y < b.y+b.h+gap {
			return false
		}
	}
	return !p.crosses(b, gap)
}

// crosses reports whether the curve runs through a box. The curve only rises,
// so its height at the box's two sides says all.
func (p *plot) crosses(b box, gap float64) bool {
	lowest := p.y.at(p.curve.Voltage(p.socAt(b.x - gap)))
	highest := p.y.at(p.curve.Voltage(p.socAt(b.x + b.w + gap)))
	return highest < b.y+b.h+gap && lowest > b.y-gap
}

func (p *plot) socAt(x float64) float64 { return (x - p.x.p0) / (p.x.p1 - p.x.p0) }

// energy writes the usable energy into the area it stands for, halfway between
// the curve and the foot of the area.
func (p *plot) energy(o Options) {
	amount := q.WattHours.Text(p.daily.UsableWh, o.Units)
	charge := q.AmpereHours.Text(p.daily.UsableAh, o.Units)
	under := "usable in the daily window, " + charge
	middle, aside := p.x.at((p.daily.LowSoC+p.daily.HighSoC)/2), 0.08*(p.x.p1-p.x.p0)
	for _, text := range []string{under, "usable, " + charge} {
		wide, tall := max(big.measure(amount), small.measure(text)), big.size+18
		for _, x := range []float64{middle, middle + aside, middle - aside} {
			if y, ok := p.roomiest(x-wide/2, wide, tall); ok {
				p.c.text(big, x, y+0.8*big.size, "middle", amount)
				p.c.text(small, x, y+tall-3, "middle", text)
				return
			}
		}
	}
	p.unsaid = append(p.unsaid, amount+" "+under)
}

// roomiest finds the middle of the longest run of heights below the curve where
// a box is free.
func (p *plot) roomiest(x, wide, tall float64) (top float64, ok bool) {
	const stride = 3.0
	longest, run := 0.0, 0.0
	for y := p.y.at(p.curve.Voltage(p.socAt(x))); y < p.y.at(p.lim.low); y += stride {
		if !p.free(box{x, y, wide, tall}) {
			run = 0
			continue
		}
		if run += stride; run > longest {
			longest, top = run, y-(run-stride)/2
		}
	}
	return top, longest > 0
}

// foot writes below the frame what found no room in it and returns the foot.
func (p *plot) foot() float64 {
	y := p.y.p1 + 42
	if len(p.unsaid) == 0 {
		return y
	}
	return caption(p.c, y, strings.Join(p.unsaid, "; ")+".")
}
