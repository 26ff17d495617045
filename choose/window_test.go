package choose

import (
	"context"
	"math"
	"testing"

	"ampstead/fit"
	"ampstead/life"
)

func TestWindows(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	own := &list[0]
	got, name, err := windows(context.Background(), own.rig, own.res, Options{Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	if len(got) < 6 {
		t.Fatalf("%d windows", len(got))
	}
	picked := 0
	for k, c := range got {
		if c.Pick {
			picked++
			if c.Name != name {
				t.Errorf("%q is marked, %q is named", c.Name, name)
			}
		}
		if c.UsableWh <= 0 || c.LowV >= c.HighV || c.ByCapacity.Low > c.ByCapacity.Middle || c.ByCapacity.Middle > c.ByCapacity.High {
			t.Errorf("window %+v", c)
		}
		if k > 0 && c.HighV > got[k-1].HighV {
			t.Errorf("%s stands behind %s", c.Name, got[k-1].Name)
		}
	}
	if picked != 1 {
		t.Errorf("%d windows are recommended", picked)
	}
	first, last := got[0], got[len(got)-1]
	if !(last.ByCapacity.Middle > first.ByCapacity.Middle && last.UsableWh < first.UsableWh && last.ShortHours >= first.ShortHours) {
		t.Errorf("charging to less should bring years and cost energy and hours: %+v, then %+v", first, last)
	}
}

// The recommended window is one that fit makes of the wish in the rig file.
func TestRecommendedWindowPassesToFit(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	w, f := &windower{rig: list[0].rig}, parsed(t, "dipper")
	grid, err := w.grid(list[0].res)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range grid {
		res, err := fit.Run(w.with(c.HighV, c.LowV))
		if err != nil {
			t.Fatal(err)
		}
		if again := windowChoice(res); again.Name != c.Name {
			t.Errorf("%s comes back from fit as %s", c.Name, again.Name)
		}
		g := f
		for path, value := range c.Set() {
			if g, err = g.Set(path, value); err != nil {
				t.Fatal(err)
			}
		}
		if res, err = fit.Run(g.Rig); err != nil {
			t.Fatal(err)
		}
		step := 0.1/7 + 1e-6 // settings that the file keeps may move a limit by one
		if math.Abs(res.Daily.CellHighV-c.HighV) > step || math.Abs(res.Daily.CellLowV-c.LowV) > step {
			t.Errorf("%s: in the file, fit makes %g to %g V of it", c.Name, res.Daily.CellLowV, res.Daily.CellHighV)
		}
	}
}

func TestPickKeepsHoursShort(t *testing.T) {
	at := func(high, hours, late, years, wh float64) WindowChoice {
		return WindowChoice{Name: "x", HighV: high, ShortHours: hours, ShortLate: late, ByCapacity: life.Band{Middle: years}, UsableWh: wh}
	}
	list := []WindowChoice{at(4.1, 10, 30, 8, 5000), at(4.15, 9, 28, 6, 5400), at(4.0, 15, 50, 10, 4500), at(3.9, 17, 40, 12, 4000), at(3.95, 14, 60, 11, 4200), at(3.99, 15, 52, 10.05, 4400)}
	pick(list)
	for _, c := range list {
		if c.Pick != (c.HighV == 4.0) {
			t.Errorf("top %g V: recommended %t", c.HighV, c.Pick)
		}
	}
}

func TestWindowsOfLeadAcid(t *testing.T) {
	list, err := dipperBatteries()
	if err != nil {
		t.Fatal(err)
	}
	acid := &list[3]
	if got, name, err := windows(context.Background(), acid.rig, acid.res, Options{}); err != nil || len(got) != 0 || name != "" {
		t.Errorf("got %v %q %v, want no windows for lead-acid", got, name, err)
	}
}
