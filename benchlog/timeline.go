package benchlog

import (
	"math"
	"slices"
)

const (
	maxSteps  = 1000       // clock steps kept; more say nothing new
	leastGap  = 60.0       // s; shorter pauses are no gaps
	farJump   = 30 * 86400 // s; a clock that jumps so far was set
	dayLength = 86400.0
)

// timeline turns the file's own time into seconds since the first row that
// never fall.
type timeline struct {
	started bool
	ofDay   bool // a clock without a date
	dated   bool
	first   float64 // own time at the start of this stretch
	raw     float64 // own time of the last row
	offset  float64 // what is added to it
	out     float64 // s, of the last row
	recent  [9]float64
	count   int // steps seen
	maybe   Gap // a long step that may be a new pace; the next step tells
	sum     *Summary
}

// at returns the time of a row from the file's own. cut is true when it does
// not follow the row before: after a restart, a gap or a step of the clock.
// steady says whether the measured values go on as if no time had passed.
func (t *timeline) at(raw float64, line int, steady func() bool) (s float64, cut bool) {
	if !t.started {
		t.started, t.first, t.raw, t.offset = true, raw, raw, -raw
		return 0, false
	}
	d := raw - t.raw
	if d < 0 {
		cut = t.backwards(raw, d, line)
	} else {
		cut = t.forwards(d, line, steady)
	}
	t.raw = raw
	t.out = max(t.out, raw+t.offset)
	return t.out, cut
}

func (t *timeline) forwards(d float64, line int, steady func() bool) (cut bool) {
	if d == 0 {
		return false
	}
	if d >= leastGap && t.count > 0 && d > 10*t.longest() {
		t.settleGap(0)
		usual := t.usual()
		summer := t.dated && math.Abs(d-3600) <= 3*usual && usual < 600 && steady()
		if summer || d > farJump {
			t.step(line, d-usual)
			t.offset -= d - usual
			return true
		}
		t.maybe = Gap{line, d}
		cut = true
	} else {
		t.settleGap(d)
	}
	t.recent[t.count%len(t.recent)] = d
	t.count++
	return cut
}

// backwards takes a fall of the file's own time: midnight, a restart, a clock
// that was set back, or a row that came late.
func (t *timeline) backwards(raw, d float64, line int) (cut bool) {
	usual := t.usual()
	switch {
	case t.ofDay && t.passes(d, dayLength, usual):
		t.offset += dayLength
		return false
	case t.ofDay && t.passes(d, dayLength/2, usual) && t.raw >= 12*3600 && t.raw < 13*3600:
		t.offset += dayLength / 2
		return false
	case !t.dated && raw-t.first <= max(10*usual, 0.02*(t.raw-t.first)) && -d > 3*usual:
		t.sum.Restarts++
		t.first = raw
		t.offset = t.out - raw
		if own := raw; own > 0 && own <= 2*usual {
			t.offset += own
		}
		return true
	}
	t.step(line, d)
	if -d > 3*usual {
		t.offset = t.out + usual - raw
		return true
	}
	return false
}

// passes reports whether a fall is the clock passing the end of its span.
func (t *timeline) passes(d, span, usual float64) bool {
	return d+span >= 0 && d+span <= max(60, 20*usual)
}

func (t *timeline) step(line int, d float64) {
	if len(t.sum.Steps) < maxSteps {
		t.sum.Steps = append(t.sum.Steps, ClockStep{line, d})
	}
}

// settleGap decides on the long step before: as the next is like it, the logger
// only changed its pace. next is 0 at the end of the file.
func (t *timeline) settleGap(next float64) {
	if g := t.maybe; g.Seconds > 0 && next < g.Seconds/3 {
		t.gap(g.Line, g.Seconds)
	}
	t.maybe = Gap{}
}

// gap keeps the ten longest gaps, longest first.
func (t *timeline) gap(line int, d float64) {
	at, _ := slices.BinarySearchFunc(t.sum.Gaps, d, func(g Gap, d float64) int {
		if g.Seconds >= d {
			return -1
		}
		return 1
	})
	t.sum.Gaps = slices.Insert(t.sum.Gaps, at, Gap{line, d})
	t.sum.Gaps = t.sum.Gaps[:min(10, len(t.sum.Gaps))]
}

// usual is the median of the last steps, in s.
func (t *timeline) usual() float64 {
	n := min(t.count, len(t.recent))
	if n == 0 {
		return 0
	}
	sorted := t.recent
	slices.Sort(sorted[:n])
	return sorted[n/2]
}

func (t *timeline) longest() float64 { return slices.Max(t.recent[:min(t.count, len(t.recent))]) }
