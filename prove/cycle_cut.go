package prove

// cut takes off what a span moved beyond limits that were given: a test may go
// deeper or higher than the module will be used.
func (s *study) cut(c span, cy *Cycle, reached bool) {
	from, to := s.segs[c.first].points[0], s.segs[c.last].end()
	if s.o.HighV > 0 && !c.charge {
		from = s.firstBelowHigh(c, from)
	}
	switch {
	case reached && s.o.LowV > 0 && !c.charge:
		to = s.crossing(c, to, func(p sample) float64 { low, _ := s.cellSpan(p); return s.o.LowV - low })
	case reached && s.o.HighV > 0 && c.charge:
		to = s.crossing(c, to, func(p sample) float64 { _, high := s.cellSpan(p); return high - s.o.HighV - reachV })
	}
	cy.From, cy.To = from.t, to.t
	cy.ChargeAh, cy.EnergyWh = to.ah-from.ah, to.wh-from.wh
	if !c.charge {
		cy.ChargeAh, cy.EnergyWh = -cy.ChargeAh, -cy.EnergyWh
	}
}

// crossing is the first instant of a span's long loads at which beyond is above
// zero. A limit overrun by a row or two is the logger's pace, not a deeper test.
func (s *study) crossing(c span, end sample, beyond func(sample) float64) sample {
	for k := c.first; k <= c.last; k++ {
		seg := &s.segs[k]
		if !seg.load() || seg.Kind == kindPulse {
			continue
		}
		own := seg.own()
		for i := 0; i < len(own)-2; i++ {
			over := beyond(own[i])
			if over <= 0 {
				continue
			}
			if before := beyond(own[max(i-1, 0)]); before < 0 {
				return mixed(own[i-1], own[i], before/(before-over))
			}
			return own[i]
		}
	}
	return end
}

// firstBelowHigh is the instant of a discharge from which every cell would rest
// at or below the high limit given: what lies above it does not count.
func (s *study) firstBelowHigh(c span, from sample) sample {
	perAmp := longOver * s.ohm / float64(s.series)
	above := func(p sample) bool {
		_, high := s.cellSpan(p)
		return high-p.a*perAmp > s.o.HighV+reachV
	}
	if !above(from) {
		return from
	}
	for k := c.first; k <= c.last; k++ {
		for _, p := range s.segs[k].own() {
			if s.segs[k].load() && !above(p) {
				return p
			}
		}
	}
	return from
}

// longOver is a load's over-potential after many minutes over that of its 10 s
// resistance, as the rests of the pouch's pulse test show.
const longOver = 1.9
