package fit_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

// bare is a bank with one exact charger and nothing else.
func bare(cell string, series int, absorption float64) *rig.Rig {
	return &rig.Rig{
		About: rig.About{Name: "bare"},
		Bank: rig.Bank{Cell: cell, Series: series, CellCapacity: ptr[q.Charge](100),
			Measured: &rig.Measured{Capacity: ptr[q.Charge](100), SpreadHigh: ptr[q.Voltage](0), SpreadLow: ptr[q.Voltage](0)}},
		Charge: []rig.Source{{Name: "charger", Kind: "mains", Limit: ptr[q.Current](20), Tolerance: ptr[q.Ratio](0), Senses: "bank",
			Settings: rig.ChargeSettings{Profile: "own", Absorption: set[q.Voltage](absorption)}}},
	}
}

// A 6-in-series nickel-cobalt-aluminium bank spans about 18 to 25.2 V, 21.6 V
// nominal, and is no bank for a 24 V lead-acid setting.
func TestSixNickelCobaltAluminium(t *testing.T) {
	res := run(t, bare("nca", 6, 28.8))
	near.Equal(t, "low", res.Window.BankLowV, 18.0, 1e-9)
	near.Equal(t, "nominal", res.Window.BankNominalV, 21.6, 1e-9)
	near.Equal(t, "high", res.Window.BankHighV, 25.2, 1e-9)
	if !has(res.Findings, "charge-beyond-harm", finding.Stop) {
		t.Error("28.8 V on 6 in series is not a stop")
	}
}

// What lead-acid settings do to a lithium bank: the table of the handbook, V per
// cell to 1 mV, with what it says of the limit.
func TestLeadAcidSettingsOnLithium(t *testing.T) {
	for _, c := range []struct {
		cell     string
		series   int
		asks     float64
		equalise bool
		perCell  float64
		over     bool
	}{
		{"lfp", 4, 14.4, false, 3.600, false},
		{"lfp", 4, 15.5, true, 3.875, true},
		{"nmc532", 3, 14.4, false, 4.800, true},
		{"nmc532", 7, 28.8, false, 4.114, false},
		{"nmc532", 7, 29.6, false, 4.229, true},
		{"nmc532", 7, 31.0, true, 4.429, true},
		{"nmc532", 14, 57.6, false, 4.114, false},
		{"nmc532", 14, 59.2, false, 4.229, true},
		{"nmc532", 14, 62.0, true, 4.429, true},
		{"nmc532", 13, 57.6, false, 4.431, true},
		{"nmc532", 12, 57.6, false, 4.800, true},
	} {
		name := fmt.Sprintf("%g V on %d %s", c.asks, c.series, c.cell)
		r, id := bare(c.cell, c.series, c.asks), "charge-beyond-harm"
		if c.equalise {
			r, id = bare(c.cell, c.series, 1), "equalise-on"
			r.Charge[0].Settings.Equalise = set[q.Voltage](c.asks)
		}
		res := run(t, r)
		near.Equal(t, name, c.asks/float64(c.series), c.perCell, 0.0005)
		if got := has(res.Findings, id, finding.Stop); got != c.over {
			t.Errorf("%s: %s is %v, want %v", name, id, got, c.over)
		}
		if c.over && !strings.Contains(text(res.Findings), fmt.Sprintf("%.3f V a cell", c.perCell)) {
			t.Errorf("%s: no finding names %.3f V a cell", name, c.perCell)
		}
	}
}

func text(list []finding.Finding) string {
	var b strings.Builder
	for _, f := range list {
		b.WriteString(f.Found + "\n")
	}
	return b.String()
}

