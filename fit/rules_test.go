package fit_test

import (
	"testing"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Three designs for each rule, made from the mended rig: one that passes, one
// exactly at the limit (which passes), one that fails by the least step.
type design struct {
	rule     string
	severity finding.Severity
	passes   func(r *rig.Rig)
	limit    func(r *rig.Rig)
	fails    func(r *rig.Rig)
}

func solar(r *rig.Rig) *rig.Source      { return &r.Charge[0] }
func mains(r *rig.Rig) *rig.Source      { return &r.Charge[1] }
func alternator(r *rig.Rig) *rig.Source { return &r.Charge[2] }
func relay(r *rig.Rig) *rig.Relay       { return &r.Protection.Relays[0] }
func meter(r *rig.Rig) *rig.Meter       { return &r.Protection.Meters[0] }
func frost(r *rig.Rig) *rig.Cutout      { return &r.Protection.Cutouts[0] }
func mainFuse(r *rig.Rig) *rig.Fuse     { return &r.Protection.Fuses[0] }
func exact(s *rig.Source) {
	s.Tolerance, s.Step, s.Senses = ptr[q.Ratio](0), ptr[q.Voltage](0.012), "bank"
}
func level(r *rig.Rig) {
	r.Bank.Measured.SpreadHigh, r.Bank.Measured.SpreadLow = ptr[q.Voltage](0), ptr[q.Voltage](0)
}
func absorb(s *rig.Source, v float64) { s.Settings.Absorption = set[q.Voltage](v) }

var designs = []design{
	{"lead-acid-profile", finding.Stop,
		func(r *rig.Rig) { solar(r).Settings.Profile = "lithium" },
		func(r *rig.Rig) { solar(r).Settings.Profile = "own" },
		func(r *rig.Rig) { solar(r).Settings.Profile = "gel" }},
	{"charge-beyond-harm", finding.Stop, // no tolerance, no spread: 12 × 4.20 V is the limit
		func(r *rig.Rig) { exact(solar(r)); level(r); absorb(solar(r), 49.2) },
		func(r *rig.Rig) { exact(solar(r)); level(r); absorb(solar(r), 50.4) },
		func(r *rig.Rig) { exact(solar(r)); level(r); absorb(solar(r), 50.412) }},
	{"charge-above-daily", finding.Care, // the alarm's first moment is 4.125 V, 12 × 4.125 V = 49.5 V
		func(r *rig.Rig) { exact(solar(r)); level(r); absorb(solar(r), 49.2) },
		func(r *rig.Rig) {
			exact(solar(r))
			level(r)
			absorb(solar(r), 49.2)
			solar(r).Highest = ptr[q.Voltage](49.2)
		},
		func(r *rig.Rig) { exact(solar(r)); level(r); absorb(solar(r), 49.812) }},
	{"compensation-in-cold", finding.Care,
		func(r *rig.Rig) { solar(r).Settings.Compensation = off[q.VoltageSlope]() },
		func(r *rig.Rig) { solar(r).Settings.Compensation = set[q.VoltageSlope](0) },
		func(r *rig.Rig) { solar(r).Settings.Compensation = set[q.VoltageSlope](-0.001) }},
	{"equalise-on", finding.Stop,
		func(r *rig.Rig) { solar(r).Settings.Equalise = off[q.Voltage]() },
		func(r *rig.Rig) { solar(r).Settings.Equalise = rig.Setting[q.Voltage]{} },
		func(r *rig.Rig) { solar(r).Settings.Equalise = set[q.Voltage](49.2) }},
	{"float-too-high", finding.Care, // rest voltage at 40 % charge, 12 × 3.6710 V = 44.05 V
		func(r *rig.Rig) { mains(r).Settings.Float = off[q.Voltage]() },
		func(r *rig.Rig) { mains(r).Settings.Float = set[q.Voltage](44.0) },
		func(r *rig.Rig) { mains(r).Settings.Float = set[q.Voltage](44.1) }},
	{"no-frost-lock", finding.Stop,
		func(r *rig.Rig) { mains(r).Settings.FrostLock = set[q.Temperature](6) },
		func(r *rig.Rig) {
			r.Route = r.Route[:1]
			r.Route[0].Coldest = ptr[q.Temperature](5)
			r.Protection.Cutouts = nil
		},
		func(r *rig.Rig) { mains(r).StopInput = false }},
	{"no-frost-lock", finding.Care, // locked, but too near the limit for its accuracy
		func(r *rig.Rig) { frost(r).Below = set[q.Temperature](7) },
		func(r *rig.Rig) { frost(r).Below = set[q.Temperature](5) },
		func(r *rig.Rig) { frost(r).Below = set[q.Temperature](4.9) }},
	{"no-frost-lock", finding.Care, // how cold it gets is not known
		func(r *rig.Rig) { r.Route = nil },
		func(r *rig.Rig) { r.Route = nil; frost(r).Below = set[q.Temperature](5) },
		func(r *rig.Rig) { r.Route = nil; frost(r).Below = off[q.Temperature]() }},
	{"heater-order", finding.Care, // lock 5 °C, thermostat ± 1 K
		func(r *rig.Rig) { r.Heater.On = set[q.Temperature](9) },
		func(r *rig.Rig) { r.Heater.On = set[q.Temperature](6) },
		func(r *rig.Rig) { r.Heater.On = set[q.Temperature](5.9) }},
	{"relay-beyond-harm", finding.Stop, // no tolerance, spread or delay: 12 × 4.20 V
		func(r *rig.Rig) { strict(r); relay(r).High = set[q.Voltage](50.0) },
		func(r *rig.Rig) { strict(r); relay(r).High = set[q.Voltage](50.4) },
		func(r *rig.Rig) { strict(r); relay(r).High = set[q.Voltage](50.5) }},
	{"relay-beyond-harm", finding.Stop, // and 12 × 3.00 V
		func(r *rig.Rig) { strict(r); relay(r).Low = set[q.Voltage](38.2) },
		func(r *rig.Rig) {
			strict(r)
			relay(r).Low = set[q.Voltage](36.0)
			r.Inverters[0].InputLow = ptr[q.Voltage](30)
		},
		func(r *rig.Rig) {
			strict(r)
			relay(r).Low = set[q.Voltage](35.9)
			r.Inverters[0].InputLow = ptr[q.Voltage](30)
		}},
	{"relay-inside-daily", finding.Care, // the solar charger lets a cell come to 49.2 × 1.003 / 12 + 6 mV, the alternator's to 4.1224 V
		func(r *rig.Rig) { relay(r).High = set[q.Voltage](50.0) },
		func(r *rig.Rig) { relay(r).High = set[q.Voltage](49.8) },
		func(r *rig.Rig) { relay(r).High = set[q.Voltage](49.7); meter(r).AlarmHigh = off[q.Voltage]() }},
	{"alarm-after-disconnect", finding.Care, // the relay can act from 50.0 × 0.995 / 12 = 4.1458 V
		func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.13) },
		func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.14) },
		func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.15) }},
	{"layers-cross", finding.Care, // an alarm that charging sets off: its first moment must lie above 4.1224 V
		func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.14) },
		func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.13) },
		func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.12) }},
	{"layers-cross", finding.Stop,
		func(r *rig.Rig) { relay(r).Tolerance = ptr[q.Ratio](0.01) },
		func(r *rig.Rig) { relay(r).Tolerance = ptr[q.Ratio](0.03) },
		func(r *rig.Rig) { relay(r).Tolerance = ptr[q.Ratio](0.1) }},
	{"no-disconnect", finding.Stop,
		func(r *rig.Rig) { r.Protection.Contactors[0].Opens = "bank" },
		func(r *rig.Rig) { meter(r).Drives = "main contactor"; r.Protection.Relays = nil },
		func(r *rig.Rig) { r.Protection.Relays = nil }},
	{"no-disconnect", finding.Care, // charging is cut off, the loads are not
		func(r *rig.Rig) {},
		func(r *rig.Rig) { meter(r).Drives = "main contactor" },
		func(r *rig.Rig) { r.Protection.Contactors[0].Opens = "charge" }},
	{"no-cell-meter", finding.Care,
		func(r *rig.Rig) {}, func(r *rig.Rig) {},
		func(r *rig.Rig) { r.Protection.Meters = nil }},
	{"taps-missing", finding.Care,
		func(r *rig.Rig) { meter(r).Watches = 25 },
		func(r *rig.Rig) { meter(r).Watches = 24 },
		func(r *rig.Rig) { meter(r).Watches = 23 }},
	{"low-cut-too-low", finding.Stop, // 12 × 3.00 V, no tolerance, no spread
		func(r *rig.Rig) { cut(r, 40.8) },
		func(r *rig.Rig) { cut(r, 36.0) },
		func(r *rig.Rig) { cut(r, 35.9) }},
	{"low-cut-below-inverter", finding.Care, // ± 0.5 % above 38 V
		func(r *rig.Rig) { relay(r).Low = set[q.Voltage](38.5) },
		func(r *rig.Rig) { relay(r).Low = set[q.Voltage](38.2) },
		func(r *rig.Rig) { relay(r).Low = set[q.Voltage](38.1) }},
	{"no-low-cut", finding.Care,
		func(r *rig.Rig) {}, func(r *rig.Rig) {},
		func(r *rig.Rig) { r.Converters[0].LowCut = off[q.Voltage]() }},
	{"input-range", finding.Stop,
		func(r *rig.Rig) { r.Inverters[0].InputHigh = ptr[q.Voltage](60) },
		func(r *rig.Rig) { r.Inverters[0].InputHigh = ptr[q.Voltage](50.4) },
		func(r *rig.Rig) { r.Inverters[0].InputHigh = ptr[q.Voltage](50.3) }},
	{"input-range", finding.Care,
		func(r *rig.Rig) { r.Converters[0].InputLow = ptr[q.Voltage](40) },
		func(r *rig.Rig) { r.Converters[0].InputLow = ptr[q.Voltage](40.8) },
		func(r *rig.Rig) { r.Converters[0].InputLow = ptr[q.Voltage](40.9) }},
	{"out-of-device-range", finding.Stop, // 49.3 V is the most that fits inside the alarm
		func(r *rig.Rig) { solar(r).Lowest = ptr[q.Voltage](40) },
		func(r *rig.Rig) { solar(r).Lowest = ptr[q.Voltage](49.2) },
		func(r *rig.Rig) { solar(r).Lowest = ptr[q.Voltage](49.4) }},
	{"set-point-too-fine", finding.Care,
		func(r *rig.Rig) { meter(r).AlarmLow = set[q.Voltage](3.21) },
		func(r *rig.Rig) { meter(r).AlarmLow = set[q.Voltage](3.22) },
		func(r *rig.Rig) { meter(r).AlarmLow = set[q.Voltage](3.215) }},
	{"alternator-unloaded", finding.Stop,
		func(r *rig.Rig) { alternator(r).StarterBattery = "stays" },
		func(r *rig.Rig) { alternator(r).StarterBattery = "none"; r.Protection.Contactors[0].Opens = "loads" },
		func(r *rig.Rig) { alternator(r).StarterBattery = "none" }},
	{"charge-rate", finding.Care, // half of 168 Ah an hour: 84 A
		func(r *rig.Rig) { solar(r).Settings.Current = set[q.Current](30) },
		func(r *rig.Rig) { solar(r).Settings.Current = set[q.Current](36) },
		func(r *rig.Rig) { solar(r).Settings.Current = set[q.Current](37) }},
	{"charge-rate", finding.Note, // the same with a fan
		func(r *rig.Rig) { r.Charge = nil },
		func(r *rig.Rig) { r.Charge = nil; r.Bank.Cooling = "fan" },
		func(r *rig.Rig) { r.Bank.Cooling = "fan"; solar(r).Settings.Current = set[q.Current](37) }},
	{"discharge-rate", finding.Care, // 168 A at 40.8 V and 93 %, less the converter's 10 A
		func(r *rig.Rig) { r.Inverters[0].Power = ptr[q.Power](3000) },
		func(r *rig.Rig) { r.Inverters[0].Power = ptr[q.Power](5990) },
		func(r *rig.Rig) { r.Inverters[0].Power = ptr[q.Power](6100) }},
	{"no-main-fuse", finding.Stop,
		func(r *rig.Rig) {}, func(r *rig.Rig) {},
		func(r *rig.Rig) { mainFuse(r).Guards = "bank to bus" }},
	{"no-string-fuse", finding.Care,
		func(r *rig.Rig) {}, func(r *rig.Rig) { r.Protection.Fuses = r.Protection.Fuses[:1]; r.Bank.Strings = 1 },
		func(r *rig.Rig) { r.Protection.Fuses = r.Protection.Fuses[:1] }},
	{"interrupt-rating", finding.Stop,
		func(r *rig.Rig) { mainFuse(r).Interrupt = ptr[q.Current](50e3) },
		func(r *rig.Rig) { mainFuse(r).Interrupt = ptr[q.Current](20e3) },
		func(r *rig.Rig) { mainFuse(r).Interrupt = ptr[q.Current](19e3) }},
	{"interrupt-rating", finding.Care,
		func(r *rig.Rig) {}, func(r *rig.Rig) {},
		func(r *rig.Rig) { mainFuse(r).Interrupt = nil }},
	{"fuse-voltage", finding.Stop,
		func(r *rig.Rig) { mainFuse(r).RatedVoltage = ptr[q.Voltage](80) },
		func(r *rig.Rig) { mainFuse(r).RatedVoltage = ptr[q.Voltage](50.4) },
		func(r *rig.Rig) { mainFuse(r).RatedVoltage = ptr[q.Voltage](50.3) }},
	{"fuse-voltage", finding.Care,
		func(r *rig.Rig) {}, func(r *rig.Rig) {},
		func(r *rig.Rig) { mainFuse(r).RatedVoltage = nil }},
	{"capacity-unmeasured", finding.Care,
		func(r *rig.Rig) {}, func(r *rig.Rig) { r.Bank.Measured.Capacity = nil; groups(r, 168, 168) },
		func(r *rig.Rig) { r.Bank.Measured.Capacity = nil }},
	{"spread-unmeasured", finding.Care,
		func(r *rig.Rig) {}, func(r *rig.Rig) { level(r) },
		func(r *rig.Rig) { r.Bank.Measured.SpreadLow = nil }},
	{"weak-group-unseen", finding.Care, // one group 5 % weaker than the rest
		func(r *rig.Rig) { groups(r, 168, 168) },
		func(r *rig.Rig) { groups(r, 170, 161); meter(r).Drives = "main contactor"; r.Protection.Relays = nil },
		func(r *rig.Rig) { groups(r, 170, 161) }},
	{"tolerance-assumed", finding.Note,
		func(r *rig.Rig) {}, func(r *rig.Rig) { relay(r).Tolerance = ptr[q.Ratio](0) },
		func(r *rig.Rig) { relay(r).Tolerance = nil }},
	{"not-given", finding.Note,
		func(r *rig.Rig) {}, func(r *rig.Rig) { solar(r).Settings.Tail = off[q.Current]() },
		func(r *rig.Rig) { solar(r).Settings.Tail = rig.Setting[q.Current]{} }},
}

