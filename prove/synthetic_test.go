package prove

import (
	"math"
	"math/rand/v2"
	"testing"

	"ampstead/benchlog"
	"ampstead/physics/bank"
	"ampstead/physics/cell"
)

// bench is a test stand with a module of known properties on it.
type bench struct {
	bank   *bank.Bank
	noise  *rand.Rand
	now    float64
	rows   []benchlog.Row
	digit  float64 // V, what the group meters show
	hidden bool    // the log has no groups
}

func newBench(t *testing.T, s bank.Spec, seed uint64) *bench {
	t.Helper()
	s.MassKg, s.LossWPerK, s.NeighbourWPerK = 20, 3, 2
	b, err := bank.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return &bench{bank: b, noise: rand.New(rand.NewPCG(seed, 7)), digit: 0.001}
}

// run lets a current flow (A, positive charging) for so many seconds, or until
// stop says so, and logs every so many seconds.
func (b *bench) run(amps, seconds, every float64, stop func(*bank.Bank) bool) {
	for t := 0.0; t < seconds; t += every {
		b.bank.Step(amps, every, 22, 0)
		b.now += every
		b.log(amps)
		if stop != nil && stop(b.bank) {
			return
		}
	}
}

func (b *bench) log(amps float64) {
	r := benchlog.Row{Line: len(b.rows) + 2, Time: b.now, Volts: b.read(b.bank.Volts(), 0.001), Amps: amps + 0.002*b.noise.NormFloat64(),
		TempsC: []float64{22}, ChargeAh: math.NaN(), EnergyWh: math.NaN()}
	for _, v := range b.bank.Voltages() {
		r.Groups = append(r.Groups, b.read(v, 0.0005))
	}
	b.rows = append(b.rows, r)
}

// read is a voltage as a meter shows it.
func (b *bench) read(v, noise float64) float64 {
	return math.Round((v+noise*b.noise.NormFloat64())/b.digit) * b.digit
}

// judged runs the whole stage over the rows.
func (b *bench) judged(t *testing.T, o Options) *Result {
	t.Helper()
	s, err := newStudy(o)
	if err != nil {
		t.Fatal(err)
	}
	for k := range b.rows {
		if err := s.take(&b.rows[k]); err != nil {
			t.Fatal(err)
		}
	}
	s.sum = &benchlog.Summary{}
	if !b.hidden {
		s.sum.Layout.Groups = b.bank.Groups()
	}
	for _, step := range []func() error{s.measure, s.judge} {
		if err := step(); err != nil {
			t.Fatal(err)
		}
	}
	return s.res
}

// truth is what a module on the bench is.
type truth struct {
	ah, behind, lost []float64
	ohm              []float64
}

// module makes a spec of six groups that differ as those of a used module do, at
// the top of charge, and its truth.
func module(kind *cell.Cell, r *rand.Rand) (bank.Spec, truth) {
	const n = 6
	tr := truth{make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)}
	s := bank.Spec{Cell: kind, Series: n, CapacityAh: 60, SoC: 1, TempC: 22, GroupSoC: make([]float64, n)}
	best := 0.0
	for k := range n {
		tr.ah[k] = 60 - 6*r.Float64()
		tr.behind[k] = 4 * r.Float64()
		tr.ohm[k] = 0.062 / 60 * (0.9 + 0.3*r.Float64())
		best = max(best, tr.ah[k])
	}
	tr.behind[r.IntN(n)] = 0
	least := 60.0
	for _, b := range tr.behind {
		least = min(least, b)
	}
	for k := range n {
		tr.behind[k] -= least
		tr.lost[k] = best - tr.ah[k]
		s.GroupSoC[k] = 1 - tr.behind[k]/tr.ah[k]
	}
	s.GroupCapacityAh, s.GroupResistanceOhm = tr.ah, tr.ohm
	return s, tr
}

// off makes a cell whose curve lies off the library's as a true cell's may: up
// and down by its doubt and sideways by a percent, as standard deviations.
func off(t *testing.T, kind *cell.Cell, r *rand.Rand) *cell.Cell {
	t.Helper()
	soc, volt := kind.Curve.Points()
	up, side := kind.RestDoubtV.Value*r.NormFloat64()*1.4, 0.014*r.NormFloat64()
	waves, phase := 2+2*r.Float64(), 2*math.Pi*r.Float64()
	v := make([]float64, len(volt))
	for k := range volt {
		at := soc[k] + side*math.Sin(math.Pi*soc[k])
		v[k] = kind.Curve.Voltage(at) + up*math.Sin(waves*math.Pi*soc[k]+phase)*math.Sin(math.Pi*soc[k])
		if k > 0 && v[k] <= v[k-1] {
			v[k] = v[k-1] + 1e-5
		}
	}
	curve, err := cell.NewCurve(soc, v)
	if err != nil {
		t.Fatal(err)
	}
	own, err := kind.With(curve, 0, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	return own
}

func lookup(t *testing.T, name string) *cell.Cell {
	t.Helper()
	kind, err := cell.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return kind
}

// emptied tells whether the first group has come down to a voltage.
func emptied(v float64) func(*bank.Bank) bool {
	return func(b *bank.Bank) bool { low, _ := b.Span(); return low <= v }
}
