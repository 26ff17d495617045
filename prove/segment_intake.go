package prove

import (
	"math"

	"ampstead/benchlog"
)

// Limits of what is kept of a log, however long it is.
const (
	mostRuns    = 20000  // stretches of one current
	mostSamples = 150000 // in all of them together
)

// intake takes the rows one by one and cuts them into runs: stretches in which
// the current was not switched. How large a step must be is told from the
// largest current and the noise seen so far; what cannot be told yet at the
// start of a log is cut too fine and joined later.
type intake struct {
	columns  int // of group voltages
	runs     []run
	kept     int // samples in closed runs
	now      reading
	before   reading
	rows     int
	skipped  int // rows without a voltage or a current
	ah, wh   float64
	island   int     // stretches of time that hang together
	interval float64 // s, before the row at hand

	scale  float64 // A, largest current held for two rows
	noise  float64 // A, mean change from row to row where nothing was switched
	least  float64 // A, step below which runs are joined; rises when there are too many
	noiseV float64 // V, standard error of a reading at the terminals at rest

	grain   grain
	counter counter
	warmth  warmth
	pace    pace
}

// reading is one row with what was worked out of it.
type reading struct {
	sample
	cycle int
	quiet bool
}

// take reads a row. It never fails: a row without voltage or current is counted.
func (in *intake) take(row *benchlog.Row) error {
	in.rows++
	v := terminalV(row)
	if math.IsNaN(v) || math.IsNaN(row.Amps) {
		in.skipped++
		return nil
	}
	in.before, in.now = in.now, in.before
	in.now.set(row, v)
	if len(in.runs) == 0 {
		in.columns = len(row.Groups)
		in.open(false)
	} else {
		in.step()
	}
	in.now.ah, in.now.wh = in.ah, in.wh
	in.last().add(&in.now)
	in.grain.see(row.Amps, v, row.Groups)
	in.counter.see(row.ChargeAh, in.ah, in.island)
	in.warmth.see(row.TempsC)
	return nil
}

// terminalV is the voltage at the terminals; without one, the sum of the groups.
func terminalV(row *benchlog.Row) float64 {
	if !math.IsNaN(row.Volts) || len(row.Groups) == 0 {
		return row.Volts
	}
	sum := 0.0
	for _, v := range row.Groups {
		sum += v
	}
	return sum
}

func (r *reading) set(row *benchlog.Row, v float64) {
	r.t, r.v, r.a, r.cycle = row.Time, v, row.Amps, row.Cycle
	r.groups = append(r.groups[:0], row.Groups...)
	r.tempC = hottest(row.TempsC)
}

func hottest(temps []float64) float64 {
	hot := math.NaN()
	for _, c := range temps {
		if !(c <= hot) && !math.IsNaN(c) {
			hot = c
		}
	}
	return hot
}

// step integrates from the row before to this one and opens a new run where the
// current was switched or time does not hang together.
func (in *intake) step() {
	a, b := &in.before, &in.now
	if apart(a, b) {
		in.island++
		in.open(false)
		in.mark()
		return
	}
	in.mark()
	hours := in.flowed(b.t-a.t) / 3600
	in.ah += hours * (a.a + b.a) / 2
	in.wh += hours * (a.a*a.v + b.a*b.v) / 2
	in.pace.see(b.t-a.t, hours*(a.a+b.a)/2, b.t)
	if in.switched() || a.cycle != b.cycle {
		in.open(true)
	}
}

func (in *intake) last() *run { return &in.runs[len(in.runs)-1] }

// open closes the run at hand and starts the next; base says whether the row
// before belongs to it as its base.
func (in *intake) open(base bool) {
	if len(in.runs) > 0 {
		in.last().close()
		in.kept += len(in.last().points)
		in.makeRoom()
	}
	r := run{island: in.island, cycle: in.now.cycle, from: in.now.t}
	if base {
		r.points = append(r.points, in.before.copy())
		r.based = true
	}
	in.runs = append(in.runs, r)
}

func (r *reading) copy() sample {
	s := r.sample
	if len(s.groups) > 0 {
		s.groups = append([]float64(nil), s.groups...)
	}
	return s
}

// makeRoom keeps memory bounded: too many samples are thinned, too many runs
// joined, with a step that grows until they fit. Where even that does not do,
// the oldest half goes.
func (in *intake) makeRoom() {
	if in.kept > mostSamples {
		in.kept = thinAll(in.runs, mostSamples/2/len(in.runs))
	}
	for len(in.runs) > mostRuns {
		in.least = math.Max(2*in.least, 0.03*in.scale)
		if in.least > 8*in.scale {
			in.runs = append(in.runs[:0], in.runs[mostRuns/2:]...)
			return
		}
		in.runs = join(in.runs, in.quietBelow(), in.least)
	}
}