// −5 mV/K for each of the cells of a lead-acid bank, at 0 °C.
func TestCompensationOnLithium(t *testing.T) {
	for _, c := range []struct {
		series            int
		asks, slope, want float64
	}{{7, 28.8, -0.060, 30.30}, {14, 57.6, -0.120, 60.60}} {
		r := bare("nmc532", c.series, c.asks)
		r.Charge[0].Settings.Compensation = set[q.VoltageSlope](c.slope)
		r.Route = []rig.Stay{{Name: "pass", Coldest: ptr[q.Temperature](0)}}
		res := run(t, r)
		want := fmt.Sprintf("to %.2f V: 4.329 V a cell", c.want)
		if !has(res.Findings, "compensation-in-cold", finding.Stop) || !strings.Contains(text(res.Findings), want) {
			t.Errorf("%d in series: want a stop with %q, found:\n%s", c.series, want, text(res.Findings))
		}
	}
}

// Twelve flooded cells by the handbook: 28.8 V, float 27.0 to 27.6 V, equalise
// 30.0 V, −3 to −5 mV/K a cell.
func TestLeadAcidBank(t *testing.T) {
	r := bare("lead-acid-flooded", 12, 28.8)
	r.Charge[0].Tolerance = ptr[q.Ratio](0.005)
	res := run(t, r)
	near.Equal(t, "absorption", valueOf(t, res, "absorption"), 28.8, 1e-9)
	near.Equal(t, "equalise", valueOf(t, res, "equalise"), 30.0, 1e-9)
	near.Equal(t, "compensation", valueOf(t, res, "compensation"), -0.048, 0.012001)
	near.Equal(t, "float", valueOf(t, res, "float"), 27.3, 0.3+1e-9)
	for _, f := range res.Findings {
		if f.Severity == finding.Stop && f.ID != "no-main-fuse" {
			t.Errorf("%s at %s: %s", f.ID, f.Where, f.Found)
		}
	}
}

func TestLeadAcidMistakes(t *testing.T) {
	for id, change := range map[string]func(*rig.ChargeSettings){
		"lead-acid-profile":  func(s *rig.ChargeSettings) { s.Profile = "lithium" },
		"float-too-high":     func(s *rig.ChargeSettings) { s.Float = set[q.Voltage](29) },
		"equalise-on":        func(s *rig.ChargeSettings) { s.Equalise = set[q.Voltage](30) },
		"charge-beyond-harm": func(s *rig.ChargeSettings) { s.Absorption = set[q.Voltage](29.5) },
	} {
		r := bare("lead-acid-agm", 12, 28.8)
		if has(run(t, r).Findings, id, finding.Care) || has(run(t, r).Findings, id, finding.Stop) {
			t.Errorf("%s is found before the mistake", id)
		}
		change(&r.Charge[0].Settings)
		if res := run(t, r); !has(res.Findings, id, finding.Care) && !has(res.Findings, id, finding.Stop) {
			t.Errorf("%s is not found", id)
		}
	}
}

func valueOf(t *testing.T, res *fit.Result, setting string) float64 {
	t.Helper()
	for _, s := range res.Settings {
		if v, ok := s.Value.(float64); ok && s.Setting == setting {
			return v
		}
	}
	t.Errorf("%s has no number", setting)
	return 0
}

func TestLimitsTighten(t *testing.T) {
	r := bare("nmc532", 12, 48)
	r.Bank.Limits = &rig.Limits{MaxVoltage: ptr[q.Voltage](4.15), MinVoltage: ptr[q.Voltage](3.2), ChargeMin: ptr[q.Temperature](3)}
	res := run(t, r)
	near.Equal(t, "high", res.Window.BankHighV, 49.8, 1e-9)
	near.Equal(t, "low", res.Window.BankLowV, 38.4, 1e-9)
	near.Equal(t, "frost limit", res.Warmth[0].TempC, 3, 0)
	near.Equal(t, "frost lock", res.Warmth[1].TempC, 8, 0)
}

