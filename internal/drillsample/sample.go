// Package drillsample is an invented drill for tests of what shows one: every
// verdict, a pair, an addition, a silent fault, and names that have to be escaped.
//
// May import: drill, finding. For tests.
package drillsample

import (
	"ampstead/drill"
	"ampstead/finding"
)

// The names that tests ask for.
const (
	Stuck  = "roof solar: stuck at full output"
	Welded = "main contactor: contact welded"
	Dead   = "cell meter: dead"
	Sun    = "full sun, nobody home"
	Dawn   = "frozen dawn"
)

// Result is a fresh copy of the drill; it may be changed.
func Result() *drill.Result {
	res := &drill.Result{Scenes: scenes(), Faults: faults(), Guards: guards(), Seconds: 4.2, Tolerant: false,
		Assumed: []string{"a person hears the alarm within 10 minutes"},
		Figures: []string{"rest-voltage", "warm-up"},
		Findings: []finding.Finding{{ID: "single-fault-harm", Severity: finding.Stop, Where: "protection.cutouts", Found: "one fault <by itself> charges in frost",
			Because: "nothing else stops it", Mend: "fit a second frost switch"}}}
	for f, fault := range res.Faults {
		for s, scene := range res.Scenes {
			o := ended(f, s)
			o.Fault, o.Scene = fault.Name, scene.Name
			res.Single = append(res.Single, o)
		}
	}
	for s, scene := range res.Scenes {
		res.Without = append(res.Without, drill.Outcome{Scene: scene.Name, Outcome: drill.None, MarginMV: 240 + 30*float64(s), HarmAt: -1, AlarmAt: -1, ReactS: -1, WorstV: 3.9, Side: "high"})
	}
	res.Pairs = pairs()
	res.Uncovered = []drill.Uncovered{
		{Faults: []string{"frost switch: stuck closed"}, Scenes: []string{Dawn}, Harm: "frost charge", Silent: true, Addition: "a second frost switch on the chargers' stop line"},
		{Faults: []string{Stuck, Welded}, Scenes: []string{Sun, "driving"}, Harm: "cell high", Silent: true},
	}
	res.Additions = []drill.Addition{{Name: "a second contactor in series", About: "its coil must not share the relay", Covers: 31, Of: 44,
		Causes: []string{"the only switch that parts the bank has failed"}, Creates: 1, Loss: 12},
		{Name: "a second frost switch on the chargers' stop line", About: "with a sensor of its own", Covers: 9, Of: 44, Causes: []string{"the only thing that stops charging in frost has failed"}}}
	res.Margins = []drill.Margin{
		{Device: "guard relay", Setting: "high", Path: "protection.relays.guard relay.high", Value: 50, Unit: "V", Down: 1.5, Up: 0.12, UpTo: Dead + " in " + Sun + ": caught becomes near", Range: 1.5, Tol: 0.25},
		{Device: "heater pad", Setting: "on", Path: "heater.on", Value: 9, Unit: "°C", Down: 2.5, Up: 6, DownTo: "frost", Range: 6, Tol: 1},
	}
	res.Rehearsal = []drill.Rehearsal{{Name: "see the relay open", Tests: "guard relay: high", Before: []string{"read the bank's voltage"}, Steps: []string{"lower the high threshold to 0.2 V under it", "wait 2 s"},
		Expect: "the contactor opens within 3 s", Stop: "nothing opens in 10 s", After: []string{"set the threshold back to 50.0 V"}}}
	return res
}

func pairs() drill.Pairs {
	worst := drill.Outcome{Fault: Stuck, Second: Welded, Scene: Sun, Outcome: drill.Harm, Harm: "cell high", WorstV: 4.41, MarginMV: -210, Side: "high",
		FirstLayer: "alarm high", FirstAt: 900, HarmAt: 2400, AlarmAt: 900, ReactS: 1500, Acts: acts()}
	return drill.Pairs{Runs: 5670, Faults: 810, Harm: 44, Near: 120, Caught: 3100, Nuisance: 400, Groups: []drill.Group{
		{Cause: "the only switch that parts the bank has failed", Common: Welded, Harm: "cell high", Pairs: [][2]string{{Stuck, Welded}, {"mains charger: stuck at full output", Welded}},
			Scenes: []string{Sun, "driving"}, Silent: true, Worst: worst, Addition: "a second contactor in series"},
		{Cause: "the only thing that stops charging in frost has failed", Common: "frost switch", Harm: "frost charge",
			Pairs: [][2]string{{"frost switch: stuck closed", "heater pad: stuck off"}}, Scenes: []string{Dawn}, Worst: drill.Outcome{Fault: "frost switch: stuck closed", Second: "heater pad: stuck off",
				Scene: Dawn, Outcome: drill.Harm, Harm: "frost charge", FrostAh: 6.4, HarmAt: 4000, AlarmAt: -1, ReactS: -1, MarginMV: 320, WorstV: 3.7, Side: "high", Silent: true}},
	}}
}

