// Package choosesample is an invented comparison of batteries for tests of what
// shows one: a battery that must not be bought, one that exchanges a device, names
// that have to be escaped, numbers that are not known, a search and its windows.
//
// May import: choose, finding. For tests.
package choosesample

import (
	_ "embed"
	"encoding/json"

	"ampstead/choose"
	"ampstead/finding"
)

//go:embed sample.json
var sample []byte

// The names that tests ask for.
const (
	Pouch = "two pouch modules <from the coast>"
	Large = "one large module"
	Iron  = "new iron pack"
	Acid  = "glass mat blocks"

	Longest = "1 × new iron pack, 660 W at 25°, 80 W heater, 60 mm insulation" // a design of the search
)

// Result is a fresh copy of the comparison with a search; it may be changed.
func Result() *choose.Result {
	res := &choose.Result{}
	if err := json.Unmarshal(sample, res); err != nil {
		panic(err) // the file is part of this package
	}
	for i := range 240 { // a cloud around the front, the same every time
		d := res.Front[i%len(res.Front)]
		off := float64(i*7919%97) / 97
		res.Search.Cloud = append(res.Search.Cloud, choose.Spot{Price: d.Price + 900*off, MassKg: d.MassKg + 40*off, ShortHours: d.ShortHours + 160*float64(i*104729%89)/89, Years: d.Years * (1 - 0.6*off)})
	}
	res.Figures = []string{"ageing", "window-energy"}
	res.Findings = []finding.Finding{
		{ID: "near-its-end", Severity: finding.Care, Where: "candidates." + Pouch, Found: Pouch + ": it may have only 50 % of its rated capacity left, or less",
			Because: "below 70 % the models say little", Mend: "have its capacity measured before you buy"},
		{ID: "no-traceability", Severity: finding.Note, Where: "candidates", Found: "used cells without a record of their life", Because: "nobody knows of a deep discharge", Mend: "ask for the record"},
	}
	return res
}

// Unsearched is the same without a search.
func Unsearched() *choose.Result {
	res := Result()
	res.Front, res.Search = []choose.Design{}, nil
	return res
}