func TestWhatCannotBeWorkedWith(t *testing.T) {
	for path, change := range map[string]func(*rig.Rig){
		"bank.limits.max_voltage": func(r *rig.Rig) { r.Bank.Limits = &rig.Limits{MaxVoltage: ptr[q.Voltage](4.21)} },
		"bank.limits.min_voltage": func(r *rig.Rig) { r.Bank.Limits = &rig.Limits{MinVoltage: ptr[q.Voltage](2.9)} },
		"bank.limits.charge_min":  func(r *rig.Rig) { r.Bank.Limits = &rig.Limits{ChargeMin: ptr[q.Temperature](-5)} },
		"bank.limits.charge_max":  func(r *rig.Rig) { r.Bank.Limits = &rig.Limits{ChargeMax: ptr[q.Temperature](70)} },
		"bank.cell":               func(r *rig.Rig) { r.Bank.Cell = "potato" },
		"bank.own.like":           func(r *rig.Rig) { r.Bank.Cell, r.Bank.Own = "own", &rig.OwnCell{Like: "potato"} },
		"bank.own.curve": func(r *rig.Rig) {
			r.Bank.Cell = "own"
			r.Bank.Own = &rig.OwnCell{Like: "nmc532", Curve: []rig.CurvePoint{{SoC: ptr[q.Ratio](0), Voltage: ptr[q.Voltage](3)}}}
		},
		"bank.own.max_voltage": func(r *rig.Rig) {
			r.Bank.Cell, r.Bank.Own = "own", &rig.OwnCell{Like: "nmc532", MaxVoltage: ptr[q.Voltage](4.9)}
		},
		"bank.measured.groups": func(r *rig.Rig) { r.Bank.Measured.Groups = make([]rig.GroupReading, 3) },
		"cables.thread": func(r *rig.Rig) {
			r.Charge[0].Senses = "own"
			r.Cables = []rig.Cable{{Name: "thread", From: "bank", To: "charger", Length: ptr[q.Length](100), Size: &q.Size{Gauge: q.AWG, Number: 18}}}
		},
	} {
		r := bare("nmc532", 12, 48)
		change(r)
		_, err := fit.Run(r)
		var bad *fit.InputError
		if !errors.As(err, &bad) || bad.Path != path || bad.Message == "" || bad.Expected == "" || !strings.HasPrefix(bad.Error(), path) {
			t.Errorf("%s: error is %v", path, err)
		}
	}
}

func TestOwnCell(t *testing.T) {
	r := bare("own", 12, 48)
	r.Bank.Own = &rig.OwnCell{Like: "nmc532", Title: "pouch, make unknown", MaxVoltage: ptr[q.Voltage](4.1), MinVoltage: ptr[q.Voltage](3.2),
		Curve: []rig.CurvePoint{{SoC: ptr[q.Ratio](0), Voltage: ptr[q.Voltage](3.0)}, {SoC: ptr[q.Ratio](0.5), Voltage: ptr[q.Voltage](3.7)},
			{SoC: ptr[q.Ratio](1), Voltage: ptr[q.Voltage](4.2)}}}
	res := run(t, r)
	near.Equal(t, "high", res.Window.BankHighV, 49.2, 1e-9)
	// From 3.2 V (14.286 %) to 4.1 V (90 %), straight lines: 100 Ah × 12 × 2.8161 V.
	near.Equal(t, "energy", res.Window.UsableWh, 1200*(0.357143*3.45+0.4*3.9), 0.01)
	if res.Cell.Name != "own" || res.Cell.Title != "pouch, make unknown" {
		t.Errorf("cell is %q, %q", res.Cell.Name, res.Cell.Title)
	}
}

// The weakest group's capacity governs, and it widens the spread near empty.
func TestWeakestGroupGoverns(t *testing.T) {
	r := bare("nmc532", 12, 48)
	groups(r, 100, 94)
	res := run(t, r)
	near.Equal(t, "capacity", res.Cell.Capacity, 94, 1e-9)
	if res.Cell.SpreadLo <= 0 {
		t.Errorf("spread near empty is %g V", res.Cell.SpreadLo)
	}
	if has(res.Findings, "capacity-unmeasured", finding.Care) {
		t.Error("measured groups count as not measured")
	}
}

