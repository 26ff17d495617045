package choose

import (
	"ampstead/internal/worked"
	"context"
	"errors"
	"reflect"
	"strings"
	"sync"
	"testing"

	"ampstead/examples"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/internal/near"
	"ampstead/rig"
	"ampstead/source"
)

// dipper is its candidates over one weather year; reckoned once.
var dipper = sync.OnceValues(func() (*Result, error) {
	text, err := examples.Read("dipper")
	if err != nil {
		return nil, err
	}
	f, err := rig.Parse("dipper", text)
	if err != nil {
		return nil, err
	}
	return Run(context.Background(), f.Rig, Options{Years: 1})
})

func chosen(t testing.TB) *Result {
	t.Helper()
	res, err := dipper()
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestCandidatesInOrder(t *testing.T) {
	var names []string
	for _, c := range chosen(t).Candidates {
		names = append(names, c.Name)
	}
	want := []string{Own, "two narrow modules", "eight iron cells", "two glass mat blocks"}
	if !reflect.DeepEqual(names, want) {
		t.Errorf("candidates %q, want %q", names, want)
	}
}

// Every figure of a candidate follows from the others.
func TestCandidateFigures(t *testing.T) {
	for _, c := range chosen(t).Candidates {
		kwh, cost := c.UsableWh/1000, c.Price+c.FetchCost
		near.Relative(t, c.Name+": price per usable kWh", c.PerUsable*kwh, cost, 1e-9)
		near.Relative(t, c.Name+": mass per usable kWh", c.MassPer*kwh, c.MassKg, 1e-9)
		near.Relative(t, c.Name+": volume per usable kWh", c.VolumePer*kwh, c.VolumeL, 1e-9)
		near.Relative(t, c.Name+": price per delivered kWh", c.PerDelivered*c.DeliveredWh/1000, cost, 1e-9)
		near.Equal(t, c.Name+": delivered", c.DeliveredWh, c.Life.DeliveredWh.Middle, 0)
		r := c.Range
		if r.CapacityLow > c.ByCapacity || c.ByCapacity > r.CapacityHigh || r.FunctionLow > c.ByFunction || c.ByFunction > r.FunctionHigh {
			t.Errorf("%s: %g years of %+v, %g by function", c.Name, c.ByCapacity, r, c.ByFunction)
		}
		if c.UsableLow > c.UsableWh || c.UsableWh > c.UsableHigh || c.UsableWh <= 0 || c.LowV >= c.HighV || c.Basis == "" {
			t.Errorf("%s: usable %g, %g, %g Wh, %g to %g V, %q", c.Name, c.UsableLow, c.UsableWh, c.UsableHigh, c.LowV, c.HighV, c.Basis)
		}
		if acid := c.Family == "lead-acid"; acid != (c.HeaterWh == 0) || acid != (c.ColdChargeC < 0) {
			t.Errorf("%s: heater %g Wh, charged from %g °C", c.Name, c.HeaterWh, c.ColdChargeC)
		}
	}
}

func TestRemarksHaveSources(t *testing.T) {
	known := map[string]source.Standing{}
	for _, s := range source.All() {
		known[s.Key] = s.Standing
	}
	for _, c := range chosen(t).Candidates {
		if len(c.Remarks) < 3 {
			t.Errorf("%s: %d remarks", c.Name, len(c.Remarks))
		}
		for _, r := range c.Remarks {
			if string(known[r.Source]) != r.Standing || r.Standing == "" {
				t.Errorf("%s: %q rests on %q, %q", c.Name, r.Text, r.Source, r.Standing)
			}
		}
	}
}

// What is salvaged is said to be outside the standards, what is new is not.
func TestSecondLifeIsSaid(t *testing.T) {
	res := chosen(t)
	worked.Check(t, res.Findings)
	for _, id := range []string{"second-life-scope", "no-traceability"} {
		found := byID(res.Findings, id)
		if len(found) != 1 || found[0].Severity != finding.Note {
			t.Fatalf("%s: %v", id, found)
		}
		if text := found[0].Found; !strings.Contains(text, Own) || !strings.Contains(text, "two narrow modules") || strings.Contains(text, "iron") || strings.Contains(text, "glass") {
			t.Errorf("%s: %s", id, text)
		}
	}
}

func byID(list []finding.Finding, id string) []finding.Finding {
	var out []finding.Finding
	for _, f := range list {
		if f.ID == id {
			out = append(out, f)
		}
	}
	return out
}

func TestWorkersChangeNothing(t *testing.T) {
	done := 0
	o := Options{Years: 1, Workers: 1, Progress: func(so, of int) {
		if so != done+1 || of != 4 {
			t.Errorf("progress %d of %d after %d", so, of, done)
		}
		done = so
	}}
	r := load(t, "dipper")
	res, err := Run(context.Background(), r, o)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(res, chosen(t)) {
		t.Error("the number of workers changes the result")
	}
	if !reflect.DeepEqual(r, load(t, "dipper")) {
		t.Error("the rig was changed")
	}
}

func TestErrors(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if res, err := Run(ctx, load(t, "dipper"), Options{}); !errors.Is(err, context.Canceled) || res != nil {
		t.Errorf("cancelled: %v, %v", res, err)
	}
	ctx, cancel = context.WithCancel(context.Background())
	if res, err := Run(ctx, load(t, "dipper"), Options{Years: 1, Workers: 1, Progress: func(int, int) { cancel() }}); !errors.Is(err, context.Canceled) || res != nil {
		t.Errorf("cancelled on the way: %v, %v", res, err)
	}
	_, err := Run(context.Background(), changed(t, "dipper", "candidates.eight iron cells.cell", "lifepo"), Options{})
	var input *fit.InputError
	if !errors.As(err, &input) || input.Path != "candidates.eight iron cells.cell" {
		t.Errorf("unknown cell: %v", err)
	}
}

func BenchmarkCandidates(b *testing.B) {
	r := load(b, "curlew")
	for b.Loop() {
		if _, err := Run(context.Background(), r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