// strict leaves a relay that errs in nothing and a bank without spread.
func strict(r *rig.Rig) {
	level(r)
	relay(r).Tolerance = ptr[q.Ratio](0)
	relay(r).HighDelay, relay(r).LowDelay = set[q.Duration](0), set[q.Duration](0)
}

// cut sets the inverter's low cut, exact and with no alarm or relay before it.
func cut(r *rig.Rig, v float64) {
	level(r)
	r.Inverters[0].Tolerance, r.Inverters[0].InputLow = ptr[q.Ratio](0), ptr[q.Voltage](30)
	r.Inverters[0].LowCut = set[q.Voltage](v)
}

// groups gives every group this capacity, the fourth another.
func groups(r *rig.Rig, each, fourth float64) {
	r.Bank.Measured.Groups = make([]rig.GroupReading, r.Bank.Series)
	for k := range r.Bank.Measured.Groups {
		r.Bank.Measured.Groups[k].Capacity = ptr[q.Charge](each)
	}
	r.Bank.Measured.Groups[3].Capacity = ptr[q.Charge](fourth)
}

func TestRules(t *testing.T) {
	for _, d := range designs {
		for _, c := range []struct {
			name   string
			change func(*rig.Rig)
			want   bool
		}{{"passes", d.passes, false}, {"at the limit", d.limit, false}, {"fails", d.fails, true}} {
			r := load(t, "curlew")
			c.change(r)
			if got := has(run(t, r).Findings, d.rule, d.severity); got != c.want {
				t.Errorf("%s (%s), %s: found %v, want %v\n%v", d.rule, d.severity, c.name, got, c.want, listed(run(t, r).Findings))
			}
		}
	}
}

