package prove

import (
	"ampstead/benchlog"
	"ampstead/figure"
	"ampstead/physics/cell"
)

// sample is one kept instant of the log.
type sample struct {
	t, v, a float64   // s, V, A positive charging
	ah, wh  float64   // running from the start of the log, positive charging; offsets at rest are left out
	tempC   float64   // hottest sensor, NaN when there is none
	groups  []float64 // V by group, nil when the log has none
}

// segment is a Segment with its samples, thinned to about six hundred: the
// first 60 s and the last samples are kept as they were logged. points[0] is the
// last sample before the segment where there is one.
type segment struct {
	Segment
	points []sample

	first   int     // index of its own first sample: 1 when points[0] lies before it, else 0
	island  int     // segments of one island follow one another in time
	off     sumOff  // of the groups against the terminals
	driftAh float64 // what the meter counted while nothing flowed, left out of the running charge
}

// own returns the samples of the segment itself.
func (seg *segment) own() []sample { return seg.points[seg.first:] }

// end returns its last sample.
func (seg *segment) end() sample { return seg.points[len(seg.points)-1] }

// lasts is its length from the sample before it, s.
func (seg *segment) lasts() float64 { return seg.end().t - seg.points[0].t }

// load tells whether current flows.
func (seg *segment) load() bool { return seg.Kind != kindRest }

// study is one run: what is known beside the log, what was measured, and every
// figure used on the way.
type study struct {
	o      Options
	kind   *cell.Cell
	series int // cells in series
	groups int // columns of group voltages, 0 when there are none
	sum    *benchlog.Summary
	segs   []segment
	in     *intake // what was seen of every row on the way
	jumps  []jump
	size   float64 // Ah, the most that flowed one way
	ohm    float64 // whole, as a step shows it in this log, for taking drops out; 0 unknown
	leads  bool    // the voltage was sensed through the leads that carry the current
	res    *Result

	figures figure.Ledger
}

// warn adds a fault of the log: what was found, with its numbers, and what it
// spoils.
func (s *study) warn(id, found, because string) {
	s.res.Warnings = append(s.res.Warnings, Warning{ID: id, Found: found, Because: because})
}
