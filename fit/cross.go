package fit

import (
	"maps"
	"slices"
)

// usefulShare is the least part of the safe window's energy that the daily
// window must keep for the layers to count as fitting; ours.
const usefulShare = 0.25

// fits reports whether a settled ladder leaves a useful daily window between
// the innermost layers of both sides.
func (s *study) fits(l ladder) bool {
	top, bottom := s.cell.MaxV.Value, s.cell.MinV.Value
	for _, name := range highInward {
		top = innermost(l.by[name], top)
	}
	for _, name := range lowInward {
		bottom = innermost(l.by[name], bottom)
	}
	whole := s.energyBetween(s.cell.MinV.Value, s.cell.MaxV.Value)
	return top > bottom && s.energyBetween(bottom, top) >= usefulShare*whole
}

// culprit is one thing that takes room from the ladder: a device's tolerance or
// the spread of one side.
type culprit struct {
	path   string
	what   string // "accuracy of guard relay"
	taken  float64
	shrink func(m *limiter, by float64)
	at     func(by float64) string
}

// culprits lists what takes room, the largest first.
func (s *study) culprits() []culprit {
	found := map[string]culprit{}
	for _, name := range rising {
		for _, m := range s.ladder.by[name] {
			c := s.deviceCulprit(m)
			c.taken += found[c.path].taken
			found[c.path] = c
		}
	}
	for _, high := range []bool{true, false} {
		c := s.spreadCulprit(high)
		found[c.path] = c
	}
	list := slices.Collect(maps.Values(found))
	slices.SortFunc(list, func(a, b culprit) int {
		switch {
		case a.taken != b.taken && a.taken > b.taken:
			return -1
		case a.taken != b.taken:
			return 1
		case a.path < b.path:
			return -1
		}
		return 1
	})
	return list
}

// deviceCulprit is a device's accuracy, which counts on both sides of its band.
func (s *study) deviceCulprit(m *limiter) culprit {
	device := m.device
	c := culprit{path: m.path, what: "accuracy of " + device,
		taken: 2 * (m.th.Setting*m.th.Tolerance + m.th.Error) / m.th.Series,
		shrink: func(other *limiter, by float64) {
			if other.device == device {
				other.th.Tolerance *= by
				other.th.Error *= by
			}
		}}
	tolerance, error := m.th.Tolerance, m.th.Error
	c.at = func(by float64) string {
		if error > 0 {
			return s.volts(error * by)
		}
		return s.fine(tolerance * by)
	}
	return c
}

// spreadCulprit is the spread of one side; it counts once for every device that
// measures the whole bank.
func (s *study) spreadCulprit(high bool) culprit {
	path, what, spread := "bank.measured.spread_low", "spread between groups near empty", s.info.SpreadLo
	if high {
		path, what, spread = "bank.measured.spread_high", "spread between groups near full", s.info.SpreadHi
	}
	c := culprit{path: path, what: what,
		shrink: func(m *limiter, by float64) {
			if m.th.High == high {
				m.th.Spread *= by
			}
		},
		at: func(by float64) string { return s.volts(spread * by) }}
	for _, name := range rising {
		for _, m := range s.ladder.by[name] {
			if m.th.High == high && m.th.Series > 1 {
				c.taken += m.th.Spread
			}
		}
	}
	return c
}

// fitsWith tries the ladder with one culprit shrunk.
func (s *study) fitsWith(c culprit, by float64) bool {
	l := ladder{by: map[string][]*limiter{}}
	for name, members := range s.ladder.by {
		for _, m := range members {
			smaller := *m
			c.shrink(&smaller, by)
			l.by[name] = append(l.by[name], &smaller)
		}
	}
	s.settle(l, highInward, s.cell.MaxV.Value, 0)
	s.settle(l, lowInward, s.cell.MinV.Value, 0)
	return s.fits(l)
}

// largestThatFits halves its way to the largest share of a culprit that lets
// the layers fit; ok is false when even none of it would not.
func (s *study) largestThatFits(c culprit) (share float64, ok bool) {
	if !s.fitsWith(c, 0) {
		return 0, false
	}
	low, high := 0.0, 1.0
	for range 12 {
		if mid := (low + high) / 2; s.fitsWith(c, mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low, true
}
