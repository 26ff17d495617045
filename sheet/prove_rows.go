package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"ampstead/finding"
	"ampstead/prove"
	q "ampstead/quantity"
)

// facts lists what the log told of the whole.
func (w *proofWords) facts() []Reached {
	r := w.res
	list := []Reached{
		{"capacity", orDash(r.CapacityAh > 0, PlusMinus(r.CapacityAh, r.CapacityErr, 1, "Ah")), r.CapacityHow},
		{"energy", orDash(r.EnergyWh > 0, PlusMinus(r.EnergyWh, r.EnergyErr, 1, "Wh")), ""},
		{"resistance after 10 s", orDash(r.Resistance > 0, PlusMinus(r.Resistance, r.ResistErr, 1e3, "mΩ")), r.ResistHow},
	}
	if r.Efficiency > 0 {
		list = append(list, Reached{"charge out over charge in", q.Percent.Fixed(100*r.Efficiency, "%", 1), "of a closed cycle"})
	}
	for _, s := range []struct {
		what, note string
		v          *float64
	}{{"spread near full", "highest group above the mean", r.SpreadHigh}, {"spread at half the charge", "highest less lowest", r.SpreadMid}, {"spread near empty", "lowest group below the mean", r.SpreadLow}} {
		if s.v != nil {
			list = append(list, Reached{s.what, millivolts(1e3 * *s.v), s.note})
		}
	}
	if r.RiseK != nil {
		list = append(list, Reached{"warmed by", kelvins(*r.RiseK, w.sys), "hottest sensor, over the test"})
	}
	return list
}

func orDash(has bool, text string) string {
	if has {
		return text
	}
	return "–"
}

// kelvins writes a rise of temperature.
func kelvins(k float64, sys q.System) string {
	if sys == q.US {
		return fmt.Sprintf("%.1f °F", 1.8*k)
	}
	return fmt.Sprintf("%.1f K", k)
}

func (w *proofWords) groups() []ProofGroup {
	var list []ProofGroup
	for _, g := range w.res.Groups {
		row := ProofGroup{Name: fmt.Sprint(g.Number), Capacity: withError(g.CapacityAh > 0, g.CapacityAh, g.CapacityErr, 1), Ohm: withError(g.Ohm > 0, g.Ohm, g.OhmErr, 1e3),
			Offset: withError(g.CapacityAh > 0, g.OffsetAh, g.OffsetErr, 1), Comes: withError(g.CapacityAh > 0, g.Recoverable, g.OffsetErr, 1),
			Lost: withError(g.CapacityAh > 0, g.LostAh, g.LostErr, 1), Leak: leak(g), Rest: bareVolts(g.RestV), End: bareVolts(g.EndV), Ends: g.LowEnd}
		if g.LowEnd {
			row.Notes = append(row.Notes, "ends the discharge")
		}
		if g.HighEnd {
			row.Notes = append(row.Notes, "would end the charge")
		}
		list = append(list, row)
	}
	return list
}

// withError writes a value with its error for a column whose head names the unit.
func withError(has bool, v, err, times float64) string {
	return orDash(has, strings.TrimSpace(PlusMinus(v, err, times, "")))
}

func bareVolts(v float64) string { return orDash(v > 0, bare(v)) }

func leak(g prove.Group) string {
	switch {
	case g.LeakMA == nil:
		return "–"
	case g.LeakBound:
		return fmt.Sprintf("at most %.1f", math.Max(0, *g.LeakMA))
	}
	return strings.TrimSpace(PlusMinus(*g.LeakMA, g.LeakErrMA, 1, ""))
}

// warnings are those that are not findings as well.
func (w *proofWords) warnings() []prove.Warning {
	var list []prove.Warning
	for _, x := range w.res.Warnings {
		if slices.ContainsFunc(w.res.Findings, func(f finding.Finding) bool { return f.ID == x.ID }) {
			continue
		}
		list = append(list, prove.Warning{ID: x.ID, Found: finding.Sentence(x.Found), Because: finding.Sentence(x.Because)})
	}
	return list
}

// unread names the rows that could not be read.
func (w *proofWords) unread() []string {
	var list []string
	for _, u := range w.res.Unread {
		list = append(list, fmt.Sprintf("line %d: %s: %s", u.Line, u.Why, shorten(u.Text)))
	}
	if more := w.res.UnreadAll - len(w.res.Unread); more > 0 && len(list) > 0 {
		list = append(list, fmt.Sprintf("and %d more", more))
	}
	return list
}

// mostSegments is how many stretches are listed; a pulse test has hundreds.
const mostSegments = 40

func (w *proofWords) segments() []ProofSegment {
	var list []ProofSegment
	for i, s := range w.res.Segments {
		if i == mostSegments {
			list = append(list, ProofSegment{Kind: fmt.Sprintf("and %d more", len(w.res.Segments)-i)})
			break
		}
		list = append(list, ProofSegment{Kind: s.Kind, From: lasting(s.From), Lasts: lasting(s.To - s.From), Current: minus(s.MeanA, 2),
			Charge: minus(s.ChargeAh, 3), Volts: fmt.Sprintf("%.3f to %.3f", s.FromV, s.ToV)})
	}
	return list
}

// minus writes a number with a true minus sign, and never one before nothing.
func minus(v float64, decimals int) string {
	v = round(v, decimals) + 0
	text := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	if v < 0 {
		return "−" + text
	}
	return text
}

// lasting writes a time as hours and minutes, or seconds when short.
func lasting(s float64) string {
	switch {
	case s < 120:
		return fmt.Sprintf("%.0f s", s)
	case s < 7200:
		return fmt.Sprintf("%.0f min", s/60)
	}
	return fmt.Sprintf("%.1f h", s/3600)
}

func (w *proofWords) rests() []Reached {
	var list []Reached
	for _, r := range w.res.Rests {
		value := fmt.Sprintf("%+.2f mV/h", 1e3*r.SlopeV)
		note := r.Note
		switch {
		case r.LeakMA > 0 && r.Bound:
			note = join(fmt.Sprintf("a leak of at most %.1f mA", r.LeakMA), note)
		case r.LeakMA > 0:
			note = join(fmt.Sprintf("a leak of %.1f mA", r.LeakMA), note)
		}
		list = append(list, Reached{"rest of " + lasting(3600*r.Hours), strings.Replace(value, "-", "−", 1), note})
	}
	return list
}

func (w *proofWords) notTold() []prove.Step {
	var list []prove.Step
	for _, s := range w.res.NotTold {
		s.Note = finding.Sentence(s.Note)
		list = append(list, s)
	}
	return list
}
