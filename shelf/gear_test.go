package shelf

import (
	"errors"
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/prove"
)

func TestGear(t *testing.T) {
	for _, c := range []struct {
		gear Gear
		want prove.PlanInput
	}{
		{Gear{"29.4 V 20 A", "1500 W", ""}, prove.PlanInput{ChargerMinV: 29.4, ChargerMaxV: 29.4, ChargerA: 20, Load: "inverter", LoadW: 1500}},
		{Gear{"20 V to 30 V, 2 A to 10 A", "heater 24 V 500 W", "8 °C"}, prove.PlanInput{ChargerMinV: 20, ChargerMaxV: 30, ChargerA: 10, ChargerMinA: 2, Load: "heater", LoadV: 24, LoadW: 500, TempC: 8, TempKnown: true}},
		{Gear{"10A at 25.2V", "an inverter with a kettle, 2 kW", ""}, prove.PlanInput{ChargerMinV: 25.2, ChargerMaxV: 25.2, ChargerA: 10, Load: "inverter", LoadW: 2000, KettleOff: true}},
		{Gear{"25,2 V 10 A", "20 A", "14 °F"}, prove.PlanInput{ChargerMinV: 25.2, ChargerMaxV: 25.2, ChargerA: 10, Load: "current", LoadA: 20, TempC: -10, TempKnown: true}},
		{Gear{"25.2 V 10 A", "heater 230 V 2000 W", ""}, prove.PlanInput{ChargerMinV: 25.2, ChargerMaxV: 25.2, ChargerA: 10, Load: "inverter", LoadW: 2000}},
		{Gear{"25.2 V 10 A", "inverter 21 V 1000 W", ""}, prove.PlanInput{ChargerMinV: 25.2, ChargerMaxV: 25.2, ChargerA: 10, Load: "inverter", LoadV: 21, LoadW: 1000}},
	} {
		var got prove.PlanInput
		for _, read := range []func(*prove.PlanInput) error{c.gear.temperature, c.gear.charger, c.gear.load} {
			if err := read(&got); err != nil {
				t.Errorf("%+v: %v", c.gear, err)
			}
		}
		if got.TempC -= c.want.TempC; got.TempC > 1e-9 || got.TempC < -1e-9 {
			t.Errorf("%+v: %g °C off", c.gear, got.TempC)
		}
		if got.TempC = c.want.TempC; got != c.want {
			t.Errorf("%+v:\n got %+v\nwant %+v", c.gear, got, c.want)
		}
	}
}

func TestGearRefuses(t *testing.T) {
	known := prove.Options{Cell: "nmc532", Groups: 6, RatedAh: 94}
	for path, list := range map[string][]Gear{
		"charger":     {{Charger: "large"}, {Charger: "20 A"}, {Charger: "25 V"}, {Charger: "25 V 10 A 300 W"}, {Charger: "1 V 2 V 3 V 4 A"}},
		"load":        {{Load: "soup"}, {Load: "heater"}, {Load: "24 V"}, {Load: "20 A 500 W"}, {Load: "heater 500"}},
		"temperature": {{Temperature: "warm"}, {Temperature: "5 V"}},
	} {
		for _, g := range list {
			_, err := Plan(known, g)
			var in *fit.InputError
			if !errors.As(err, &in) || in.Path != path || in.Expected == "" || in.Example == "" {
				t.Errorf("%+v: %v", g, err)
			}
		}
	}
}

// Without a word of the gear the plan is one that can be done.
func TestUsualGear(t *testing.T) {
	for _, cell := range []string{"nmc532", "lfp", "lmo-blend-pouch"} {
		plan, err := Plan(prove.Options{Cell: cell, Groups: 8, RatedAh: 60}, Gear{})
		if err != nil || !plan.Possible || len(plan.Steps) == 0 || len(plan.Cautions) == 0 {
			t.Errorf("%s: %+v, %v", cell, plan, err)
		}
	}
	if _, err := Plan(prove.Options{Cell: "nmc532", Groups: 8}, Gear{}); err == nil || !strings.Contains(err.Error(), "capacity") {
		t.Errorf("without a capacity: %v", err)
	}
}
