package prove

import "math"

// stepShare is the doubt of a resistance from one step beside the meter's: which
// sample counts as its start.
const stepShare = 0.03

// groupOhm is a group's 10 s resistance, the median over the steps that lie
// between nearly empty and full, as measured at the log's temperature.
func (s *study) groupOhm(g int) (ohm, sigma float64) {
	if s.leads {
		return 0, 0
	}
	var all, errors []float64
	step := s.stepV(g)
	for k := range s.res.Pulses {
		p := &s.res.Pulses[k]
		v := p.Ohm10
		if s.groups > 0 {
			v = 0
			if g < len(p.Groups) {
				v = p.Groups[g]
			}
		}
		if !(v > 0) || p.Amps == 0 || p.SoC > 0 && p.SoC < 0.15 {
			continue
		}
		all = append(all, v)
		errors = append(errors, step/math.Abs(p.Amps))
	}
	if len(all) == 0 {
		return 0, 0
	}
	ohm = middleOf(all)
	return ohm, math.Hypot(middleOf(errors), stepShare*ohm)
}

// stepV is the error of a difference of two readings of a group that only show so
// many digits: √2 of a twelfth of the digit's square.
func (s *study) stepV(g int) float64 {
	digit := math.Inf(1)
	for k := range s.segs {
		points := s.segs[k].points
		for j := 1; j < len(points); j++ {
			if d := math.Abs(points[j].groupV(g) - points[j-1].groupV(g)); d > 1e-5 && d < digit {
				digit = d
			}
		}
	}
	if math.IsInf(digit, 1) {
		digit = 0.001
	}
	return digit * math.Sqrt(2.0/12)
}

// medianOhm is the median of the groups' resistances, 0 when none is known.
func (s *study) medianOhm() float64 {
	var list []float64
	for _, g := range s.res.Groups {
		if g.Ohm > 0 {
			list = append(list, g.Ohm)
		}
	}
	return middleOf(list)
}
