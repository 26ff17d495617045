package life

import (
	"context"
	"errors"
	"math"
	"reflect"
	"sync"
	"testing"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/internal/near"
	"ampstead/physics/ageing"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/travel"
)

// coarse keeps the tests quick.
const coarse = 0.12

func run(t testing.TB, name string, o Options) *Result {
	t.Helper()
	if o.Step == 0 {
		o.Step = coarse
	}
	res, err := Run(context.Background(), open(t, name), o)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// dipper is its years ahead, coarsely; reckoned once.
var dipper = sync.OnceValues(func() (*Result, error) {
	text, err := examples.Read("dipper")
	if err != nil {
		return nil, err
	}
	f, err := rig.Parse("dipper", text)
	if err != nil {
		return nil, err
	}
	return Run(context.Background(), f.Rig, Options{Step: coarse})
})

func years(t testing.TB) *Result {
	t.Helper()
	res, err := dipper()
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestDipper(t *testing.T) {
	res := years(t)
	near.Equal(t, "start", res.Start, 158.0/180, 1e-9)
	if res.Basis != "measured" || res.Model != "schmalstieg-nca" || len(res.Outside) == 0 || len(res.Second) == 0 || res.Silent == "" {
		t.Errorf("basis %q, model %q, outside %q, second %v", res.Basis, res.Model, res.Outside, res.Second)
	}
	before := res.Start
	for _, y := range res.Years {
		if y.Low > y.Middle || y.Middle > y.High || y.Middle >= before {
			t.Errorf("year %d: %g, %g, %g after %g", y.Age, y.Low, y.Middle, y.High, before)
		}
		if y.GaveWh <= 0 || y.ServedWh <= 0 || y.Resistance <= 1 {
			t.Errorf("year %d: %+v", y.Age, y)
		}
		before = y.Middle
	}
	for _, b := range []Band{res.ByCapacity, res.ByFunction, res.DeliveredWh} {
		if b.Low > b.Middle || b.Middle > b.High || b.Low <= 0 {
			t.Errorf("band %+v", b)
		}
	}
	n := int(res.ByCapacity.Middle)
	if res.Years[n-1].Middle < 0.7 || res.Years[n].Middle > 0.7 {
		t.Errorf("the end by capacity after %g years lies between %g and %g", res.ByCapacity.Middle, res.Years[n-1].Middle, res.Years[n].Middle)
	}
}

// The step changes little: years on the road change slowly with capacity.
func TestStepChangesLittle(t *testing.T) {
	wide, fine := years(t), run(t, "dipper", Options{Step: coarse / 2})
	near.Relative(t, "years by capacity", wide.ByCapacity.Middle, fine.ByCapacity.Middle, 0.02)
	near.Relative(t, "delivered", wide.DeliveredWh.Middle, fine.DeliveredWh.Middle, 0.03)
}

// The quick estimate is the same from one year.
func TestQuickEstimate(t *testing.T) {
	r := open(t, "dipper")
	long := years(t)
	res, err := fit.Run(r)
	if err != nil {
		t.Fatal(err)
	}
	year, err := travel.Run(context.Background(), r, travel.Options{})
	if err != nil {
		t.Fatal(err)
	}
	share := res.Cell.Capacity / res.Cell.RatedAh
	got, err := Years(res.Kind, year, share, Options{Capacity: share})
	if err != nil {
		t.Fatal(err)
	}
	near.Relative(t, "low", got.Low, long.ByCapacity.Low, 0.05)
	near.Relative(t, "middle", got.Middle, long.ByCapacity.Middle, 0.05)
	near.Relative(t, "high", got.High, long.ByCapacity.High, 0.05)
}

func TestLeadAcidEndsAtFourFifths(t *testing.T) {
	r := open(t, "dipper")
	ah := q.Charge(200)
	r.Bank.Cell, r.Bank.Series, r.Bank.CellsPerGroup, r.Bank.CellCapacity, r.Bank.Measured = "lead-acid-agm", 12, 1, &ah, nil
	res, err := Run(context.Background(), r, Options{Step: coarse})
	if err != nil {
		t.Fatal(err)
	}
	if res.EndShare != 0.8 || res.Model != "lead-acid-agm" || res.Basis != "new" {
		t.Errorf("ends at %g by %s from %s", res.EndShare, res.Model, res.Basis)
	}
}

func TestStatedUseStartsWide(t *testing.T) {
	r := open(t, "dipper")
	r.Bank.Measured = nil
	res, err := Run(context.Background(), r, Options{Step: coarse, Use: ageing.VehicleUse(7, 500)})
	if err != nil {
		t.Fatal(err)
	}
	if b := res.StartRange; b.High-b.Low < 0.02 || res.Basis != "stated use" {
		t.Errorf("starts at %+v from %q", b, res.Basis)
	}
}

func TestAged(t *testing.T) {
	r := open(t, "curlew")
	first := open(t, "curlew")
	old, err := Aged(r, 0.7, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(old)
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "capacity", res.Cell.Capacity, 0.7*188, 1e-9)
	near.Equal(t, "resistance", res.Cell.Ohm, 0.3e-3+1.5*(6.2e-3-0.3e-3), 1e-9)
	if !reflect.DeepEqual(r, first) {
		t.Error("the rig was changed")
	}
}

func TestWorkersAndProgress(t *testing.T) {
	last, total := 0, 0
	one := run(t, "dipper", Options{Workers: 1, Progress: func(done, of int) {
		if done != last+1 || done > of {
			t.Errorf("progress %d of %d after %d", done, of, last)
		}
		last, total = done, of
	}})
	if last != total || total == 0 {
		t.Errorf("progress ended at %d of %d", last, total)
	}
	if !reflect.DeepEqual(one, years(t)) {
		t.Error("the number of workers changes the result")
	}
}

func TestErrors(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if res, err := Run(ctx, open(t, "dipper"), Options{}); !errors.Is(err, context.Canceled) || res != nil {
		t.Errorf("cancelled: %v, %v", res, err)
	}
	ctx, cancel = context.WithCancel(context.Background())
	o := Options{Step: coarse, Workers: 1, Progress: func(done, total int) { cancel() }}
	if res, err := Run(ctx, open(t, "dipper"), o); !errors.Is(err, context.Canceled) || res != nil {
		t.Errorf("cancelled on the way: %v, %v", res, err)
	}
	var unknown *Unknown
	if _, err := Run(context.Background(), open(t, "dipper"), Options{Model: "guess"}); !errors.As(err, &unknown) {
		t.Errorf("unknown model: %v", err)
	}
	if _, err := Years(nmc(t), trip(10, 0), 1, Options{Model: "guess"}); !errors.As(err, &unknown) {
		t.Errorf("unknown model: %v", err)
	}
	r := open(t, "dipper")
	r.Bank.Cell = "none"
	var input *fit.InputError
	if _, err := Run(context.Background(), r, Options{}); !errors.As(err, &input) {
		t.Errorf("unknown cell: %v", err)
	}
	if _, err := Aged(r, 1, 1); !errors.As(err, &input) {
		t.Errorf("unknown cell: %v", err)
	}
}

func TestQuickHorizon(t *testing.T) {
	c, err := cell.Lookup("lead-acid-agm")
	if err != nil {
		t.Fatal(err)
	}
	b, err := Years(c, trip(0, 0), 0, Options{Years: 5})
	if err != nil {
		t.Fatal(err)
	}
	if b.High != 5 || b.Low > b.Middle || math.IsNaN(b.Low) {
		t.Errorf("within five years: %+v", b)
	}
	if b, err = Years(c, trip(0, 0), 0.75, Options{Capacity: 0.75}); err != nil || b.Middle != 0 {
		t.Errorf("spent already: %+v, %v", b, err)
	}
}

func BenchmarkLife(b *testing.B) {
	r := open(b, "curlew")
	for b.Loop() {
		if _, err := Run(context.Background(), r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkQuick is the estimate for a search, without its year on the road.
func BenchmarkQuick(b *testing.B) {
	r := open(b, "curlew")
	res, err := fit.Run(r)
	if err != nil {
		b.Fatal(err)
	}
	year, err := travel.Run(context.Background(), r, travel.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Years(res.Kind, year, 0.9, Options{Capacity: 0.9}); err != nil {
			b.Fatal(err)
		}
	}
}
