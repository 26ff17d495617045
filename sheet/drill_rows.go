package sheet

import (
	"ampstead/finding"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"ampstead/drill"
	q "ampstead/quantity"
)

// uncoveredRows are the single faults: pairs stand in their groups.
func uncoveredRows(res *drill.Result) []UncoveredRow {
	var list []UncoveredRow
	for _, u := range res.Uncovered {
		if len(u.Faults) != 1 {
			continue
		}
		list = append(list, UncoveredRow{Faults: u.Faults[0], Scenes: strings.Join(u.Scenes, "; "), Harm: drill.HarmWords(u.Harm), Silent: u.Silent, Addition: u.Addition})
	}
	return list
}

// mostPairs is how many pairs of a group are named.
const mostPairs = 6

func groupRows(res *drill.Result) []GroupRow {
	var list []GroupRow
	for _, g := range res.Pairs.Groups {
		row := GroupRow{Cause: finding.Sentence(g.Cause), Common: g.Common, Harm: drill.HarmWords(g.Harm), Scenes: strings.Join(g.Scenes, "; "), Addition: g.Addition, Silent: g.Silent}
		for _, p := range g.Pairs[:min(len(g.Pairs), mostPairs)] {
			row.Pairs = append(row.Pairs, p[0]+" with "+p[1])
		}
		row.More = len(g.Pairs) - len(row.Pairs)
		w := g.Worst
		row.Worst = w.Fault + " with " + w.Second + ", " + w.Scene + ": " + w.Nearness()
		list = append(list, row)
	}
	return list
}

func additionRows(res *drill.Result) []AdditionRow {
	var list []AdditionRow
	for _, a := range res.Additions {
		row := AdditionRow{Name: a.Name, About: finding.Sentence(a.About), Covers: strconv.Itoa(a.Covers) + " of " + strconv.Itoa(a.Of), Creates: "none", Loss: "none"}
		if a.Creates > 0 {
			row.Creates = strconv.Itoa(a.Creates)
		}
		if a.Loss > 0 {
			row.Loss = strconv.Itoa(a.Loss)
		}
		row.Causes = strings.Join(a.Causes, "; ")
		list = append(list, row)
	}
	return list
}

// Silent names the faults that nothing tells anybody of in any scene they were
// played in: they wait for a second one.
func Silent(res *drill.Result) []string {
	var list []string
	for _, r := range res.Rows() {
		if r.Silent {
			list = append(list, r.Fault.Name)
		}
	}
	return list
}

// SilentByDevice names them on one line for each device.
func SilentByDevice(res *drill.Result) []string {
	return byDevice(res, func(r *drill.Row) bool { return r.Silent })
}

// byDevice names the faults of some rows on one line for each device.
func byDevice(res *drill.Result, wanted func(r *drill.Row) bool) []string {
	var list []string
	device := ""
	for _, r := range res.Rows() {
		switch {
		case !wanted(&r):
		case r.Fault.Device == device:
			list[len(list)-1] += "; " + r.Fault.Short()
		default:
			device = r.Fault.Device
			list = append(list, device+": "+r.Fault.Short())
		}
	}
	return list
}

// TightestFirst sorts set-points by the drift they bear, in parts of what their
// device may be off anyway.
func TightestFirst(list []drill.Margin) []drill.Margin {
	sorted := slices.Clone(list)
	slices.SortStableFunc(sorted, func(a, b drill.Margin) int {
		switch x, y := slack(a), slack(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return sorted
}

// slack is the drift a set-point bears in parts of its tolerance, or, without
// one, of the range tried; what never changed anything comes last.
func slack(m drill.Margin) float64 {
	least := 1e9
	if m.DownTo != "" {
		least = min(least, m.Down)
	}
	if m.UpTo != "" {
		least = min(least, m.Up)
	}
	if per := m.Tol; per > 0 {
		return least / per
	}
	return least / max(m.Range, 1e-9)
}

// MarginRows say how far each set-point can drift, the tightest first.
func MarginRows(res *drill.Result, sys q.System) []MarginRow {
	var list []MarginRow
	for _, m := range TightestFirst(res.Margins) {
		row := MarginRow{Device: m.Device, Setting: m.Setting, Value: unitText(m.Value, m.Unit, false, sys), Tolerance: "–", Tight: m.Tol > 0 && slack(m) < 1}
		row.Down, row.Up = drift(m.Down, m.DownTo, m, sys), drift(m.Up, m.UpTo, m, sys)
		if m.Tol > 0 {
			row.Tolerance = unitText(m.Tol, m.Unit, true, sys)
		}
		if m.DownTo != "" {
			row.Changes = append(row.Changes, "lower: "+m.DownTo)
		}
		if m.UpTo != "" {
			row.Changes = append(row.Changes, "higher: "+m.UpTo)
		}
		list = append(list, row)
	}
	return list
}

// drift says how far a set-point may go one way.
func drift(by float64, to string, m drill.Margin, sys q.System) string {
	if to == "" {
		return "more than " + unitText(m.Range, m.Unit, true, sys)
	}
	return unitText(by, m.Unit, true, sys)
}

func text3(v float64) string {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 4, 64), 64)
	return strconv.FormatFloat(short, 'f', -1, 64)
}

func rehearsals(res *drill.Result) []drill.Rehearsal {
	var list []drill.Rehearsal
	for _, r := range res.Rehearsal {
		r.Name, r.Expect, r.Stop = capital(r.Name), finding.Sentence(r.Expect), finding.Sentence(r.Stop)
		r.Before, r.Steps, r.After = sentencesOf(r.Before), sentencesOf(r.Steps), sentencesOf(r.After)
		list = append(list, r)
	}
	return list
}

// runAddress is where the page shows one run.
func runAddress(page, fault, second, scene string) string {
	query := url.Values{"fault": {fault}, "scene": {scene}}
	if second != "" {
		query.Set("second", second)
	}
	return page + "?" + query.Encode() + "#run"
}