func scenes() []drill.Scene {
	return []drill.Scene{
		{Name: Sun, About: "the bank nearly full at noon, nothing drawn", Where: "Meseta", SoC: 0.9, BankC: 24, AirC: 26, Hours: 6, Sun: true},
		{Name: Dawn, About: "a cold bank as the sun comes up", Where: "Fjord head", SoC: 0.5, BankC: -3, AirC: -6, Hours: 6, Sun: true, Home: true},
		{Name: "evening peak", About: "cooking with the bank low", SoC: 0.2, BankC: 14, AirC: 10, Hours: 4, Home: true},
		{Name: "driving", About: "the alternator charges", SoC: 0.7, BankC: 18, AirC: 15, Hours: 5, Drives: true, Home: true},
		{Name: "mains overnight", About: "on hook-up", SoC: 0.8, BankC: 12, AirC: 8, Hours: 10, Mains: true, Home: true},
		{Name: "three months' storage", About: "parked, nobody there", SoC: 0.6, BankC: 10, AirC: 8, Hours: 2160},
		{Name: "hottest afternoon", About: "sun and heat", SoC: 0.8, BankC: 38, AirC: 41, Hours: 6, Sun: true},
	}
}

func faults() []drill.Fault {
	list := []struct{ device, name string }{
		{"roof solar", "stuck at full output"}, {"roof solar", "back on the lead-acid profile"}, {"roof solar", "senses 2 % low"}, {"roof solar", "senses 2 % high"},
		{"mains charger", "stuck at full output"}, {"mains charger", "back on the lead-acid profile"}, {"mains charger", "senses 2 % low"},
		{"alternator charger", "stuck at full output"}, {"alternator charger", "disconnected under charge"},
		{"main contactor", "contact welded"}, {"main contactor", "coil open"},
		{"guard relay", "threshold drifted up by 1 %"}, {"guard relay", "delay lost"},
		{"cell meter", "dead"}, {"cell meter", "wire of tap 7 open"},
		{"frost switch", "stuck closed"}, {"frost switch", "stuck open"},
		{"heater pad", "stuck on"}, {"heater pad", "stuck off"},
		{"mains inverter", "low cut defeated"}, {"main fuse", "open"},
		{"group 4", "leak of 50 mA"}, {"group 4", "a tenth of its capacity lost"}, {"group 9", "link of one cell open, its neighbour carries all"},
	}
	var out []drill.Fault
	for _, f := range list {
		out = append(out, drill.Fault{Name: f.device + ": " + f.name, Device: f.device, Kind: f.name, How: "its " + f.name + " is put in its place"})
	}
	return out
}

func guards() []drill.Guard {
	return []drill.Guard{
		{Name: "cell meter: high alarm", Layer: "alarm high", Device: "cell meter", Sensor: "cell taps", Logic: "cell meter"},
		{Name: "guard relay: high", Layer: "disconnect high", Device: "guard relay", Sensor: "bank voltage", Logic: "guard relay", Switch: "main contactor", SharesBy: []string{"guard relay: low, the same switch"}},
		{Name: "frost switch", Layer: "frost", Device: "frost switch", Sensor: "coldest module", Logic: "frost switch", Switch: "the chargers' stop inputs"},
	}
}

// ended makes an outcome for a fault in a scene: most are uneventful, some of
// each verdict.
func ended(f, s int) drill.Outcome {
	o := drill.Outcome{Outcome: drill.None, MarginMV: 120 + 23*float64((7*f+11*s)%19), Side: "high", HarmAt: -1, AlarmAt: -1, ReactS: -1, FirstAt: -1,
		HighV: 4.06, LowV: 3.62, HotC: 27, ColdC: 21, PeakShare: 1}
	o.WorstV = 4.25 - o.MarginMV/1000
	sunny := s == 0 || s == 6
	switch {
	case f == 15 && s == 1:
		o.Outcome, o.Harm, o.FrostAh, o.HarmAt, o.Silent = drill.Harm, "frost charge", 6.4, 3600, true
	case f == 5 && s == 4:
		o.Outcome, o.Harm, o.MarginMV, o.WorstV, o.HarmAt, o.AlarmAt, o.ReactS = drill.Harm, "cell high", -184, 4.384, 2700, 1900, 800
		o.Acts, o.FirstLayer, o.FirstAt = acts()[:1], "alarm high", 1900
	case f == 0 && sunny, f == 11 && s == 0:
		o.Outcome, o.MarginMV, o.WorstV = drill.Near, 4+float64(3*s), 4.246-float64(3*s)/1000
		o.Acts, o.FirstLayer, o.FirstAt = acts(), "alarm high", 900
	case f == 4 && s == 4, f == 7 && s == 3, f == 1 && sunny, f == 21 && s == 5:
		o.Outcome, o.MarginMV, o.WorstV = drill.Caught, 38+float64(f), 4.2
		o.Acts, o.FirstLayer, o.FirstAt = acts(), "alarm high", 900
	case f == 10 || f == 20 || f == 16 && s == 0:
		o.Outcome, o.LostPower = drill.Nuisance, true
	case f == 9 || f == 13 || f == 15:
		o.Silent = true
	}
	return o
}

func acts() []drill.Act {
	return []drill.Act{
		{At: 900, Layer: "alarm high", Device: "cell meter", Did: "sounded"},
		{At: 1260, Layer: "disconnect high", Device: "guard relay", Did: "opened main contactor"},
		{At: 1262, Layer: "charge stop", Device: "roof solar", Did: "stopped"},
	}
}
