package sheet

import (
	"ampstead/finding"
	"fmt"
	"math"
	"slices"
	"strings"

	"ampstead/choose"
	"ampstead/life"
	q "ampstead/quantity"
)

// merit is something a battery can be best at.
type merit struct {
	says   func(c *choose.Candidate) string
	number func(c *choose.Candidate) float64 // the least is best; NaN is not known
}

func merits(sys q.System) []merit {
	return []merit{
		{func(c *choose.Candidate) string {
			return "fewest hours short (" + hoursOf(c.ShortHours) + " a year)"
		}, func(c *choose.Candidate) float64 { return math.Round(c.ShortHours) }},
		{func(c *choose.Candidate) string { return "longest life (" + lastsText(c) + ")" }, func(c *choose.Candidate) float64 { v, _ := lifeOf(c); return -math.Round(10 * v) }},
		{func(c *choose.Candidate) string {
			return "cheapest for what it delivers (" + money(c.PerDelivered, c.Currency, 2) + " a kWh)"
		}, known(func(c *choose.Candidate) float64 { return c.PerDelivered })},
		{func(c *choose.Candidate) string { return "cheapest to buy (" + money(paid(c), c.Currency, 0) + ")" }, known(paid)},
		{func(c *choose.Candidate) string {
			return "lightest for its energy (" + massPer(c.MassPer, sys) + " a kWh)"
		}, known(func(c *choose.Candidate) float64 { return c.MassPer })},
		{func(c *choose.Candidate) string { return "most energy to use (" + energy(c.UsableWh, sys) + ")" }, func(c *choose.Candidate) float64 {
			return -known(usable)(c)
		}},
	}
}

func lastsText(c *choose.Candidate) string {
	end := firstEnd(c)
	text := lifeText(c, end) + " years"
	if span := lifeRange(c, end); span != "" {
		text += ", band " + span
	}
	return text
}

// ChooseAnswer says in plain sentences which battery serves best for what.
func ChooseAnswer(res *choose.Result, sys q.System) []string {
	switch len(res.Candidates) {
	case 0:
		return []string{"No battery was compared."}
	case 1:
		return []string{"Only the rig's own bank is at hand: give batteries you could buy under candidates in the file to compare them.", limitSentence(&res.Candidates[0])}
	}
	list := bestSentences(res, sys)
	for _, s := range []string{misfitSentence(res), bandSentence(res), windowSentence(res, sys)} {
		if s != "" {
			list = append(list, s)
		}
	}
	return list
}

// bestSentences says of each battery what it is best at, the one that is best at
// most first, then of the rest that they are best at nothing.
func bestSentences(res *choose.Result, sys q.System) []string {
	said := make([][]string, len(res.Candidates))
	for _, m := range merits(sys) {
		if k := winner(res, m); k >= 0 {
			said[k] = append(said[k], m.says(&res.Candidates[k]))
		}
	}
	rank := make([]int, len(said))
	for k := range rank {
		rank[k] = k
	}
	slices.SortStableFunc(rank, func(a, b int) int { return len(said[b]) - len(said[a]) })
	var list, rest []string
	for _, k := range rank {
		name := titled(res.Candidates[k].Name)
		if len(said[k]) == 0 {
			rest = append(rest, batteryNamed(res.Candidates[k].Name))
			continue
		}
		list = append(list, name+": "+joined(said[k])+".")
	}
	if len(rest) > 0 {
		list = append(list, "Best at none of these: "+strings.Join(rest, "; ")+".")
	}
	return list
}

// after is when an end comes, in a sentence.
func after(c *choose.Candidate, end string) string {
	return strings.Replace(lifeText(c, end), "over ", "more than ", 1)
}

// batteryNamed is a battery within a sentence.
func batteryNamed(name string) string {
	if name == choose.Own {
		return "the bank as it stands"
	}
	return name
}

// titled begins a sentence with a battery's name; the rig's own bank has none.
func titled(name string) string {
	if name == choose.Own {
		return "The bank as it stands"
	}
	return capital(name)
}

// winner is the one battery that is best, -1 when two are alike.
func winner(res *choose.Result, m merit) int {
	best, at, alike := math.Inf(1), -1, false
	for k := range res.Candidates {
		switch v := m.number(&res.Candidates[k]); {
		case math.IsNaN(v):
		case v < best:
			best, at, alike = v, k, false
		case v == best:
			alike = true
		}
	}
	if alike {
		return -1
	}
	return at
}

