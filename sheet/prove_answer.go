package sheet

import (
	"ampstead/finding"
	"fmt"
	"math"
	"strconv"
	"strings"

	"ampstead/prove"
	q "ampstead/quantity"
)

// proofWords turns a proof into sentences and rows.
type proofWords struct {
	res *prove.Result
	sys q.System
}

func (w *proofWords) answer() []string {
	list := []string{w.verdict(), w.capacity(), w.resistance()}
	return given(append(list, w.limiting()...))
}

// given leaves out what is empty.
func given(list []string) []string {
	out := list[:0]
	for _, s := range list {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

// verdict is the grade in words. It speaks of this log and no more.
func (w *proofWords) verdict() string {
	r := w.res
	switch {
	case r.Grade == "accept":
		return "Accept, by what this log tells."
	case r.Grade == "derate" && r.DerateAh > 0:
		return "Derate: count on " + q.AmpereHours.Text(round(r.DerateAh, 1), w.sys) + " and no more."
	case r.Grade == "derate":
		return "Derate: it gives less than it is rated for."
	case r.Grade == "refuse":
		return "Refuse: do not build with this module."
	}
	return "Undecided: this log does not tell enough to grade by."
}

// reasons are those of the grade, the ones that decide it first.
func (w *proofWords) reasons() []string {
	var decide, others []string
	for _, r := range w.res.Reasons {
		if strings.Contains(r, "; good, ") {
			others = append(others, finding.Sentence(r))
		} else {
			decide = append(decide, finding.Sentence(r))
		}
	}
	return append(decide, others...)
}

func (w *proofWords) capacity() string {
	r := w.res
	if r.CapacityAh <= 0 {
		return "The capacity could not be had from this log."
	}
	text := "Capacity " + PlusMinus(r.CapacityAh, r.CapacityErr, 1, "Ah")
	if r.EnergyWh > 0 {
		text += " and " + PlusMinus(r.EnergyWh, r.EnergyErr, 1, "Wh")
	}
	if r.High > r.Low {
		text += fmt.Sprintf(", between %.2f and %.2f V a cell", r.Low, r.High)
	}
	return finding.Sentence(text + basis(r.CapacityHow))
}

func (w *proofWords) resistance() string {
	r := w.res
	if r.Resistance <= 0 {
		return "The resistance could not be had from this log."
	}
	return finding.Sentence("Resistance " + PlusMinus(r.Resistance, r.ResistErr, 1e3, "mΩ") + " after 10 s, at its terminals" + basis(r.ResistHow))
}

func basis(how string) string {
	if how == "" || how == "none" {
		return ""
	}
	return ": " + how
}

// limiting says which group ends the discharge and why, and which would end the
// charge.
func (w *proofWords) limiting() []string {
	if len(w.res.Groups) < 2 {
		return nil // a single group is the whole
	}
	var list []string
	if g := w.group(w.res.Limiting); g != nil {
		list = append(list, w.ending(g), w.lacks(g))
	}
	if n := w.res.ChargeLimit; n > 0 {
		list = append(list, fmt.Sprintf("Group %d would end the charge: it stands highest near full.", n))
	}
	return list
}

func (w *proofWords) group(n int) *prove.Group {
	for i := range w.res.Groups {
		if w.res.Groups[i].Number == n && n > 0 {
			return &w.res.Groups[i]
		}
	}
	return nil
}

func (w *proofWords) ending(g *prove.Group) string {
	text := fmt.Sprintf("Group %d ends the discharge", g.Number)
	low, high := math.Inf(1), math.Inf(-1)
	for _, o := range w.res.Groups {
		if o.Number != g.Number && o.EndV > 0 {
			low, high = math.Min(low, o.EndV), math.Max(high, o.EndV)
		}
	}
	switch {
	case !(g.EndV > 0) || low > high:
		return text + "."
	case high-low < 0.001:
		return fmt.Sprintf("%s: it stood at %.3f V when the others still had %.3f V.", text, g.EndV, low)
	}
	return fmt.Sprintf("%s: it stood at %.3f V when the others still had %.3f to %.3f V.", text, g.EndV, low, high)
}

// lacks says how much of what a group lacks balancing would bring back.
func (w *proofWords) lacks(g *prove.Group) string {
	switch {
	case g.Recoverable <= 0 && g.LostAh <= 0:
		return ""
	case g.OffsetErr > 0 && g.LostErr > 0 && g.Recoverable < 2*g.OffsetErr && g.LostAh < 2*g.LostErr:
		return fmt.Sprintf("How much of what group %d lacks is imbalance and how much is loss, this log cannot tell apart: %s would come back by balancing, %s is lost.",
			g.Number, PlusMinus(g.Recoverable, g.OffsetErr, 1, "Ah"), PlusMinus(g.LostAh, g.LostErr, 1, "Ah"))
	}
	return fmt.Sprintf("Of what group %d lacks, %s would come back by balancing and %s is lost.",
		g.Number, PlusMinus(g.Recoverable, g.OffsetErr, 1, "Ah"), PlusMinus(g.LostAh, g.LostErr, 1, "Ah"))
}

// next says what to do after this log.
func (w *proofWords) next(rig bool) []string {
	var list []string
	switch w.res.Grade {
	case "refuse":
		list = append(list, "Keep it outdoors, away from what burns, until it is taken to a battery collection point.")
	case "accept", "derate":
		list = append(list, w.balanceFirst())
		if rig {
			list = append(list, "Write the measured values into the rig, so that fit, drill and travel use them.")
		}
	default:
		list = append(list, "Run the test of the plan with the gear you have; it says what a log must hold.")
	}
	switch n := w.untold(); {
	case n == 1:
		list = append(list, "Go through the one step that this log does not tell; it does not show in voltage and current.")
	case n > 1:
		list = append(list, fmt.Sprintf("Go through the %d steps that this log does not tell; they do not show in voltage and current.", n))
	}
	return given(list)
}

// balanceFirst names the groups that a balancer would bring up.
func (w *proofWords) balanceFirst() string {
	var names []string
	for _, g := range w.res.Groups {
		if g.Recoverable > 0.5 && g.Recoverable > 2*g.OffsetErr {
			names = append(names, strconv.Itoa(g.Number))
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return "Bring group " + names[0] + " up with a balancer or a single-cell charger, then test again."
	case len(w.res.Groups):
		return ""
	}
	return "Bring groups " + strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1] + " up with a balancer or a single-cell charger, then test again."
}

func (w *proofWords) untold() int {
	n := 0
	for _, s := range w.res.NotTold {
		if s.Told != "yes" {
			n++
		}
	}
	return n
}

// PlusMinus writes a value with its standard error, times turned into unit, with
// as many decimals as the error calls for: "54.9 ± 0.3 Ah".
func PlusMinus(v, err, times float64, unit string) string {
	v, err = v*times, err*times
	if !(err > 0) || math.IsInf(err, 0) {
		return strconv.FormatFloat(v, 'f', max(0, min(3, 3-digits(v))), 64) + " " + unit
	}
	decimals := max(0, min(3, int(math.Ceil(-math.Log10(err)-1e-9))))
	return fmt.Sprintf("%.*f ± %.*f %s", decimals, v, decimals, err, unit)
}

// digits is how many stand before the point.
func digits(v float64) int {
	if v = math.Abs(v); v < 1 {
		return 0
	}
	return int(math.Floor(math.Log10(v))) + 1
}
