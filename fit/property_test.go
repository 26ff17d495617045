package fit_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"ampstead/finding"
	"ampstead/fit"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	q "ampstead/quantity"
	"ampstead/rig"
)

var lithium = []string{"nca", "nmc532", "nmc811", "nickel-rich-18650", "lmo-blend-pouch", "lfp"}

// anyRig draws a bank with a random set of devices of random accuracy.
func anyRig(t *rapid.T, cells []string) *rig.Rig {
	number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	series := rapid.IntRange(2, 20).Draw(t, "series")
	step := rapid.SampledFrom([]float64{0.01, 0.05, 0.1, 0.2, 0.5}).Draw(t, "step")
	tol := func(name string) *q.Ratio { return ptr[q.Ratio](number(name, 0, 0.02)) }
	r := &rig.Rig{About: rig.About{Name: "any"}}
	r.Bank = rig.Bank{Cell: rapid.SampledFrom(cells).Draw(t, "cell"), Series: series, CellCapacity: ptr[q.Charge](number("rated", 20, 400)),
		Measured: &rig.Measured{SpreadHigh: ptr[q.Voltage](number("spread high", 0, 0.08)), SpreadLow: ptr[q.Voltage](number("spread low", 0, 0.15))}}
	for k := range rapid.IntRange(1, 3).Draw(t, "sources") {
		r.Charge = append(r.Charge, rig.Source{Name: fmt.Sprintf("charger %d", k), Kind: "mains", Limit: ptr[q.Current](number("limit", 1, 200)),
			Tolerance: tol("charger tolerance"), Step: ptr[q.Voltage](step), Senses: rapid.SampledFrom([]string{"own", "bank"}).Draw(t, "senses"),
			Thermometer: "bank", StopInput: true})
	}
	r.Inverters = []rig.Inverter{{Name: "inverter", Power: ptr[q.Power](number("power", 100, 5000)), Tolerance: tol("inverter tolerance"), Step: ptr[q.Voltage](step),
		InputLow: ptr[q.Voltage](number("input low", 1, 3.4) * float64(series)), InputHigh: ptr[q.Voltage](5 * float64(series))}}
	r.Protection.Contactors = []rig.Contactor{{Name: "contactor", Opens: "bank"}}
	if rapid.Bool().Draw(t, "relay") {
		r.Protection.Relays = []rig.Relay{{Name: "relay", Drives: "contactor", Tolerance: tol("relay tolerance"), Step: ptr[q.Voltage](step),
			Senses: rapid.SampledFrom([]string{"bus", "bank"}).Draw(t, "relay senses")}}
	}
	if rapid.Bool().Draw(t, "meter") {
		m := rig.Meter{Name: "meter", Watches: series, Tolerance: ptr[q.Voltage](number("meter tolerance", 0, 0.02)),
			Step: ptr[q.Voltage](rapid.SampledFrom([]float64{0.001, 0.01, 0.05}).Draw(t, "meter step"))}
		if rapid.Bool().Draw(t, "drives") {
			m.Drives = "contactor"
		}
		r.Protection.Meters = []rig.Meter{m}
	}
	r.Cables = []rig.Cable{
		{Name: "main", From: "bank", To: "bus", Length: ptr[q.Length](number("main", 0.1, 2)), Size: &q.Size{Gauge: q.MM2, Number: 70}},
		{Name: "branch", From: "bus", To: "charger 0", Length: ptr[q.Length](number("branch", 0.1, 2)), Size: &q.Size{Gauge: q.MM2, Number: 70}},
	}
	r.Heater = &rig.Heater{Name: "pad", Power: ptr[q.Power](60), Tolerance: ptr[q.TemperatureStep](number("heater tolerance", 0, 4))}
	return r
}

// With every tolerance against you no layer reaches the next one, or the run
// says that they cross.
func TestRecommendedLayersNeverCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		res, err := fit.Run(anyRig(t, append(lithium, "lead-acid-flooded", "lead-acid-agm")))
		if err != nil {
			t.Fatal(err)
		}
		if has(res.Findings, "layers-cross", finding.Stop) || has(res.Findings, "out-of-device-range", finding.Stop) {
			return
		}
		for k := 1; k < len(res.Layers); k++ {
			inner, outer := res.Layers[k-1], res.Layers[k]
			if gap := outer.LowV - inner.HighV; gap <= 0 {
				t.Fatalf("%s up to %g V, %s from %g V", inner.Name, inner.HighV, outer.Name, outer.LowV)
			}
		}
	})
}

// aboutDevices are the rules that no setting can mend.
var aboutDevices = map[string]bool{"no-disconnect": true, "no-cell-meter": true, "capacity-unmeasured": true, "discharge-rate": true,
	"input-range": true, "layers-cross": true, "out-of-device-range": true, "no-main-fuse": true}

func TestRecommendedSettingsAreQuiet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRig(t, append(lithium, "lead-acid-flooded", "lead-acid-agm"))
		first, err := fit.Run(r)
		if err != nil {
			t.Fatal(err)
		}
		apply(t, r, first)
		again, err := fit.Run(r)
		if err != nil {
			t.Fatal(err)
		}
		if has(again.Findings, "layers-cross", finding.Stop) {
			return
		}
		for _, f := range again.Findings {
			if f.Severity != finding.Note && !aboutDevices[f.ID] {
				t.Fatalf("%s %s at %s: %s", f.Severity, f.ID, f.Where, f.Found)
			}
		}
		for _, s := range again.Settings {
			if s.Differs {
				t.Fatalf("%s was set to %v and is now to be %v", s.Path, s.Today, s.Value)
			}
		}
	})
}

// Resets lie inside the layer further in, so that a disconnect closes again only
// in the daily range.
func TestResetsLieInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRig(t, lithium)
		res, err := fit.Run(r)
		if err != nil {
			t.Fatal(err)
		}
		at := map[string]float64{}
		for _, s := range res.Settings {
			if v, ok := s.Value.(float64); ok {
				at[s.Path] = v
			}
		}
		for trip, reset := range map[string]string{
			"protection.relays.relay.high": "protection.relays.relay.high_reset", "charge.charger 0.settings.absorption": "charge.charger 0.settings.restart"} {
			if at[reset] != 0 && at[reset] >= at[trip] {
				t.Fatalf("%s %g V is not below %s %g V", reset, at[reset], trip, at[trip])
			}
		}
		for trip, reset := range map[string]string{
			"protection.relays.relay.low": "protection.relays.relay.low_reset", "inverters.inverter.low_cut": "inverters.inverter.restart"} {
			if at[reset] != 0 && at[reset] <= at[trip] {
				t.Fatalf("%s %g V is not above %s %g V", reset, at[reset], trip, at[trip])
			}
		}
	})
}