func has(list []finding.Finding, id string, severity finding.Severity) bool {
	for _, f := range list {
		if f.ID == id && f.Severity == severity {
			return true
		}
	}
	return false
}

// A mistake in one setting is told once.
func TestOneMistakeOneFinding(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*rig.Rig)
		id     string
	}{
		"absorption of a lead-acid battery": {func(r *rig.Rig) { absorb(mains(r), 57.6) }, "charge-beyond-harm"},
		"absorption above the alarm":        {func(r *rig.Rig) { absorb(mains(r), 49.9) }, "charge-above-daily"},
		"relay too low at the top":          {func(r *rig.Rig) { relay(r).High = set[q.Voltage](48) }, "relay-inside-daily"},
		"relay too far out at the top":      {func(r *rig.Rig) { relay(r).High = set[q.Voltage](51) }, "relay-beyond-harm"},
		"alarm too high":                    {func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.3) }, "alarm-after-disconnect"},
		"alarm too low":                     {func(r *rig.Rig) { meter(r).AlarmHigh = set[q.Voltage](4.0) }, "layers-cross"},
		"low alarm too high":                {func(r *rig.Rig) { meter(r).AlarmLow = set[q.Voltage](3.5) }, "layers-cross"},
		"low cut inside the alarm":          {func(r *rig.Rig) { r.Inverters[0].LowCut = set[q.Voltage](38.4) }, "low-cut-too-low"},
	} {
		r := load(t, "curlew")
		c.change(r)
		var ids []string
		for _, f := range run(t, r).Findings {
			if f.Severity != finding.Note {
				ids = append(ids, f.ID)
			}
		}
		if len(ids) != 1 || ids[0] != c.id {
			t.Errorf("%s: found %v, want one %s", name, ids, c.id)
		}
	}
}
