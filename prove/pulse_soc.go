package prove

import "math"

// placeJumps works out the state of charge at every step: counted from a full
// discharge or charge that hangs together with it, else read from the rest
// before it where the curve allows.
func (s *study) placeJumps(spans []span) {
	for k := range s.jumps {
		j := &s.jumps[k]
		if soc, ok := s.countedSoC(j, spans); ok {
			j.soc = min(max(soc, 0), 1)
			j.SoC = j.soc
			continue
		}
		if !j.fromRest || s.leads {
			continue
		}
		if soc := s.kind.Curve.SoC(s.meanCell(j.base)); !s.onFlat(soc, false) {
			j.soc = soc
			j.SoC = j.soc
		}
	}
}

// countedSoC counts charge from the last full discharge or charge at or before a
// step, else from the first after it.
func (s *study) countedSoC(j *jump, spans []span) (soc float64, ok bool) {
	for k, c := range spans {
		cy := &s.res.Cycles[k]
		if !cy.Full || s.segs[c.first].island != j.island || ok && s.segs[c.first].From > j.At {
			continue
		}
		ah := j.base.ah - s.segs[c.first].points[0].ah
		soc, ok = ah/cy.CapacityAh, true
		if !c.charge {
			soc++
		}
	}
	return soc, ok
}

// findOhm takes what a usual step of this log shows, and tells whether the
// voltage was sensed through the leads: then it jumps with the current by many
// times what the cells resist.
func (s *study) findOhm(spans []span) {
	for _, c := range spans {
		ah, _ := s.net(c)
		s.size = max(s.size, ah)
	}
	var early []float64
	for k := range s.jumps {
		if j := &s.jumps[k]; j.first.seconds <= 5 {
			early = append(early, j.first.ohm)
		}
	}
	s.ohm = s.usualOhm()
	model := float64(s.series) * s.kind.ResistanceOhm(s.sizeAh(), 25)
	if shown := middleOf(early); s.sizeAh() > 0 && shown > leadsTimes*model {
		s.leads = true
		s.warnLeads(shown, model)
	}
}

// usualOhm is what steps of this log show after 10 s: out of rest into a
// discharge, else any.
func (s *study) usualOhm() float64 {
	var clean, all []float64
	for k := range s.jumps {
		j := &s.jumps[k]
		ohm := j.first.ohm
		for i, share := range [3]float64{1, 0.8, 1.3} { // of the 10 s resistance: 10, 30 and 1 s, pouch pulse test
			if at := j.ohms[[3]int{1, 2, 0}[i]]; at > 0 {
				ohm = share * at
				break
			}
		}
		if all = append(all, ohm); j.fromRest && j.Amps < 0 {
			clean = append(clean, ohm)
		}
	}
	if len(clean) == 0 {
		clean = all
	}
	return max(middleOf(clean), 0)
}

// leadsTimes is how many times the usual resistance a jump of voltage must show
// to be put down to leads: bad cells show three or four times.
const leadsTimes = 8

// sizeAh is the capacity to expect: rated, or the most that flowed one way.
func (s *study) sizeAh() float64 {
	if s.o.RatedAh > 0 {
		return s.o.RatedAh
	}
	return s.size
}

// score ranks a step by how clean its resistance is and how near half full it
// was taken, lower is better: a discharge out of rest is best.
func (j *jump) score(most float64) float64 {
	kind := 3.0
	switch {
	case j.fromRest && j.Amps < 0 && -j.Amps > 0.3*most:
		kind = 0
	case j.fromRest && math.Abs(j.Amps) > 0.3*most:
		kind = 1
	case j.toRest:
		kind = 2
	}
	if math.IsNaN(j.soc) {
		return 0.15*kind + unknownHalf
	}
	return 0.15*kind + math.Abs(j.soc-0.5)
}

// unknownHalf is how far from half full a step counts whose charge is not known.
const unknownHalf = 0.3
