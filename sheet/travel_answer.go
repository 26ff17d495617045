package sheet

import (
	"ampstead/finding"
	"fmt"
	"math"
	"strconv"
	"time"

	q "ampstead/quantity"
	"ampstead/travel"
)

// answer says in plain sentences whether the rig carries its people through the
// year, what frost costs and what would help most.
func answer(res *travel.Result, sys q.System) []string {
	list := []string{shortness(res)}
	if s := frostSentence(res, sys); s != "" {
		list = append(list, s)
	}
	return append(list, helpSentence(res, sys))
}

func over(years int) string {
	if years == 1 {
		return "Over one weather year"
	}
	return fmt.Sprintf("Over %d weather years", years)
}

func shortness(res *travel.Result) string {
	hours, low := res.Bands.UnservedHours, res.Bands.SoCMin
	if hours.High < 0.5 {
		return over(res.Bands.Years) + " no hour was found in which an appliance was not served; the lowest state of charge came to " +
			rangeOf(100*math.Max(0, low.Low), 100*math.Max(0, low.High)) + " %" + monthOf(res, ", in ", func(m *travel.Month) float64 { return -m.SoCMin }) + "."
	}
	return over(res.Bands.Years) + " this rig runs short on " + rangeOf(hours.Low, hours.High) + " hours a year" +
		monthOf(res, ", mostly in ", func(m *travel.Month) float64 { return m.UnservedH }) + "."
}

// rangeOf writes two whole numbers as a range, one when they are the same.
func rangeOf(low, high float64) string {
	a, b := whole(low), whole(high)
	if a == b {
		return a
	}
	return a + " to " + b
}

func whole(v float64) string { return strconv.FormatFloat(math.Round(v)+0, 'f', 0, 64) }

// monthOf names the month in which something of the first year is greatest, after
// the given words; nothing when no month stands out.
func monthOf(res *travel.Result, before string, of func(m *travel.Month) float64) string {
	best, most, least := 0, math.Inf(-1), math.Inf(1)
	for i := range res.Months {
		v := of(&res.Months[i])
		least = math.Min(least, v)
		if v > most {
			best, most = i, v
		}
	}
	if !(most > least) {
		return ""
	}
	return before + time.Month(res.Months[best].Month).String()
}

func frostSentence(res *travel.Result, sys q.System) string {
	lost, locked := res.Bands.LostFrost, res.Bands.FrostLockedH
	text := ""
	switch {
	case lost.High >= 100:
		text = "Frost keeps out " + energyRange(lost, sys) + " of sun a year, over " + rangeOf(locked.Low, locked.High) + " hours"
	case locked.High >= 1:
		text = "Frost keeps the chargers locked for " + rangeOf(locked.Low, locked.High) + " hours a year in which there was something to charge with"
	case res.Bands.Heater.High >= 100:
		text = "Frost keeps nothing out; the heater takes " + energyRange(res.Bands.Heater, sys) + " a year for it"
	}
	if res.Year.FrostChargeAh >= 0.5 {
		text = join(text, "nothing in this rig would keep out "+whole(res.Year.FrostChargeAh)+" Ah of charge at or below the frost limit, which harms the cells")
	}
	return finding.Sentence(text)
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

func energyRange(r travel.Range, sys q.System) string {
	low, high := energy(r.Low, sys), energy(r.High, sys)
	if low == high {
		return low
	}
	return low + " to " + high
}

// saved says what a change saves in a year, in hours too where those become fewer.
func saved(l travel.Limit, sys q.System) string {
	text := energy(-l.Unserved, sys) + " less not served"
	if l.UnservedHours <= -0.5 {
		text += " and " + whole(-l.UnservedHours) + " hours fewer"
	}
	return text
}

// helpSentence says what the best of the changes tried would bring.
func helpSentence(res *travel.Result, sys q.System) string {
	if len(res.Limits) == 0 {
		return "What limits it was not tried."
	}
	best := res.Limits[0]
	switch {
	case best.Unserved <= -500:
		text := "What would help most: " + best.Change + ", " + saved(best, sys)
		if len(res.Limits) > 1 && res.Limits[1].Unserved <= -500 {
			text += "; then " + res.Limits[1].Change + ", " + saved(res.Limits[1], sys)
		}
		return text + "."
	case best.SoCMin >= 0.005:
		return "What would leave most in hand: " + best.Change + ", the lowest state of charge " + whole(100*best.SoCMin) + " percentage points higher."
	}
	return "None of the changes tried would bring much."
}
