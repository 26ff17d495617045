package keep

import (
	"context"
	"math"

	"ampstead/figure"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/store"
)

// study is one run.
type study struct {
	rig     *rig.Rig
	fit     *fit.Result
	o       Options
	sys     q.System
	plant   *plant
	meter   store.Meter // taken where a reading names none
	visits  []*visit    // in order of time
	usable  []*visit    // those that tell the groups' charges
	events  []event     // balancings
	starts  []float64   // hour from which each group counts
	done    []store.Done
	track   []*track
	drawn   []drawn
	scaled  float64 // what the scatter made of the stated errors
	res     *Result
	figures figure.Ledger
}

// Run tells from the logbook how the bank is doing. It changes nothing it is
// given. fitted is what fit.Run gives for the same rig. Readings may come in any
// order; numbers that are none count as not read. Errors: ctx's when it is
// cancelled; what life.Run gives when the years ahead were asked for.
func Run(ctx context.Context, r *rig.Rig, fitted *fit.Result, readings []store.Reading, meters []store.Meter, done []store.Done, o Options) (*Result, error) {
	s := &study{rig: r, fit: fitted, o: o, plant: plantOf(r, fitted), meter: meterOf(r), scaled: 1, done: inOrder(done)}
	s.sys, _ = q.ParseSystem(r.About.Units) // anything else was refused by the reader
	s.res = &Result{Used: []Used{}, Groups: []Group{}, VisibleAfter: []Visible{}, Trend: []Point{}, Today: []Task{}, Back: []Change{}}
	s.drift(readings, meters)
	s.show()
	s.visible()
	s.limits()
	s.balance()
	s.capacity()
	s.resistance()
	s.next()
	s.today()
	s.back()
	s.find()
	s.figuresUsed()
	if o.Life {
		if err := s.years(ctx); err != nil {
			return nil, err
		}
	}
	s.res.Uses = s.figures.Uses
	return s.res, ctx.Err()
}

// drift brings the readings to like conditions and draws each group's drift.
func (s *study) drift(readings []store.Reading, meters []store.Meter) {
	s.visits = s.visitsOf(readings, meters)
	s.events, s.starts = s.eventsOf(s.done), s.startsOf(s.done)
	for _, v := range s.visits {
		s.bring(v)
		if v.weight > 0 {
			s.usable = append(s.usable, v)
		}
	}
	s.compare()
	s.track = s.tracks()
	s.res.Groups = s.groups()
}

// volts, amps and the like write a value in the rig's units.
func (s *study) volts(v float64) string    { return q.Volts.Text(v, s.sys) }
func (s *study) amps(v float64) string     { return q.Amperes.Text(v, s.sys) }
func (s *study) ampHours(v float64) string { return q.AmpereHours.Text(math.Round(10*v)/10, s.sys) }
