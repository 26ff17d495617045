package sheet

import (
	"ampstead/finding"
	"fmt"
	"math"
	"strconv"
	"strings"

	"ampstead/keep"
	q "ampstead/quantity"
	"ampstead/store"
)

func (w *logWords) facts() []Reached {
	r := w.res
	var list []Reached
	if r.SpreadMV > 0 {
		list = append(list, Reached{"groups apart", millivolts(r.SpreadMV), fmt.Sprintf("%.2f Ah, latest reading at rest", r.SpreadAh)})
	}
	if r.SoC != nil {
		list = append(list, Reached{"state of charge", percent(*r.SoC), "at the latest reading at rest" + within(r.SoCErr)})
	}
	if r.SmallestLeakMA > 0 && r.SmallestLeakMA < 1e4 {
		list = append(list, Reached{"smallest leak that would show", figures2(r.SmallestLeakMA) + " mA", "this meter, this rhythm, these readings"})
	}
	if o := r.Resistance; o != nil {
		note := o.Basis
		if day := Day(o.When); day != "" {
			note = join(note, day)
		}
		list = append(list, Reached{"resistance of the bank", PlusMinus(o.Value, o.Err, 1e3, "mΩ"), note})
	}
	return list
}

func within(err float64) string {
	if err <= 0 {
		return ""
	}
	return ", ± " + percent(math.Max(0.01, err))
}

func (w *logWords) groups() []LogGroup {
	var list []LogGroup
	for _, g := range w.res.Groups {
		row := LogGroup{Name: strconv.Itoa(g.Number), Offset: signedError(g.OffsetAh, g.OffsetErr), Drift: signedError(g.DriftMA, g.DriftErr),
			Bleed: orDash(g.BleedAh >= 0.05, fmt.Sprintf("%.1f", g.BleedAh)), Drifts: g.Drifts}
		if g.Drifts {
			row.Notes = append(row.Notes, strings.TrimSpace("drifts "+since(g.Since)))
		}
		if s := g.Step; s != nil {
			row.Notes = append(row.Notes, fmt.Sprintf("a step of %s Ah on %s: %s", signedError(s.Ah, s.Err), Day(s.At), s.Like))
		}
		if day := Day(g.Reached); day != "" {
			row.Notes = append(row.Notes, "reaches an alarm about "+day)
		}
		list = append(list, row)
	}
	return list
}

func since(day string) string {
	if day == "" {
		return ""
	}
	return "since " + Day(day)
}

// signedError writes a value with its sign and error, for a column whose head
// names the unit.
func signedError(v, err float64) string {
	decimals := 1
	if err > 0 && !math.IsInf(err, 0) {
		decimals = max(1, min(3, int(math.Ceil(-math.Log10(err)-1e-9))))
	}
	text := minus(v, decimals)
	if v > 0 && !strings.HasPrefix(text, "0.000"[:2+decimals]) {
		text = "+" + text
	}
	if err > 0 && !math.IsInf(err, 0) {
		text += fmt.Sprintf(" ± %.*f", decimals, err)
	}
	return text
}

func (w *logWords) visible() []Reached {
	var list []Reached
	for _, v := range w.res.VisibleAfter {
		if !(v.Days < 36500) {
			list = append(list, Reached{"a leak of " + text3(v.LeakMA) + " mA", "never", "with this meter and rhythm"})
			continue
		}
		list = append(list, Reached{"a leak of " + text3(v.LeakMA) + " mA", "after " + days(v.Days), ""})
	}
	return list
}

// days writes a time as days, months or years.
func days(d float64) string {
	switch {
	case d < 60:
		return fmt.Sprintf("%.0f days", d)
	case d < 700:
		return fmt.Sprintf("%.0f months", d/30.4)
	}
	return fmt.Sprintf("%.1f years", d/365.25)
}

// aside lists, latest first, the readings that do not count in full.
func (w *logWords) aside() []Reached {
	var list []Reached
	for i := len(w.res.Used) - 1; i >= 0; i-- {
		u := w.res.Used[i]
		if u.Weight >= 0.995 || u.Why == "" {
			continue
		}
		weight := "set aside"
		if u.Weight > 0 {
			weight = "counts " + percent(u.Weight)
		}
		list = append(list, Reached{Day(u.Taken), weight, u.Why})
	}
	return list
}

func backRows(list []keep.Change) []BackRow {
	var rows []BackRow
	for _, c := range list {
		rows = append(rows, BackRow{c.Path, c.Now, c.Value, finding.Sentence(c.Why)})
	}
	return rows
}

// mostReadings is how many are listed; the export has all.
const mostReadings = 30

func readingRows(list []store.Reading, sys q.System) (rows []ReadingRow, more int) {
	for i := len(list) - 1; i >= 0; i-- {
		if len(rows) == mostReadings {
			return rows, i + 1
		}
		rows = append(rows, RowOf(list[i], sys))
	}
	return rows, 0
}

// RowOf writes one version of a reading; times are of the zone its time has.
func RowOf(r store.Reading, sys q.System) ReadingRow {
	row := ReadingRow{ID: r.ID, Version: r.Version, When: r.Taken.Format("2 January 2006 15:04"), Meter: r.Meter, Note: r.Note,
		Bank: unitOf(r.BankV, q.Volts, sys), Current: unitOf(r.Amps, q.Amperes, sys), Count: unitOf(r.CountAh, q.AmpereHours, sys)}
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range r.Groups {
		if v == nil {
			row.Groups = append(row.Groups, "–")
			continue
		}
		low, high = math.Min(low, *v), math.Max(high, *v)
		row.Groups = append(row.Groups, Cell(*v))
	}
	if low <= high {
		row.Low, row.High, row.Apart = Cell(low), Cell(high), millivolts(1e3*(high-low))
	}
	var temps []string
	for _, t := range r.TempsC {
		temps = append(temps, q.Celsius.Text(t, sys))
	}
	row.Temps = strings.Join(temps, ", ")
	if r.RestH != nil {
		row.Rested = text3(*r.RestH) + " h"
	}
	return row
}

func unitOf(v *float64, d *q.Dimension, sys q.System) string {
	if v == nil {
		return ""
	}
	return d.Text(*v, sys)
}

// Cell writes the voltage of a group, to the millivolt or finer.
func Cell(v float64) string { return strconv.FormatFloat(v, 'f', places(v, 3, 4), 64) }
