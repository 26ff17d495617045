package prove

import (
	"fmt"
	"math"
)

const (
	shortestRestS = 600       // a stretch without current that is worth telling of
	tellsLeakS    = 12 * 3600 // rest from which a leak can be told from relaxation
	groupLeakS    = 3600      // rest from which groups can be compared: they relax alike
	creepAlike    = 0.2       // by how much of the common creep groups may differ
)

// rests reads every stretch without current.
func (s *study) rests() []Rest {
	list := []Rest{}
	for k := range s.segs {
		seg := &s.segs[k]
		if seg.Kind == "rest" && seg.To-seg.From >= shortestRestS && len(seg.points) > 8 {
			list = append(list, s.readRest(seg))
		}
	}
	return list
}

// readRest tells what a rest says of self-discharge. The voltage of the whole is
// split into a straight fall and a relaxation that dies away.
func (s *study) readRest(seg *segment) Rest {
	d := decayOf(seg.points, func(p *sample) float64 { return p.v })
	r := Rest{From: seg.From, Hours: (seg.To - seg.From) / 3600, SlopeV: d.endSlope}
	r.Settled = d.settled()
	v := seg.points[len(seg.points)-1].v / float64(s.series)
	soc, slope := s.stands(v)
	perVolt := 1000 * s.wholeAh() / slope / float64(s.series) // mA for each V/h of the whole
	switch {
	case seg.To-seg.From < tellsLeakS:
		r.Bound, r.Note = true, fmt.Sprintf("%.1f h is too short to tell self-discharge from relaxation", r.Hours)
	case s.flat(soc):
		r.Bound, r.Note = true, "the curve is flat here: the voltage tells no charge"
	case s.wholeAh() == 0:
		r.Bound, r.Note = true, "the capacity is not known, so a fall in voltage is no current"
	case d.endSlope > -beyondNoise*d.noise:
		r.Bound, r.LeakMA, r.Note = true, beyondNoise*d.noise*perVolt, "no fall beyond the noise of the meter"
	case !r.Settled:
		r.Bound, r.LeakMA = true, -d.endSlope*perVolt
		r.Note = fmt.Sprintf("still relaxing: the fall of %.1f mV a day at the end is an upper bound for self-discharge, which may be %.1f mV a day or less",
			-24e3*d.endSlope, -24e3*d.steady)
	default:
		r.LeakMA = -d.steady * perVolt
		r.Note = fmt.Sprintf("a steady fall of %.1f mV a day once relaxation is taken off", -24e3*d.steady)
	}
	return r
}

func (s *study) flat(soc float64) bool {
	return s.kind.FlatTo > 0 && soc > s.kind.FlatFrom && soc < s.kind.FlatTo
}

// wholeAh is the capacity of the whole, as measured or as rated; 0 unknown.
func (s *study) wholeAh() float64 {
	if s.res.CapacityAh > 0 {
		return s.res.CapacityAh
	}
	return s.o.RatedAh
}

// groupLeaks compares the groups over the longest rest: what one loses beyond the
// median is its own leak, for shared self-discharge, relaxation and the meter's
// drift drop out of the difference. Each voltage is read along the curve, so that
// groups at different charge compare. Nil when there is no such rest, or where the
// curve is flat.
func (s *study) groupLeaks() []estimate {
	rest := s.longestRest()
	if s.groups < 3 || rest == nil || rest.lasts() < groupLeakS || s.wholeAh() == 0 {
		return nil
	}
	late := rest.points[len(rest.points)/4:]
	leaks := make([]estimate, s.groups)
	all := make([]float64, s.groups)
	for g := range leaks {
		soc := func(p *sample) float64 { at, _ := s.stands(p.groupV(g)); return at }
		last := &late[len(late)-1]
		if s.flat(soc(last)) {
			return nil
		}
		_, slope := s.stands(last.groupV(g))
		l := lineOf(late, func(p *sample) float64 { return soc(p) * slope }) // volts again, were the curve straight
		perVolt := 1000 * s.wholeAh() / slope                                // mA for each V/h
		leaks[g] = estimate{-l.slope * perVolt, l.sigma * perVolt}
		all[g] = leaks[g].value
	}
	common := middleOf(all)
	creep := math.Abs(s.commonCreep(rest, late)) * creepAlike
	for g := range leaks {
		own := leaks[g].value - common
		leaks[g] = estimate{own, math.Sqrt(sq(leaks[g].sigma) + sq(creep) + sq(curveShare*own))}
	}
	return leaks
}

// commonCreep is the current (mA) that the relaxation of the middle group would
// pass for.
func (s *study) commonCreep(rest *segment, late []sample) float64 {
	_, slope := s.stands(medianV(&late[len(late)-1]))
	return 1000 * s.wholeAh() / slope * decayOf(rest.points, medianV).creep
}

func (s *study) longestRest() *segment {
	var longest *segment
	for k := range s.segs {
		seg := &s.segs[k]
		if !seg.load() && len(seg.points) > 8 && (longest == nil || seg.lasts() > longest.lasts()) {
			longest = seg
		}
	}
	return longest
}

func medianV(p *sample) float64 { return middleOf(p.groups) }
