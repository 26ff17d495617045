package prove

import (
	"math"

	"ampstead/benchlog"
)

// span is a discharge or charge: the segments from its first load to its last,
// with the pulses and rests between.
type span struct {
	charge      bool
	first, last int // indices into the segments
	before      int // index of the span before it in the same island, -1 when none
}

// netAh and netWh are what flowed, positive; at rest nothing is counted.
func (s *study) net(c span) (ah, wh float64) {
	a, b := s.segs[c.first].points[0], s.segs[c.last].end()
	ah, wh = b.ah-a.ah, b.wh-a.wh
	if !c.charge {
		ah, wh = -ah, -wh
	}
	return ah, wh
}

// spansOf joins what belongs together: a discharge goes on through rests and
// through pulses either way until something longer charges, until it has reached
// the low limit, or until time breaks off.
func (s *study) spansOf() []span {
	var list []span
	open := false
	next := 0 // first load that belongs to no span yet
	for k := range s.segs {
		seg := &s.segs[k]
		if k > 0 && seg.island != s.segs[k-1].island {
			open, next = false, k
		}
		charge := seg.MeanA > 0
		goesOn := open && list[len(list)-1].charge == charge && list[len(list)-1].last == k-1
		if !seg.load() || seg.Kind == kindPulse && !goesOn {
			continue
		}
		if open && list[len(list)-1].charge == charge {
			list[len(list)-1].last = k
		} else {
			list = append(list, span{charge: charge, first: s.firstLoad(next, k), last: k, before: s.spanBefore(list, seg.island)})
		}
		next = k + 1
		open = charge || !s.atLow(seg)
	}
	return list
}

// firstLoad is the first segment with current from index k on.
func (s *study) firstLoad(k, most int) int {
	for k < most && !s.segs[k].load() {
		k++
	}
	return k
}

func (s *study) spanBefore(list []span, island int) int {
	n := len(list) - 1
	if n >= 0 && s.segs[list[n].last].island == island {
		return n
	}
	return -1
}

// cellSpan is the lowest and highest voltage of one cell at an instant: of the
// groups where they were logged, else the terminals over the cells in series.
func (s *study) cellSpan(p sample) (low, high float64) {
	if s.groups == 0 {
		v := p.v / float64(s.series)
		return v, v
	}
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range p.groups {
		if !math.IsNaN(v) {
			low, high = min(low, v), max(high, v)
		}
	}
	return low, high
}

// meanCell is the mean voltage of a cell at an instant.
func (s *study) meanCell(p sample) float64 { return p.v / float64(s.series) }

const (
	flatShare = 0.35  // of the charge below the flat part of a curve: as far as that counts as empty
	reachV    = 0.010 // V a cell may miss a limit by and still count as there
	fullFrom  = 0.94  // state of charge of a rested cell from which it counts as full
	emptyTo   = 0.06  // and up to which it counts as empty
)

// atLow tells whether a discharging segment ends at the low limit. The sample
// that would have come next counts: a slow logger misses the end.
func (s *study) atLow(seg *segment) bool {
	low, _ := s.cellSpan(seg.end())
	falls := 0.0
	if own := seg.own(); len(own) > 2 {
		earlier, _ := s.cellSpan(own[len(own)-2])
		falls = math.Max(earlier-low, 0)
	}
	return low-falls <= s.res.Low+reachV
}

// atHigh is the same for a charge.
func (s *study) atHigh(seg *segment) bool {
	_, high := s.cellSpan(seg.end())
	rises := 0.0
	if own := seg.own(); len(own) > 2 && seg.Kind != kindHold {
		_, earlier := s.cellSpan(own[len(own)-2])
		rises = math.Max(high-earlier, 0)
	}
	return high+rises >= s.res.High-reachV
}

// whole tells whether a span runs from one limit to the other.
func (s *study) whole(c span, spans []span) (start, end bool) {
	last := &s.segs[c.last]
	if c.charge {
		end = s.atHigh(last)
	} else {
		end = s.atLow(last)
	}
	if c.before >= 0 {
		b := spans[c.before]
		seg := &s.segs[b.last]
		if b.charge && !c.charge && s.atHigh(seg) || !b.charge && c.charge && s.atLow(seg) {
			return true, end
		}
	}
	soc := s.socBefore(c)
	if c.charge {
		return soc <= s.socLow()+max(emptyTo, flatShare*s.kind.FlatFrom), end
	}
	return soc >= s.socHigh()-(1-fullFrom), end
}

// socHigh and socLow are the states of charge of a rested cell at the limits.
func (s *study) socHigh() float64 { return s.kind.Curve.SoC(s.res.High) }
func (s *study) socLow() float64  { return s.kind.Curve.SoC(s.res.Low) }

// socBefore is the state of charge on the curve before a span: from the sample
// before its load, or from its first one with the drop of a usual cell taken out.
func (s *study) socBefore(c span) float64 {
	seg := &s.segs[c.first]
	p := seg.points[0]
	if seg.first > 0 && math.Abs(p.a) < s.in.quietBelow() {
		return s.kind.Curve.SoC(s.meanCell(p))
	}
	drop := p.a * s.ohm / float64(s.series)
	if s.ohm == 0 {
		drop = p.a * s.kind.ResistanceOhm(s.sizeAh(), numberOr(p.tempC, 25))
	}
	return s.kind.Curve.SoC(s.meanCell(p) - drop)
}

// numbered tells whether the file numbers its cycles itself.
func (s *study) numbered() bool {
	for _, c := range s.sum.Layout.Columns {
		if c.Role == benchlog.Cycle {
			return true
		}
	}
	return false
}

// cyclesOf lists every discharge and charge.
func (s *study) cyclesOf(spans []span) []Cycle {
	list := make([]Cycle, 0, len(spans))
	for k, c := range spans {
		ah, wh := s.net(c)
		cy := Cycle{Number: k + 1, Kind: kindDischarge, From: s.segs[c.first].From, To: s.segs[c.last].To, ChargeAh: ah, EnergyWh: wh}
		if c.charge {
			cy.Kind = kindCharge
		}
		if s.numbered() {
			cy.Number = s.segs[c.first].Cycle
		}
		list = append(list, cy)
	}
	return list
}
