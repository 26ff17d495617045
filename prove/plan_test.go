package prove

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/internal/near"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
)

// gear is a module of seven groups with gear that suits it.
func gear(change func(*PlanInput)) PlanInput {
	in := PlanInput{Cell: "nmc532", Series: 7, CapacityAh: 94, ChargerA: 20, ChargerMinA: 1, ChargerMinV: 20, ChargerMaxV: 32, Load: "heater", LoadW: 600, LoadV: 28}
	if change != nil {
		change(&in)
	}
	return in
}

func planned(t *testing.T, in PlanInput) *Plan {
	t.Helper()
	p, err := PlanFor(in)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPlanOfSuitingGear(t *testing.T) {
	p := planned(t, gear(nil))
	if !p.Possible || len(p.Notes) != 0 || len(p.Cautions) < 4 || len(p.Stops) < 4 || len(p.Log) < 3 {
		t.Fatalf("%+v", p)
	}
	near.Equal(t, "pack high", p.Limits.PackHighV, 7*4.2, 1e-9)
	near.Equal(t, "pack low", p.Limits.PackLowV, 7*3.0, 1e-9)
	near.Equal(t, "taper at a twentieth", p.Limits.TaperA, 4.7, 1e-9)
	titles := []string{"Look and measure", "Charge", "Rest", "Discharge", "Rest", "Charge to half", "Pulse", "Charge", "Long rest"}
	for k, s := range p.Steps {
		if s.Number != k+1 || s.Title != titles[k] || s.Do == "" || s.Until == "" || s.Log == "" || !(s.Hours > 0) {
			t.Errorf("step %d: %+v", k+1, s)
		}
	}
	// The heater is 28²/600 Ω; at half charge, 7 × 3.7155 V, it draws 19.9 A.
	out := p.Steps[3]
	near.Relative(t, "hours of discharge", out.Hours, p.Ah/(7*3.7155*600/28/28), 0.001)
	near.Equal(t, "charge out", -out.Ah, p.Ah, 1e-9)
	near.Relative(t, "all but what lies below 3.0 V", p.Ah, 94, 0.02)
	near.Relative(t, "energy", p.Wh, p.Ah*7*3.76, 0.01)
	if p.Hours > 40 || p.Steps[8].Hours != 14*24 {
		t.Errorf("%.1f h, then %.0f h", p.Hours, p.Steps[8].Hours)
	}
}

// Where gear and module do not go together the plan says so, and is none where
// the module would be harmed.
func TestPlanOfGearThatDoesNotSuit(t *testing.T) {
	for _, row := range []struct {
		name     string
		change   func(*PlanInput)
		note     string
		possible bool
	}{
		{"charger for eight groups", func(in *PlanInput) { in.ChargerMinV, in.ChargerMaxV = 33.6, 33.6 }, "charger-overshoots", false},
		{"charger for six groups", func(in *PlanInput) { in.ChargerMinV, in.ChargerMaxV = 25.2, 25.2 }, "charger-short", false},
		{"charger a little short", func(in *PlanInput) { in.ChargerMinV, in.ChargerMaxV = 28.8, 28.8 }, "charger-short", true},
		{"charger too strong, not to be set", func(in *PlanInput) { in.ChargerA, in.ChargerMinA = 80, 0 }, "charger-strong", false},
		{"charger too strong, can be set", func(in *PlanInput) { in.ChargerA = 80 }, "charger-strong", true},
		{"small charger", func(in *PlanInput) { in.ChargerA = 2 }, "charger-small", true},
		{"frost", func(in *PlanInput) { in.TempC, in.TempKnown = -3, true }, "no-charge-at-this-temperature", false},
		{"cold", func(in *PlanInput) { in.TempC, in.TempKnown = 8, true }, "place-temperature", true},
		{"lamp", func(in *PlanInput) { in.LoadW = 20 }, "load-too-small", false},
		{"small heater", func(in *PlanInput) { in.LoadW = 150 }, "load-small", true},
		{"large heater", func(in *PlanInput) { in.LoadW = 2500 }, "load-large", true},
		{"starter", func(in *PlanInput) { in.Load, in.LoadA = "current", 300 }, "load-too-large", false},
		{"heater for 12 V", func(in *PlanInput) { in.LoadV, in.LoadW = 12, 100 }, "heater-over-voltage", true},
		{"inverter that cuts at 24 V", func(in *PlanInput) { in.Load, in.LoadW, in.LoadV = "inverter", 500, 24 }, "inverter-stops-early", true},
		{"inverter of unknown cut", func(in *PlanInput) { in.Load, in.LoadW, in.LoadV = "inverter", 500, 0 }, "inverter-low-cut", true},
		{"kettle", func(in *PlanInput) { in.Load, in.LoadW, in.LoadV, in.KettleOff = "inverter", 800, 0, true }, "kettle-switches-off", true},
		{"pulse of a small load", func(in *PlanInput) { in.CapacityAh, in.Load, in.LoadA, in.ChargerA = 94, "current", 4, 10 }, "pulse-small", true},
	} {
		p := planned(t, gear(row.change))
		if !slices.ContainsFunc(p.Notes, func(n PlanNote) bool { return n.ID == row.note }) || p.Possible != row.possible {
			t.Errorf("%s: possible %v, want %v with %s: %+v", row.name, p.Possible, row.possible, row.note, p.Notes)
		}
		if len(p.Cautions) == 0 || p.Possible != (len(p.Steps) > 0) {
			t.Errorf("%s: %d cautions, %d steps", row.name, len(p.Cautions), len(p.Steps))
		}
	}
}

// An inverter that switches off early leaves its part of the charge untested.
func TestPlanEndsWhereTheInverterDoes(t *testing.T) {
	early := planned(t, gear(func(in *PlanInput) { in.Load, in.LoadW, in.LoadV = "inverter", 500, 7*3.65 }))
	near.Equal(t, "Ah", early.Ah, 94*(1-0.3377), 0.2)
}

func TestPlanRefusesNonsense(t *testing.T) {
	for path, change := range map[string]func(*PlanInput){
		"cell": func(in *PlanInput) { in.Cell = "nothing" }, "groups": func(in *PlanInput) { in.Series = 0 },
		"capacity": func(in *PlanInput) { in.CapacityAh = 0 }, "low": func(in *PlanInput) { in.LowV = 2.0 },
		"high": func(in *PlanInput) { in.HighV = 4.4 }, "load": func(in *PlanInput) { in.LoadV = 0 },
		"charger": func(in *PlanInput) { in.ChargerMinV, in.ChargerMaxV = 30, 20 },
	} {
		_, err := PlanFor(gear(change))
		var bad *fit.InputError
		if !errors.As(err, &bad) || bad.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// Whatever the gear: no plan charges above the cell's limits, in frost, or faster
// than the cell takes, and what goes in comes out.
func TestNoPlanHarms(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(rt, name) }
		in := PlanInput{Cell: rapid.SampledFrom([]string{"nmc532", "lfp", "lmo-blend-pouch"}).Draw(rt, "cell"), Series: rapid.IntRange(1, 16).Draw(rt, "series"),
			CapacityAh: number("capacity", 1, 300), TempC: number("temperature", -20, 60), TempKnown: true,
			ChargerA: number("charger", 0.1, 200), ChargerMinA: number("least", 0, 10), ChargerMinV: number("low", 0, 70), Load: "current", LoadA: number("load", 0.1, 400)}
		in.ChargerMaxV = in.ChargerMinV + number("range", 0, 20)
		p, err := PlanFor(in)
		if err != nil {
			rt.Skip(err)
		}
		if !p.Possible {
			return
		}
		kind, l := lookup(t, in.Cell), p.Limits
		n := float64(in.Series)
		if l.PackHighV > n*kind.MaxV.Value+1e-9 || in.ChargerMinV > l.PackHighV+n*2*marginV || l.ChargeA > kind.ChargeRate(in.TempC)*in.CapacityAh+1e-9 || l.ChargeA <= 0 {
			rt.Errorf("limits %+v", l)
		}
		sum := 0.0
		for _, s := range p.Steps {
			sum += s.Ah
			if math.IsNaN(s.Hours) || s.Hours < 0 || strings.Contains(s.Do+s.Until, "NaN") {
				rt.Errorf("step %+v", s)
			}
		}
		if sum < 0 || sum > in.CapacityAh*1.2 {
			rt.Errorf("%.1f Ah more go in than come out", sum)
		}
	})
}
