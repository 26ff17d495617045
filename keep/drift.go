package keep

import (
	"math"
	"time"
)

const (
	statedWeight = 30.0 // readings' worth of trust in the meter's stated error against the scatter seen
	leastScale   = 0.5  // of the stated error: a coarse step can hide all scatter
	recentLevels = 5
	middleShare  = 0.8 // by which the median of n deviations from a median falls short, n/(n − 0.8)
)

// tracks gathers each group's offsets.
func (s *study) tracks() []*track {
	list := make([]*track, s.plant.n)
	if len(s.usable) == 0 {
		return list
	}
	end := s.usable[len(s.usable)-1].hours
	from, events := s.reach()
	room := &space{make([]row, len(s.usable)), make([]float64, len(s.usable))}
	for k := range list {
		t := &track{room: room}
		for _, v := range s.usable {
			if v.hours < from || v.hours < s.starts[k] || !known(v.offset[k]) {
				continue
			}
			t.hours = append(t.hours, v.hours-end)
			t.offset = append(t.offset, v.offset[k])
			t.sigma = append(t.sigma, v.errAh[k])
			t.below = append(t.below, v.below/s.plant.bankAh)
		}
		s.balanced(t, k, events, end)
		list[k] = t
	}
	s.share(list)
	s.scale(list)
	return list
}

// reach is the hour from which readings count and the balancings after it.
func (s *study) reach() (from float64, events []event) {
	from = math.Inf(-1)
	events = s.events
	if n := len(events) - eventsKept; n > 0 {
		from, events = events[n-1].hours, events[n:]
	}
	return from, events
}

// balanced adds a step to a track for each balancing between its readings.
func (s *study) balanced(t *track, k int, events []event, end float64) {
	for _, e := range events {
		at := e.hours - end
		if len(t.hours) == 0 || at <= t.hours[0] || at > t.hours[len(t.hours)-1] {
			continue
		}
		if n := len(t.steps); n > 0 && !between(t.hours, t.steps[n-1], at) { // no reading between two of them
			t.stated[n-1] = prior{}
			continue
		}
		t.steps = append(t.steps, at)
		t.stated = append(t.stated, s.shift(e, k))
	}
}

func between(hours []float64, from, to float64) bool {
	for _, h := range hours {
		if h >= from && h < to {
			return true
		}
	}
	return false
}

// shift is by how much a balancing moved a group against the middle one.
func (s *study) shift(e event, k int) prior {
	if e.ah == nil {
		return prior{}
	}
	before := s.standing(e.hours)
	after := make([]float64, len(before))
	for j := range after {
		after[j] = before[j] + e.ah[j]
	}
	moved := middle(after)
	if !known(moved) {
		return prior{}
	}
	return prior{value: e.ah[k] - moved, err: math.Hypot(statedShare*math.Abs(e.ah[k]), statedLeastAh)}
}

// standing is where the groups stood before an hour: the middle of the last few
// readings of each.
func (s *study) standing(hours float64) []float64 {
	levels := make([]float64, s.plant.n)
	for k := range levels {
		var last []float64
		for j := len(s.usable) - 1; j >= 0 && len(last) < recentLevels; j-- {
			if v := s.usable[j]; v.hours < hours && known(v.offset[k]) {
				last = append(last, v.offset[k])
			}
		}
		levels[k] = middle(last)
	}
	return levels
}

// scale moves all errors to what the scatter about straight lines shows, as far
// as there are readings enough to trust it more than the meter's sheet.
func (s *study) scale(list []*track) {
	var all []float64
	free := 0
	for _, t := range list {
		d := t.fit(shape{})
		if !d.ok || len(t.hours) <= 2+len(t.steps) {
			continue
		}
		free += len(t.hours) - 2 - len(t.steps)
		for k := range t.hours {
			r := t.row(shape{}, d.layout, k)
			all = append(all, math.Abs(t.offset[k]-d.value(&r))/t.sigma[k])
		}
	}
	if len(all) == 0 {
		return
	}
	// The median of a normal scatter is 0.6745 sigma. The fits took their share, and
	// so did the middle of few groups, one or two of which it always is.
	n := float64(s.plant.n)
	seen := middle(all) / 0.6745 * n / (n - middleShare)
	seen *= seen * float64(len(all)) / float64(free)
	s.scaled = math.Sqrt((statedWeight + float64(free)*seen) / (statedWeight + float64(free)))
	s.scaled = math.Max(s.scaled, leastScale)
	for _, t := range list {
		for k := range t.sigma {
			t.sigma[k] *= s.scaled
		}
	}
}

// groups draws every group's drift.
func (s *study) groups() []Group {
	list := make([]Group, s.plant.n)
	s.drawn = make([]drawn, s.plant.n)
	levels := nans(s.plant.n)
	for k, t := range s.track {
		g := &list[k]
		g.Number = k + 1
		if t == nil || len(t.hours) == 0 {
			continue
		}
		d := t.draw()
		s.drawn[k] = d
		if !d.ok { // a single reading, or none apart in time
			last := len(t.hours) - 1
			levels[k], g.OffsetErr = t.offset[last], t.sigma[last]
			continue
		}
		levels[k], g.OffsetErr = d.level()
		slope, err := d.slope()
		g.DriftMA, g.DriftErr = -1000*slope, 1000*err
		g.Drifts = d.told(len(t.hours))
		if g.Drifts {
			g.Since = s.since(t, d)
		}
		g.Step = s.jumpOf(d)
	}
	zero := middle(levels)
	for k := range list {
		if known(levels[k]) {
			list[k].OffsetAh = levels[k] - zero
		}
	}
	return list
}

// at is the time so many hours before the last usable visit.
func (s *study) at(hours float64) time.Time {
	last := s.usable[len(s.usable)-1].reading.Taken
	return last.Add(time.Duration(hours * float64(time.Hour)))
}

// since is when the present drift could first be told with these readings:
// when its size came to stand out of the error that a slope had by then.
func (s *study) since(t *track, d drawn) string {
	slope, _ := d.slope()
	from, limit := t.hours[0], told
	if d.shape.bend == kink {
		from, limit = d.at, toldBroken
	}
	var a, b, c float64
	for k, h := range t.hours {
		w, x := 1/(t.sigma[k]*t.sigma[k]), math.Max(0, h-from)
		a, b, c = a+w, b+w*x, c+w*x*x
		if det := a*c - b*b; k+1 >= leastTold && det > 1e-9*a*c && math.Abs(slope) > limit*math.Sqrt(a/det) {
			return day(s.at(h))
		}
	}
	return day(s.at(0))
}
