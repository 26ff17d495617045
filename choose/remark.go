package choose

import (
	"slices"

	"ampstead/physics/cell"
	"ampstead/source"
)

// saying is something known of some chemistries.
type saying struct {
	text string
	from source.Source
	of   []cell.Family
	used bool // of salvaged batteries only
}

var (
	nickel  = []cell.Family{cell.NCA, cell.NMC}
	lithium = []cell.Family{cell.NCA, cell.NMC, cell.LMO, cell.LFP}
	lead    = []cell.Family{cell.LeadAcid}
)

// sayings are how batteries fail and burn, as the literature has it.
var sayings = []saying{
	{text: "heated in a test, nickel-manganese-cobalt cells ran away from 168 ± 1 °C and came to 678 ± 13 °C; iron-phosphate from 195 ± 8 °C and to 404 ± 23 °C", from: source.Golubkov2014, of: nickel},
	{text: "no figures were found for this blend: take it as nickel-manganese-cobalt, which ran away from 168 ± 1 °C and came to 678 ± 13 °C when heated in a test", from: source.Golubkov2014, of: []cell.Family{cell.LMO}},
	{text: "it starts later and burns cooler than nickel cells: heated in a test, from 195 ± 8 °C and to 404 ± 23 °C; it still vents flammable, toxic gas", from: source.Golubkov2014, of: []cell.Family{cell.LFP}},
	{text: "reactions that heat themselves set in from about 130 °C; one cell can set off the next", from: source.RunawayText, of: []cell.Family{cell.NCA, cell.NMC, cell.LMO}},
	{text: "a cell's contents gave off 810 J for each gram, most at 242 °C", from: source.Zhong2018, of: []cell.Family{cell.NMC}},
	{text: "over-charged it runs away far sooner: nickel-cobalt-aluminium from about 65 °C", from: source.Golubkov2015, of: []cell.Family{cell.NCA}},
	{text: "over-charged it runs away far sooner: iron-phosphate from about 80 °C", from: source.Golubkov2015, of: []cell.Family{cell.LFP}},
	{text: "charged in frost or too fast in the cold it plates lithium, which ages it most of all at low temperature", from: source.Plating, of: lithium},
	{text: "cells with plated lithium heat themselves at clearly lower temperature and fail more violently; nothing measured from outside shows it", from: source.Gerosa2025, of: []cell.Family{cell.NCA}, used: true},
	{text: "plated lithium from an unknown past is not seen from outside; in nickel-cobalt-aluminium cells it made them heat themselves sooner and fail more violently", from: source.Gerosa2025, of: []cell.Family{cell.NMC, cell.LMO, cell.LFP}, used: true},
	{text: "drawn far below empty, copper dissolves and an internal short is left behind", from: source.Guo2016, of: lithium},
	{text: "left empty for long with a small drain, copper dissolves too", from: source.Hendricks, of: lithium, used: true},
	{text: "IEC 62619:2022 leaves second-life cells out of its scope", from: source.IEC62619Scope, of: lithium, used: true},
	{text: "IEC 63338:2024 does not permit reuse without recorded lifetime traceability", from: source.IEC63338Scope, of: lithium, used: true},
	{text: "incomplete recharge is the main cause of early loss in solar use: it wants to be full every few days", from: source.Hund, of: lead},
	{text: "life is the lesser of cycles and corrosion, and corrosion goes quickly with warmth", from: source.Spiers1996, of: lead},
	{text: "it gives off hydrogen while charging and wants air; its acid burns; discharged it freezes", from: source.AcidMemory, of: lead},
	{text: "shorted it gives hundreds to thousands of amperes, as any battery of this size", from: source.FaultPractice, of: append(slices.Clone(lithium), cell.LeadAcid)},
}

// remarks are those for a battery's chemistry and past.
func remarks(v *variant) []Remark {
	list := []Remark{}
	for _, s := range sayings {
		if slices.Contains(s.of, v.res.Kind.Family) && (!s.used || v.salvaged()) {
			list = append(list, Remark{Text: s.text, Source: s.from.Key, Standing: string(s.from.Standing)})
		}
	}
	return list
}
