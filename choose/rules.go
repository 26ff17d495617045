package choose

import (
	"fmt"
	"strings"

	"ampstead/finding"
	"ampstead/physics/cell"
)

func hoursText(h float64) string { return fmt.Sprintf("%.0f h", h) }

// where is a candidate's place in the rig file.
func (v *variant) where() string {
	if v.cand == nil {
		return "bank"
	}
	return "candidates." + v.name
}

// findings are what is to be known of one battery before it is bought.
func (v *variant) findings(c *Candidate) []finding.Finding {
	var list []finding.Finding
	add := func(id string, severity finding.Severity, found, because, mend string) {
		f := finding.Finding{ID: id, Severity: severity, Where: v.where(), Found: v.name + ": " + found, Because: because, Mend: mend}
		list = append(list, f.By(v.workings(id)...))
	}
	if v.cand != nil && v.beyond != nil {
		add("candidate-too-high", finding.Stop, strings.Join(v.beyond, "; "),
			"too high an input destroys a device, perhaps with fire", "do not connect it to this rig, or exchange these devices first")
	}
	if c.Life.ByCapacity.Low <= 0 {
		add("near-its-end", finding.Care, fmt.Sprintf("it may have only %.0f %% of its rated capacity left%s", 100*v.least(), v.orLess()),
			"below 70 % the models say little, and some cells fall off quickly", "have its capacity measured before you buy")
	}
	return list
}

// leastShare is the share of the rated capacity below which no number is shown:
// no model says anything of such a cell.
const leastShare = 0.5

// least is the lowest capacity it may have, over the rated one.
func (v *variant) least() float64 { return max(min(leastShare, v.share.Middle), v.share.Low) }

func (v *variant) orLess() string {
	if v.share.Low < leastShare {
		return ", or less"
	}
	return ""
}

// common is what holds for all salvaged or all differing candidates.
func common(list []variant) []finding.Finding {
	var out []finding.Finding
	var used []string
	money := map[string]bool{}
	for k := range list {
		v := &list[k]
		if v.salvaged() {
			used = append(used, v.name)
		}
		if v.bill.currency != "" {
			money[v.bill.currency] = true
		}
	}
	if used != nil {
		out = append(out, secondLife(used)...)
	}
	if len(money) > 1 {
		out = append(out, finding.Finding{ID: "two-currencies", Severity: finding.Note, Where: "candidates",
			Found: "prices are in more than one currency", Because: "they are shown as written and not comparable", Mend: "write every price in one currency"})
	}
	return out
}

// salvaged reports whether a battery had a first life: said so, or less than its
// rated capacity measured.
func (v *variant) salvaged() bool {
	if v.res.Kind.Family == cell.LeadAcid {
		return false
	}
	if v.cand != nil {
		return v.cand.Kind == "salvaged module"
	}
	return v.from.Capacity > 0 && v.from.Capacity < 0.97
}

// secondLife says what the standards do not cover.
func secondLife(names []string) []finding.Finding {
	which := strings.Join(names, ", ")
	return []finding.Finding{
		{ID: "second-life-scope", Severity: finding.Note, Where: "candidates",
			Found:   "IEC 62619:2022 leaves second-life cells out of its scope: " + which,
			Because: "a salvaged module does not comply with it, whatever its cells did when new; where rules ask for it, the bank is refused",
			Mend:    "ask who inspects or insures the vehicle before you buy"},
		{ID: "no-traceability", Severity: finding.Note, Where: "candidates",
			Found:   "IEC 63338:2024 does not permit the reuse of single cells or cell assemblies without recorded lifetime traceability: " + which,
			Because: "without a record nobody knows of deep discharge, charge in frost, heat or a blow",
			Mend:    "ask for the record of the battery: age, distance, faults; without one it does not meet that guidance"},
	}
}
