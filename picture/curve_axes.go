package picture

import "math"

// axes draws volts of a cell on the left, of the bank on the right, and the
// state of charge below, with the ends of the daily window among its ticks.
func (p *plot) axes() {
	p.c.text(small, 0, 17, "start", "V, cell at rest")
	p.c.text(small, p.c.width, 17, "end", "V, bank at rest")
	p.volts(p.x.p0, 1)
	p.volts(p.x.p1, p.series)
	y := p.y.p1
	p.c.line("axis", p.x.p0, y, p.x.p1, y)
	p.socTicks(y)
	p.c.text(small, p.x.p1, y+36, "end", "state of charge")
}

func (p *plot) volts(x, times float64) {
	lines := (&trace{}).move(x, p.y.p0).to(x, p.y.p1)
	anchor, out := "end", -5.0
	if x == p.x.p1 {
		anchor, out = "start", 5
	}
	every := voltStep(36*(p.y.v0-p.y.v1)*times/(p.y.p1-p.y.p0), p.y.v0*times)
	for _, v := range ticks(p.y.v1*times, p.y.v0*times, every) {
		y := p.y.at(v / times)
		if y < p.y.p0+5 || y > p.y.p1-5 {
			continue
		}
		lines.move(x, y).by(out*0.7, 0)
		p.c.text(tick, x+out*1.4, y+4, anchor, tickText(v, every))
	}
	p.c.path("axis", lines)
}

// socTicks writes the ends of the daily window in bold and round percentages
// where they leave room.
func (p *plot) socTicks(y float64) {
	var taken []box
	write := func(s style, soc float64) {
		text := percent(soc)
		w := s.measure(text)
		b := box{p.x.at(soc) - w/2, y + 8, w, s.size}
		for _, t := range taken {
			if b.overlaps(t, 8) {
				return
			}
		}
		taken = append(taken, b)
		p.c.line("axis", p.x.at(soc), y, p.x.at(soc), y+4)
		p.c.text(s, p.x.at(soc), y+18, "middle", text)
	}
	for _, soc := range []float64{p.daily.LowSoC, p.daily.HighSoC} {
		p.c.line("hair", p.x.at(soc), p.y.at(p.curve.Voltage(soc)), p.x.at(soc), p.y.at(p.lim.low))
		write(strong, soc)
	}
	every := 0.1
	if p.c.width < narrowBelow {
		every = 0.2
	}
	for _, soc := range ticks(0, 1, every) {
		write(tick, math.Min(soc, 1))
	}
}
