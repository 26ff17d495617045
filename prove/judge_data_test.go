package prove_test

import (
	"ampstead/internal/worked"
	"math"
	"slices"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/prove"
)

const pouch = "lmo-blend-pouch"

// The weak group of the vehicle module, by both its discharges: the first at the
// end, a part of it imbalance. Tolerances are those stated beside the data.
func TestWeakGroupOfTheVehicleModule(t *testing.T) {
	for name, rest := range map[string][]float64{
		slowModule: {4.119, 4.169, 4.169, 4.131, 4.162, 4.170}, fastModule: {4.122, 4.182, 4.180, 4.136, 4.172, 4.180},
	} {
		res := run(t, name, pouch)
		if res.Limiting != 1 || !res.Groups[0].LowEnd {
			t.Errorf("%s: group %d ends the discharge, not 1", name, res.Limiting)
		}
		if !slices.Contains([]int{2, 3, 6}, res.ChargeLimit) {
			t.Errorf("%s: group %d would end the charge; 2, 3 and 6 stand highest", name, res.ChargeLimit)
		}
		for k, g := range res.Groups {
			near.Equal(t, name+" rest", g.RestV, rest[k], 0.0015)
		}
		weak := res.Groups[0]
		near.Equal(t, name+" imbalance, Ah", weak.Recoverable, 3, 2)
		near.Equal(t, name+" lost, Ah", weak.LostAh, 3, 2)
		if weak.LostAh > 5 || weak.LostErr > 2 || weak.CapacityAh < 54.9 {
			t.Errorf("%s: %+v", name, weak)
		}
		second := res.Groups[3]
		if second.Recoverable < 1 || second.Recoverable > weak.Recoverable {
			t.Errorf("%s: group 4 is second: %+v", name, second)
		}
	}
}

// Both discharges tell the same groups, within their errors.
func TestTwoTestsOfOneModuleAgree(t *testing.T) {
	slow, fast := run(t, slowModule, pouch), run(t, fastModule, pouch)
	for k := range slow.Groups {
		a, b := slow.Groups[k], fast.Groups[k]
		near.Equal(t, "capacity", a.CapacityAh, b.CapacityAh, math.Hypot(a.CapacityErr, b.CapacityErr))
		near.Equal(t, "offset", a.OffsetAh, b.OffsetAh, math.Hypot(a.OffsetErr, b.OffsetErr))
	}
}

func TestSpreadsOfTheVehicleModule(t *testing.T) {
	for name, half := range map[string]float64{slowModule: 0.024, fastModule: 0.041} {
		res := run(t, name, pouch)
		near.Equal(t, name+" at half the charge", *res.SpreadMid, half, 0.002)
		near.Equal(t, name+" near empty", *res.SpreadLow, 0.37, 0.1)
		near.Equal(t, name+" near full", *res.SpreadHigh, 0.017, 0.005)
	}
}

func TestGroupResistanceOfTheVehicleModule(t *testing.T) {
	for name, want := range map[string][]float64{
		slowModule: {1.08, 1.28, 1.23, 1.13, 1.28, 1.33}, fastModule: {0.92, 1.12, 1.05, 1.00, 1.09, 1.14},
	} {
		for k, g := range run(t, name, pouch).Groups {
			near.Relative(t, name, 1000*g.Ohm, want[k], 0.1)
		}
	}
}

// With the curve of another cell the groups do not fit, and the result says so.
func TestAnotherCellsCurveIsNoticed(t *testing.T) {
	for _, cell := range []string{"nmc532", "nca"} {
		res := run(t, slowModule, cell)
		if !slices.ContainsFunc(res.Warnings, func(w prove.Warning) bool { return w.ID == "curve-mismatch" }) {
			t.Errorf("%s: no warning: %v", cell, res.Warnings)
		}
		for _, g := range res.Groups {
			if g.Unknown == "" && g.CapacityErr < 0.05*g.CapacityAh {
				t.Errorf("%s: %+v", cell, g)
			}
		}
	}
	if res := run(t, slowModule, pouch); slices.ContainsFunc(res.Warnings, func(w prove.Warning) bool { return w.ID == "curve-mismatch" }) {
		t.Errorf("its own curve: %v", res.Warnings)
	}
}

// Two days of rest: relaxation still goes on, so there is only an upper bound.
func TestLongRestGivesAnUpperBound(t *testing.T) {
	res := run(t, longRest, pouch)
	found := false
	for _, r := range res.Rests {
		if r.Hours < 40 {
			continue
		}
		found = true
		near.Equal(t, "slope, mV/h", 1000*r.SlopeV, -0.25, 0.04)
		if !r.Bound || r.Settled || r.LeakMA <= 0 || !strings.Contains(r.Note, "upper bound") {
			t.Errorf("%+v", r)
		}
	}
	if !found {
		t.Error("no rest of two days was found")
	}
	if g := res.Groups[0]; g.CapacityAh != 0 || g.Ohm != 0 || !strings.Contains(g.Unknown, "sensed") {
		t.Errorf("with the voltage sensed through the leads: %+v", g)
	}
}

// The pulse test of one cell: its capacity along the curve.
func TestPulseTestByTheCurve(t *testing.T) {
	g := run(t, pulseCell, pouch).Groups[0]
	near.Relative(t, "capacity", g.CapacityAh, 30.5, 0.01)
	near.Relative(t, "resistance", 1000*g.Ohm, 2.05, 0.1)
}

// Charges of a large iron-phosphate cell from empty to full.
func TestIronPhosphateFromEmptyToFull(t *testing.T) {
	g := run(t, lfpCharges, "lfp").Groups[0]
	near.Equal(t, "capacity", g.CapacityAh, 67.52, 2*g.CapacityErr)
}

func findings(res *prove.Result) []string {
	var list []string
	for _, f := range res.Findings {
		list = append(list, f.ID+" "+f.Where)
	}
	return list
}

// What is imbalance is called so, and no log says anything of a module's history.
func TestFindingsOfTheVehicleModule(t *testing.T) {
	res := run(t, slowModule, pouch)
	var counted []string
	for _, w := range res.Warnings {
		counted = append(counted, w.ID)
	}
	worked.Check(t, res.Findings, counted...)
	got := findings(res)
	for _, want := range []string{"imbalance group 1", "imbalance group 4", "balance-first module", "no-history module"} {
		if !slices.Contains(got, want) {
			t.Errorf("%s is not found: %v", want, got)
		}
	}
	for _, not := range []string{"imbalance group 2", "weak-group group 2", "no-group-voltages log", "deep-discharge-seen log", "overcharge-seen log"} {
		if slices.Contains(got, not) {
			t.Errorf("%s is found", not)
		}
	}
}

// Against the rated 65 Ah a group's loss counts from there.
func TestLossAgainstRated(t *testing.T) {
	res := runText(t, slowModule, log(t, slowModule), prove.Options{Cell: pouch, RatedAh: 65})
	for _, g := range res.Groups {
		near.Equal(t, "capacity and loss", g.CapacityAh+g.LostAh, 65, 1e-9)
	}
	if res.Grade != "accept" && res.Grade != "undecided" {
		t.Errorf("84 %% of rated is graded %s: %v", res.Grade, res.Reasons)
	}
}
