package sheet

import (
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"

	"ampstead/choose"
	"ampstead/picture"
	q "ampstead/quantity"
	"ampstead/rig"
)

// DesignRow is a whole rig of the front.
type DesignRow struct {
	No                                                              int // from 1, as the picture numbers them
	Name, Candidate, Price, Mass, Hours, Years, Usable, Lowest, Why string
	Set                                                             []DesignChange
	To                                                              string // leads to its page
}

// DesignChange is a value of the rig file that a design changes.
type DesignChange struct{ Path, Value string }

// DesignAxes are what the front is drawn over; empty ones are chosen by what is
// known.
type DesignAxes struct{ Across, Up string }

// AxesOf are what the front of a search can be drawn over.
func AxesOf(res *choose.Result) []string { return picture.FrontAxes(res) }

// whole fills in what was not asked for, or asked for in vain.
func (a DesignAxes) whole(res *choose.Result) DesignAxes {
	known := picture.FrontAxes(res)
	if !slices.Contains(known, a.Across) {
		a.Across = known[0]
	}
	if !slices.Contains(known, a.Up) || a.Up == a.Across {
		a.Up = known[1]
		if a.Up == a.Across {
			a.Up = known[0]
		}
	}
	return a
}

// DesignRows are the designs of the front, in the order they came.
func DesignRows(res *choose.Result, sys q.System) []DesignRow {
	var list []DesignRow
	currency := currencyOf(res)
	for i := range res.Front {
		d := &res.Front[i]
		row := DesignRow{No: i + 1, Name: d.Name, Candidate: d.Candidate, Price: money(d.Price, currency, 0), Mass: mass(d.MassKg, sys), Hours: hoursOf(d.ShortHours), Years: designYears(d),
			Usable: energy(d.UsableWh, sys), Lowest: charge(d.SoCMin), Why: d.Why}
		if row.Candidate == choose.Own {
			row.Candidate = "the modules there are"
		}
		for _, path := range slices.Sorted(maps.Keys(d.Set)) {
			row.Set = append(row.Set, DesignChange{path, d.Set[path]})
		}
		list = append(list, row)
	}
	return list
}

func designYears(d *choose.Design) string {
	text := yearsNumber(d.Years)
	if d.YearsHigh-d.YearsLow >= 0.05 {
		text += " (" + yearsNumber(d.YearsLow) + " to " + yearsNumber(d.YearsHigh) + ")"
	}
	return text
}

// currencyOf is the first currency that is known; a search reckons in one.
func currencyOf(res *choose.Result) string {
	for i := range res.Candidates {
		if c := res.Candidates[i].Currency; c != "" {
			return c
		}
	}
	return ""
}

// SearchedWords says what was searched and what came of it.
func SearchedWords(res *choose.Result) []string {
	s := res.Search
	if s == nil {
		return nil
	}
	text := fmt.Sprintf("Searched: %d whole rigs, each through %s", s.Designs, counted(max(1, s.Years), "weather year"))
	if s.Designs < s.Asked {
		text = fmt.Sprintf("Searched: %d of %d whole rigs, each through %s", s.Designs, s.Asked, counted(max(1, s.Years), "weather year"))
	}
	list := []string{text + "."}
	if len(s.Varied) > 0 {
		list = append(list, "Varied: "+strings.Join(s.Varied, "; ")+".")
	}
	if len(s.Limits) > 0 {
		list = append(list, fmt.Sprintf("Asked for: %s. %d of them keep to it.", strings.Join(s.Limits, ", "), s.Kept))
	}
	switch n := len(res.Front); {
	case n == 0 && s.Kept == 0:
		list = append(list, "No rig that was tried keeps to what was asked for. Ask for less, or try more of them.")
	case n > 0:
		list = append(list, fmt.Sprintf("%d of them no other beats in everything at once; between those it is for you to choose.", n))
	}
	return list
}

// windowSentence is the recommended window in words.
func windowSentence(res *choose.Result, sys q.System) string {
	for _, w := range WindowsTried(res, sys) {
		if w.Pick {
			return fmt.Sprintf("Of the daily windows tried %s a cell serves best: %s years by capacity, %s short a year now, %s after ten years.", w.Volts, w.Years, w.Hours, w.Late)
		}
	}
	return ""
}

// designAddress is where the page shows one design.
func designAddress(page, name string, axes DesignAxes) string {
	return page + "?" + url.Values{"design": {name}, "across": {axes.Across}, "up": {axes.Up}}.Encode() + "#design"
}

// Changed is a value of the rig file that a design makes another.
type Changed struct {
	Path string `json:"path"`
	From string `json:"from"` // as written, empty when not given
	To   string `json:"to"`   // empty when it goes
}

// Differences are the values in which a rig file made of another differs from it.
func Differences(file, next *rig.File) []Changed {
	was, is := written(file), written(next)
	list := []Changed{}
	for _, f := range rig.Fields(next) {
		if was[f.Path] != f.Written {
			list = append(list, Changed{f.Path, was[f.Path], f.Written})
		}
	}
	for _, f := range rig.Fields(file) {
		if _, there := is[f.Path]; !there && f.Written != "" {
			list = append(list, Changed{f.Path, f.Written, ""})
		}
	}
	return list
}

// written are the values of a file as they stand in it, by path.
func written(file *rig.File) map[string]string {
	list := map[string]string{}
	for _, f := range rig.Fields(file) {
		list[f.Path] = f.Written
	}
	return list
}
