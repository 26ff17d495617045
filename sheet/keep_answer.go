package sheet

import (
	"ampstead/finding"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"ampstead/keep"
	q "ampstead/quantity"
)

// logWords turns what the logbook tells into sentences and rows.
type logWords struct {
	res *keep.Result
	sys q.System
}

func (w *logWords) answer(readings int) []string {
	r := w.res
	if readings == 0 {
		return []string{"No reading is in the logbook yet.", "Read every group with the cell meter after some hours without current, and enter what it shows."}
	}
	list := w.drifting(readings)
	if n := slices.IndexFunc(r.Today, func(t keep.Task) bool { return t.Urgency == "now" }); n >= 0 {
		list = append([]string{"To be done now: " + finding.Sentence(r.Today[n].Do)}, list...)
	}
	if r.Balance.Wanted && len(r.Balance.BleedAh) > 0 {
		list = append(list, w.levelling())
	}
	list = append(list, w.apart())
	if day := Day(r.Next.Date); day != "" {
		list = append(list, "Come back on "+day+because(r.Next.Why))
	}
	return given(list)
}

// because joins a reason to a sentence.
func because(why string) string {
	if why == "" {
		return "."
	}
	return ": " + strings.TrimSuffix(why, ".") + "."
}

// drifting says which groups drift, or how small a leak would show.
func (w *logWords) drifting(readings int) []string {
	var list []string
	for _, g := range w.res.Groups {
		if !g.Drifts {
			continue
		}
		verb := "leaks"
		if g.DriftMA < 0 {
			verb = "gains"
		}
		text := fmt.Sprintf("Group %d %s %s against the others", g.Number, verb, PlusMinus(math.Abs(g.DriftMA), g.DriftErr, 1, "mA"))
		if day := Day(g.Since); day != "" {
			text += ", as could be told since " + day
		}
		list = append(list, text+".")
	}
	if len(list) > 0 || len(w.res.Groups) == 0 {
		return list
	}
	text := fmt.Sprintf("No group drifts as far as %s can tell", counted(readings, "reading"))
	if leak := w.res.SmallestLeakMA; leak > 0 && leak < 1e4 {
		text += fmt.Sprintf("; a leak of %s mA would show", figures2(leak))
	}
	return []string{text + "."}
}

func (w *logWords) levelling() string {
	b := w.res.Balance
	text := fmt.Sprintf("Levelling the groups: bleed up to %.1f Ah from one", slices.Max(b.BleedAh))
	if len(b.AddAh) > 0 {
		text += fmt.Sprintf(", or add up to %.1f Ah to one", slices.Max(b.AddAh))
	}
	if b.Hours > 0 {
		text += fmt.Sprintf("; %s h with the balancer", text3(round(b.Hours, 1)))
	}
	if b.GainWh >= 1 {
		text += "; it brings " + q.WattHours.Text(round(b.GainWh, 0), w.sys)
	}
	return text + "."
}

func (w *logWords) apart() string {
	if w.res.SpreadMV <= 0 {
		return ""
	}
	return "The groups stood " + millivolts(w.res.SpreadMV) + " apart at the latest reading at rest."
}

func (w *logWords) today() []TodayRow {
	tags := map[string]string{"now": "stop", "this week": "care"}
	var list []TodayRow
	for _, t := range w.res.Today {
		row := TodayRow{Urgency: t.Urgency, Do: finding.Sentence(t.Do), Why: finding.Sentence(t.Why), By: Day(t.By), Tag: "note"}
		if tag := tags[t.Urgency]; tag != "" {
			row.Tag = tag
		}
		list = append(list, row)
	}
	return list
}

// balance says what levelling would do and bring.
func (w *logWords) balance() []string {
	b := w.res.Balance
	if len(b.BleedAh) == 0 {
		return nil
	}
	if !b.Wanted {
		return []string{"Levelling the groups is not worth the trouble today."}
	}
	list := []string{w.levelling()}
	if b.Hours <= 0 {
		list = append(list, "Give the balancer in the rig file to know the hours: bank.balancer, with its current.")
	}
	return list
}

func (w *logWords) capacity() []string {
	c := w.res.Capacity
	if c.Ah <= 0 {
		return nil
	}
	text := "Capacity " + PlusMinus(c.Ah, c.ErrAh, 1, "Ah")
	if c.Share > 0 {
		text += ", " + percent(c.Share) + " of what is rated"
	}
	list := []string{text + basis(c.Basis) + "."}
	switch {
	case c.PerYearErr > 0 && math.Abs(c.PerYear) > 2*c.PerYearErr:
		list = append(list, "It changes by "+minus(c.PerYear, 1)+" ± "+fmt.Sprintf("%.1f", c.PerYearErr)+" Ah a year.")
	case c.PerYearErr > 0:
		list = append(list, "The log does not tell a trend of it yet.")
	}
	return list
}

func (w *logWords) life() []string {
	l := w.res.Life
	if l == nil {
		return nil
	}
	var list []string
	if l.FirstShort != "" {
		list = append(list, "The first month that leaves you short: "+l.FirstShort+".")
	}
	if l.ByFunction.Middle > 0 {
		list = append(list, "By what the year asks for, "+yearsLeft(l.ByFunction)+" are left.")
	}
	if l.ByCapacity.Middle > 0 {
		list = append(list, "By capacity, "+yearsLeft(l.ByCapacity)+" are left.")
	}
	if l.Model != "" {
		how := "the log says nothing of its pace yet"
		if l.Multiplier > 0 && l.Multiplier != 1 {
			how = fmt.Sprintf("at %.2f times its pace, by this rig's own log", l.Multiplier)
		}
		list = append(list, "Reckoned with the ageing model "+l.Model+", "+how+".")
	}
	return list
}

// lifeNotes are what the years ahead rest on.
func (w *logWords) lifeNotes() []string {
	if w.res.Life == nil {
		return nil
	}
	return sentencesOf(w.res.Life.Notes)
}

func yearsLeft(b keep.Band) string {
	return fmt.Sprintf("%s years (%s to %s)", text3(round(b.Middle, 1)), text3(round(b.Low, 1)), text3(round(b.High, 1)))
}

// Day writes a date or an instant as "10 January 2027"; what is none is given back
// as it is.
func Day(text string) string {
	for _, form := range []string{time.DateOnly, time.RFC3339} {
		if at, err := time.Parse(form, text); err == nil {
			return at.Format("2 January 2006")
		}
	}
	return text
}

// figures2 writes a number to two figures: more would claim too much.
func figures2(v float64) string {
	if v >= 10 || v <= 0 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.*f", min(3, int(math.Ceil(1-math.Log10(v)-1e-9))), v)
}