// joined lists phrases: "a, b and c".
func joined(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

func misfitSentence(res *choose.Result) string {
	var list []string
	for i := range res.Candidates {
		c := &res.Candidates[i]
		var gone []string
		for _, m := range c.Misfits {
			if m.Exchange {
				gone = append(gone, m.Device)
			}
		}
		if len(gone) > 0 {
			list = append(list, c.Name+" (what must go: "+strings.Join(gone, ", ")+")")
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "Does not suit the devices there are: " + strings.Join(list, "; ") + "."
}

// bandSentence says whether the years tell the two that last longest apart.
func bandSentence(res *choose.Result) string {
	var first, second *choose.Candidate
	for i := range res.Candidates {
		c := &res.Candidates[i]
		switch v, _ := lifeOf(c); {
		case first == nil || v > lifeYears(first):
			first, second = c, first
		case second == nil || v > lifeYears(second):
			second = c
		}
	}
	if second == nil {
		return ""
	}
	_, low, _ := lifeBand(first, firstEnd(first))
	_, _, high := lifeBand(second, firstEnd(second))
	if low > high {
		return ""
	}
	return fmt.Sprintf("Years are bands: those of %s and %s overlap, so that which of them lasts longer is not certain.", batteryNamed(first.Name), batteryNamed(second.Name))
}

func lifeYears(c *choose.Candidate) float64 { v, _ := lifeOf(c); return v }

// LimitsOf says what ends each battery.
func LimitsOf(res *choose.Result, sys q.System) []Limited {
	var list []Limited
	for i := range res.Candidates {
		c := &res.Candidates[i]
		l := Limited{Battery: c.Name, Said: []string{limitSentence(c)}}
		if s := frostCost(c, sys); s != "" {
			l.Said = append(l.Said, s)
		}
		if c.Life != nil {
			l.Model, l.Doubts = c.Life.Title, doubts(c.Life)
		}
		list = append(list, l)
	}
	return list
}

// limitSentence says which end comes first.
func limitSentence(c *choose.Candidate) string {
	name, end := titled(c.Name), firstEnd(c)
	if c.Life == nil {
		return name + ": its life was not reckoned."
	}
	span := ""
	if s := lifeRange(c, end); s != "" {
		span = " (band " + s + ")"
	}
	short := hoursOf(c.Life.EndHours)
	switch v, atLeast := lifeOf(c); {
	case atLeast:
		return fmt.Sprintf("%s: neither end comes within %s years%s.", name, whole(math.Floor(v+1e-9)), span)
	case end == functionEnd && v < 0.05:
		return fmt.Sprintf("%s: more than %s short in the first year%s. It is too small for this route from the start.", name, short, span)
	case end == functionEnd:
		first := ""
		if c.Life.FirstShort != "" {
			first = ", first in " + c.Life.FirstShort
		}
		return fmt.Sprintf("%s: the end comes by function, after %s years%s; from then on it is short more than %s a year%s. By capacity it would come after %s.", name, yearsNumber(v), span, short, first, after(c, capacityEnd))
	}
	return fmt.Sprintf("%s: the end comes by capacity, after %s years%s, with %s of the rated left; until then it is not short more than %s a year.", name, yearsNumber(c.ByCapacity), span, percent(c.Life.EndShare), short)
}

// frostCost is what the cold takes in a year.
func frostCost(c *choose.Candidate, sys q.System) string {
	var list []string
	if c.HeaterWh >= 500 {
		list = append(list, "the heater takes "+kiloWattHours(c.HeaterWh))
	}
	if c.FrostHours >= 1 {
		list = append(list, "frost locks the charge for "+hoursOf(c.FrostHours)+", "+energy(c.FrostWh, sys)+" of sun lost")
	}
	if len(list) == 0 {
		return ""
	}
	return "Cold, in a year: " + joined(list) + "."
}

// doubts are how far a life can be trusted.
func doubts(l *life.Result) []string {
	var list []string
	for _, s := range l.Outside {
		list = append(list, "Outside the range of the model: "+s+".")
	}
	if l.Silent != "" {
		list = append(list, "The model knows nothing of: "+finding.Sentence(l.Silent))
	}
	for _, s := range l.Second {
		list = append(list, fmt.Sprintf("Another model (%s) says %s years by capacity.", s.Model, yearsNumber(s.ByCapacity)))
	}
	return list
}

// ChooseCautions are what has to stand with every comparison.
func ChooseCautions() []string {
	return []string{
		"A comparison is arithmetic with models of ageing, most of them fitted in laboratories on new cells of one make. A used module is not new: what it really holds only a test of it tells.",
		"At the seller's: a module is live and cannot be switched off. Cover its terminals, take off metal, use insulated tools and eye protection, and never lift it alone.",
		"Refuse what is swollen, wet, smells of solvent or warms up by itself, whatever it costs. Do not load it into the vehicle to look at it later.",
		"Local codes come first: in some places a used module may not be installed in a vehicle at all. Ask the person licensed for this work before you buy.",
	}
}