// Resistance: as measured at the terminals; else the groups and the links of the
// strings side by side; else typical cells, 62 mΩ·Ah each.
func TestBankResistance(t *testing.T) {
	r := bare("nmc532", 12, 48)
	r.Bank.Strings, r.Bank.Links = 2, ptr[q.Resistance](0.8e-3)
	near.Equal(t, "typical", run(t, r).Cell.Ohm, 12*0.062/200+0.4e-3, 1e-9)
	groups(r, 100, 100)
	for k := range r.Bank.Measured.Groups {
		r.Bank.Measured.Groups[k].Resistance = ptr[q.Resistance](0.5e-3)
	}
	near.Equal(t, "groups", run(t, r).Cell.Ohm, 6.4e-3, 1e-9)
	r.Bank.Measured.Resistance = ptr[q.Resistance](5.9e-3)
	near.Equal(t, "measured", run(t, r).Cell.Ohm, 5.9e-3, 1e-9)
}

// A setting of today between two steps of its device is not kept.
func TestKeepsWhatIsFairAndCanBeHeld(t *testing.T) {
	r := load(t, "curlew")
	relay(r).LowReset, relay(r).LowDelay = set[q.Voltage](41.5), set[q.Duration](15)
	r.Heater.On = set[q.Temperature](10)
	r.Inverters[0].Restart = set[q.Voltage](44.05)
	want := map[string]float64{"protection.relays.guard relay.low_reset": 41.5, "protection.relays.guard relay.low_delay": 15,
		"heater.on": 10, "inverters.mains inverter.restart": 42.5}
	for _, s := range run(t, r).Settings {
		if v, ok := want[s.Path]; ok {
			near.Equal(t, s.Path, s.Value.(float64), v, 0.11)
		}
	}
}

// The sensing drop is the sum along the way: the shared run with all current,
// the charger's own with its own. 50 A through 2 × 2 m of 16 mm2 and 20 A through
// 2 × 3 m of 6 mm2, both hot.
func TestSensingDropFollowsTheCables(t *testing.T) {
	r := bare("nmc532", 12, 48)
	r.Charge[0].Senses = "own"
	r.Charge = append(r.Charge, r.Charge[0])
	r.Charge[1].Name, r.Charge[1].Limit = "second", ptr[q.Current](30)
	size := func(mm2 float64) *q.Size { return &q.Size{Gauge: q.MM2, Number: mm2} }
	r.Cables = []rig.Cable{
		{Name: "main", From: "bus", To: "bank", Length: ptr[q.Length](2), Size: size(16)},
		{Name: "branch", From: "bus", To: "charger", Length: ptr[q.Length](3), Size: size(6)},
	}
	drop := 0.0
	for _, l := range run(t, r).Layers {
		for _, m := range append(l.Members, l) {
			if m.Device == "charger" {
				drop = argument(m.How[0], "drop")
			}
		}
	}
	// IEC 60228 class 5, 1.21 and 3.30 Ω/km at 20 °C, 21.6 % more at 75 °C.
	near.Relative(t, "drop", drop, 1.216*(50*4*1.21e-3+20*6*3.30e-3), 0.005)
}

func argument(u figure.Use, name string) float64 {
	for _, a := range u.In {
		if a.Name == name {
			return a.Num
		}
	}
	return 0
}

// An estimate is used as a capacity and never passes for a measurement.
func TestEstimatedCapacity(t *testing.T) {
	r := load(t, "curlew")
	measured := run(t, r)
	r.Bank.Measured.Estimated = true
	res := run(t, r)
	if c := res.Cell; c.Measured || c.Basis != "estimated from its past" || c.Capacity != measured.Cell.Capacity {
		t.Errorf("%g Ah, measured %t, %s", c.Capacity, c.Measured, c.Basis)
	}
	if count(measured, "capacity-unmeasured") != 0 || count(res, "capacity-unmeasured") != 1 {
		t.Error("an estimate should be found unmeasured, a measurement not")
	}
}
