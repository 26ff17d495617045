package keep

import (
	"ampstead/internal/worked"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/internal/near"
	"ampstead/rig"
	"ampstead/store"

	q "ampstead/quantity"
)

// bankOf is a rig of a few equal groups of a library cell.
func bankOf(t testing.TB, kind string, series int, ah float64) (*rig.Rig, *fit.Result) {
	t.Helper()
	file, err := rig.Parse("rig.yaml", fmt.Appendf(nil, "about: {name: bench}\nbank:\n  cell: %s\n  series: %d\n  cell_capacity: %g Ah\n", kind, series, ah))
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	return file.Rig, res
}

// visitAt is a rested reading some days after the start.
func visitAt(days float64, groups ...float64) store.Reading {
	return store.Reading{ID: fmt.Sprint("d", days), Version: 1, Taken: start.Add(time.Duration(days * 24 * float64(time.Hour))),
		Groups: volts(groups...), RestH: as(24), Amps: as(0), Meter: "fine"}
}

var fine = []store.Meter{{Name: "fine", StepV: 0.0001, ErrorV: 0.001}}

func ran(t testing.TB, r *rig.Rig, f *fit.Result, list []store.Reading, done ...store.Done) *Result {
	t.Helper()
	now := start
	for _, x := range list {
		if x.Taken.After(now) {
			now = x.Taken
		}
	}
	res, err := Run(context.Background(), r, f, list, fine, done, Options{Now: now})
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// The curve of Chen et al. 2020, 50 Ah: from 3.7509 to 3.7409 V in 30 days is a
// leak of 0.736 mA; with a meter of 1 mV and a slope of 0.94 V per unit of charge
// it errs by 0.104 mA.
func TestLeakOfTheWorkedExample(t *testing.T) {
	r, f := bankOf(t, "nmc811", 6, 50)
	res := ran(t, r, f, []store.Reading{
		visitAt(0, 3.7509, 3.7509, 3.7509, 3.7509, 3.7509, 3.7509), visitAt(30, 3.7509, 3.7509, 3.7409, 3.7509, 3.7509, 3.7509)})
	g := res.Groups[2]
	near.Relative(t, "leak", g.DriftMA, 0.736, 0.02)
	near.Relative(t, "error", g.DriftErr, 0.104, 0.10) // less the middle's share, more by the scatter's weight
	if g.Drifts {
		t.Error("two readings tell no drift from chance")
	}
}

// The curve of Mohtat et al. 2020, 100 Ah: 4.050 against 4.000 V is 4.69 Ah, 3.70
// against 3.75 V 8.84 Ah.
func TestBleedOfTheWorkedExample(t *testing.T) {
	r, f := bankOf(t, "nmc532", 4, 100)
	for _, c := range []struct{ low, high, ah float64 }{{4.000, 4.050, 4.69}, {3.70, 3.75, 8.84}} {
		res := ran(t, r, f, []store.Reading{visitAt(0, c.low, c.low, c.high, c.low)})
		near.Equal(t, "bleed", res.Groups[2].BleedAh, c.ah, 0.1)
		near.Equal(t, "the others", res.Balance.BleedAh[0], 0, 1e-9)
		near.Equal(t, "add", res.Balance.AddAh[0], c.ah, 0.1)
	}
}

// The pairs of the worked example of total least squares, errors 0.02 and 0.10 Ah:
// 50.0261 ± 0.931 Ah.
func TestPairsOfTheWorkedExample(t *testing.T) {
	var list []pair
	for k, x := range []float64{0.40, 0.55, 0.32, 0.61, 0.48} {
		list = append(list, pair{at: start, change: x, changeErr: 0.02, charge: []float64{19.6, 27.9, 15.7, 30.9, 23.6}[k], chargeErr: 0.10})
	}
	ah, err, ok := agreed(list, 60)
	near.Equal(t, "capacity", ah, 50.0261, 0.001)
	near.Equal(t, "error", err, 0.931, 0.001)
	if !ok {
		t.Error("no answer")
	}
}

func TestBalancerHours(t *testing.T) {
	offsets := []float64{0, 1, 3, 0}
	amps := q.Current(0.5)
	for _, c := range []struct {
		b    *rig.Balancer
		want float64
	}{
		{nil, 0},
		{&rig.Balancer{Current: &amps}, 6},
		{&rig.Balancer{Current: &amps, Kind: "bleed", AtOnce: 1}, 8},
		{&rig.Balancer{Current: &amps, Kind: "charger", AtOnce: 1}, 16},
		{&rig.Balancer{Current: &amps, Kind: "transfer"}, 4},
	} {
		near.Equal(t, "hours", levelHours(c.b, offsets), c.want, 1e-9)
	}
}

// A string of which one group stands 10 Ah below the others gives 10 Ah less, and
// those at the lower end of the voltage.
func TestWhatLevellingBrings(t *testing.T) {
	r, f := straightRig(t, 100)
	s := &study{rig: r, fit: f, plant: plantOf(r, f)}
	level := s.energy(make([]float64, 6))
	near.Relative(t, "level", level, f.Daily.UsableWh, 0.001)
	apart := s.energy([]float64{0, 0, -10, 0, 0, 0})
	lost, least := (level-apart)/level, f.Daily.CellLowV*6*10/f.Daily.UsableWh
	if most := 10 / f.Daily.UsableAh; lost < least || lost > most {
		t.Errorf("10 Ah behind lose %.3f, want from %.3f, all at the lowest voltage, to %.3f", lost, least, most)
	}
	near.Equal(t, "no charge left in common", s.energy([]float64{0, 0, -95, 0, 0, 0}), 0, 0)
}

// What a reading is worth, and why less.
func TestWhatAReadingIsWorth(t *testing.T) {
	r, f := bankOf(t, "nmc532", 3, 100)
	iron, ironFit := bankOf(t, "lfp", 3, 100)
	with := func(x store.Reading, change func(*store.Reading)) store.Reading { change(&x); return x }
	good := visitAt(0, 3.90, 3.91, 3.90)
	cases := []struct {
		name     string
		rig      *rig.Rig
		fit      *fit.Result
		x        store.Reading
		from, to float64
		why      string
	}{
		{"rested a day", r, f, good, 0.95, 1, ""},
		{"rested an hour", r, f, with(good, func(x *store.Reading) { x.RestH = as(1) }), 0.1, 0.3, ""},
		{"a quarter of an hour", r, f, with(good, func(x *store.Reading) { x.RestH = as(0.25) }), 0.005, 0.05, "0.25 h after a current: relaxation"},
		{"nobody says", r, f, with(good, func(x *store.Reading) { x.RestH = nil }), 0.1, 0.3, "rest not stated, taken as one hour"},
		{"a small load", r, f, with(good, func(x *store.Reading) { x.Amps = as(-4) }), 0.02, 0.3, "under load of -4 A"},
		{"a large load", r, f, with(good, func(x *store.Reading) { x.Amps = as(-40) }), 0, 0, "under load of -40 A"},
		{"plateau", iron, ironFit, visitAt(0, 3.30, 3.301, 3.299), 0, 0, "flat part of the curve"},
		{"above the plateau", iron, ironFit, visitAt(0, 3.42, 3.44, 3.43), 0.5, 1, ""},
		{"nothing read", r, f, visitAt(0), 0, 0, ""},
		{"off the curve", r, f, visitAt(0, 3.90, 3.91, 38.6), 0.5, 1, "group 3 at 38.6 V is off the cell's curve"},
	}
	for _, c := range cases {
		u := ran(t, c.rig, c.fit, []store.Reading{c.x}).Used[0]
		if u.Weight < c.from || u.Weight > c.to || !strings.Contains(u.Why, c.why) || c.why == "" && u.Why != "" {
			t.Errorf("%s: weight %.3f, %q", c.name, u.Weight, u.Why)
		}
	}
}

// The drop of a known resistance is taken off.
func TestCurrentIsTakenOff(t *testing.T) {
	r, f := bankOf(t, "nmc532", 3, 100)
	p := plantOf(r, f)
	at := visitAt(0, 3.9, 3.9, 3.9)
	drop := -4 * p.ohm[0] * f.Kind.ResistanceFactor(mildC)
	loaded := visitAt(0, 3.9+drop, 3.9+drop, 3.9+drop)
	loaded.Amps = as(-4)
	near.Equal(t, "state of charge", *ran(t, r, f, []store.Reading{loaded}).SoC, *ran(t, r, f, []store.Reading{at}).SoC, 1e-9)
}

// Two readings five minutes apart, 20 A and 30 mV: 1.5 mΩ at 25 °C.
func TestResistanceFromAStep(t *testing.T) {
	r, f := bankOf(t, "nmc532", 3, 100)
	a, b := visitAt(0, 3.9, 3.9, 3.9), visitAt(0, 3.89, 3.89, 3.89)
	b.ID, b.Taken, b.Amps = "b", a.Taken.Add(5*time.Minute), as(-20)
	a.TempsC, b.TempsC = []float64{25}, []float64{25}
	got := ran(t, r, f, []store.Reading{a, b}).Resistance
	if got == nil {
		t.Fatal("none")
	}
	near.Equal(t, "resistance", got.Value, 1.5e-3, 1e-9)
	if res := ran(t, r, f, []store.Reading{a}); res.Resistance != nil {
		t.Error("one reading shows a resistance")
	}
}

// A test in the logbook puts right what a curve of another make reads wrong.
func TestATestCalibratesPartialCycles(t *testing.T) {
	r, f := bankOf(t, "nmc532", 2, 100)
	c := f.Kind.Curve
	var list []store.Reading
	for k, soc := range []float64{0.8, 0.4, 0.75, 0.35, 0.8, 0.45} {
		x := visitAt(float64(k), c.Voltage(soc), c.Voltage(soc))
		ah := 84 * soc // the cells hold 84 Ah
		x.CountAh = &ah
		list = append(list, x)
	}
	alone := ran(t, r, f, list).Capacity
	near.Equal(t, "partial cycles", alone.Ah, 84, 0.5)
	if alone.Pairs != 5 || alone.ErrAh < 5 {
		t.Errorf("%+v: a library curve is not known so well", alone)
	}
	tested := ran(t, r, f, list, store.Done{ID: "t", At: start.AddDate(0, 0, 3), What: "capacity test", Value: as(80)}).Capacity
	near.Equal(t, "with a test", tested.Ah, 80, 1)
	if tested.ErrAh > 1.5 || tested.Basis != "5 partial cycles, total least squares, and the test of 2026-09-15" {
		t.Errorf("%+v", tested)
	}
}

// A group out of its window comes first.
func TestOutOfTheWindow(t *testing.T) {
	r, f := bankOf(t, "nmc532", 3, 100)
	for _, c := range []struct {
		volt float64
		do   string
	}{{4.27, "stop charging"}, {2.8, "disconnect the loads"}, {1.9, "disconnect the loads"}, {1.2, "do not charge group 2"}} {
		res := ran(t, r, f, []store.Reading{visitAt(0, 3.9, c.volt, 3.9)})
		if len(res.Findings) == 0 || res.Findings[0].Severity != finding.Stop || res.Findings[0].Where != "bank.measured.groups.1" {
			t.Errorf("%g V: %+v", c.volt, res.Findings)
		}
		worked.Check(t, res.Findings)
		if res.Today[0].Urgency != "now" || !strings.Contains(res.Today[0].Do, c.do) {
			t.Errorf("%g V: %+v", c.volt, res.Today)
		}
	}
}

// The next visit lies between tomorrow and 90 days off, sooner with a drift.
func TestNextVisit(t *testing.T) {
	r, f := example(t, "curlew")
	quietLog := logOf{every: 30, visits: 40, errorV: 0.001, stepV: 0.001, seed: 2}.run(t, "curlew")
	leaking := logOf{leakMA: map[int]float64{3: 8}, every: 14, visits: 8, errorV: 0.001, stepV: 0.001, seed: 2}.run(t, "curlew")
	q, l := span(t, quietLog), span(t, leaking)
	if q < 60 || q > 90 || l < 1 || l > 30 {
		t.Errorf("quiet %g days, %s; leaking %g days, %s", q, quietLog.Next.Why, l, leaking.Next.Why)
	}
	empty, err := Run(context.Background(), r, f, nil, nil, nil, Options{Now: start})
	if err != nil || empty.Today[0].ID != "read" || empty.Next.Date == "" {
		t.Errorf("%+v, %v", empty, err)
	}
}

// span is the days from the last reading to the next visit.
func span(t *testing.T, res *Result) float64 {
	t.Helper()
	last, err := time.Parse(time.RFC3339, res.To)
	if err != nil {
		t.Fatal(err)
	}
	return daysBetween(day(last), res.Next.Date)
}

func TestOverdue(t *testing.T) {
	r, f := example(t, "curlew")
	l := logOf{every: 14, visits: 10, errorV: 0.001, stepV: 0.001, seed: 2}
	list := l.readings(t, f)
	res, err := Run(context.Background(), r, f, list, l.meters(), nil, Options{Now: list[9].Taken.AddDate(0, 6, 0)})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(res.Today, func(x Task) bool { return x.ID == "read" && strings.Contains(x.Why, "overdue") }) {
		t.Errorf("%+v", res.Today)
	}
	if want := day(list[9].Taken.AddDate(0, 6, 1)); res.Next.Date != want {
		t.Errorf("next visit %s, want %s", res.Next.Date, want)
	}
}

// What the log tells goes into the rig file, and fit takes it.
func TestBackIntoTheDesign(t *testing.T) {
	r, _ := example(t, "curlew")
	res := logOf{leakMA: map[int]float64{3: 2}, every: 14, visits: 20, errorV: 0.001, stepV: 0.001, seed: 2}.run(t, "curlew")
	by := map[string]string{}
	for _, c := range res.Back {
		by[c.Path] = c.Value
	}
	if by["bank.measured.groups.3.leak"] != "2.0 mA" || by["bank.measured.spread_low"] == "" || by["bank.measured.groups.3.behind"] == "" {
		t.Errorf("%v", by)
	}
	low, err := q.Volts.Parse(by["bank.measured.spread_low"])
	if err != nil {
		t.Fatal(err)
	}
	changed := *r
	measured := *r.Bank.Measured
	measured.SpreadLow = (*q.Voltage)(&low)
	changed.Bank.Measured = &measured
	if _, err := fit.Run(&changed); err != nil {
		t.Error(err)
	}
}

func TestCancelled(t *testing.T) {
	r, f := example(t, "curlew")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Run(ctx, r, f, nil, nil, nil, Options{Now: start}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// The years ahead start from the log's own capacity.
func TestYearsAhead(t *testing.T) {
	if testing.Short() {
		t.Skip("runs years on the road")
	}
	r, f := example(t, "dipper")
	res, err := Run(context.Background(), r, f, []store.Reading{visitAt(0, 3.9, 3.9, 3.9, 3.9, 3.9, 3.9, 3.9)}, fine, nil, Options{Now: start, Life: true})
	if err != nil {
		t.Fatal(err)
	}
	if l := res.Life; l == nil || l.Multiplier != 1 || !(l.ByCapacity.Low > 0 && l.ByCapacity.Low <= l.ByCapacity.High) {
		t.Errorf("%+v", res.Life)
	}
}

// Without partial cycles the capacity is that of the one test there is, and
// without any it is the rated one.
func TestCapacityWithoutPartialCycles(t *testing.T) {
	r, f := bankOf(t, "nmc532", 3, 100)
	if c := ran(t, r, f, []store.Reading{visitAt(0, 3.9, 3.9, 3.9)}).Capacity; c.Ah != 100 || c.Basis != "rated" {
		t.Errorf("nothing known: %g Ah, %q", c.Ah, c.Basis)
	}
	tested := store.Done{ID: "t", At: start, What: "capacity test", Value: as(91)}
	if c := ran(t, r, f, []store.Reading{visitAt(0, 3.9, 3.9, 3.9)}, tested).Capacity; c.Ah != 91 || !strings.Contains(c.Basis, "the test of") {
		t.Errorf("one test: %g Ah, %q", c.Ah, c.Basis)
	}
}
