package drill

import (
	"math"
	"strconv"
	"strings"

	"ampstead/quantity"
)

// Words say the verdict as a person does.
func (v Verdict) Words() string {
	switch v {
	case Harm:
		return "harm"
	case Near:
		return "near harm"
	case Caught:
		return "caught in time"
	case Nuisance:
		return "power lost needlessly"
	case None:
		return "nothing had to act"
	}
	return string(v)
}

// InVolts reports whether the distance to harm is one of cell voltage: it is not
// where harm came by frost, heat or current, or near by frost.
func (o *Outcome) InVolts() bool {
	if o.Outcome == Near && o.FrostAh > 0 {
		return false
	}
	return o.Outcome != Harm || o.Harm == "" || strings.HasPrefix(o.Harm, "cell high") || strings.HasPrefix(o.Harm, "cell low")
}

// Nearness says how near to harm the run came: "38 mV left", "184 mV past", or
// what came to harm when it was no voltage.
func (o *Outcome) Nearness() string {
	switch {
	case o.Outcome == Near && o.FrostAh > 0:
		return quantity.AmpereHours.Fixed(o.FrostAh, "mAh", 0) + " in frost"
	case !o.InVolts():
		return o.Harm
	}
	mv := math.Round(math.Abs(o.MarginMV))
	said := strconv.FormatFloat(mv, 'f', 0, 64) + " mV"
	if mv >= 1000 {
		said = strconv.FormatFloat(mv/1000, 'f', 2, 64) + " V"
	}
	if o.MarginMV < 0 {
		return said + " past"
	}
	return said + " left"
}

// Lapse writes a time of s seconds, to two figures below a hundred.
func Lapse(s float64) string {
	unit := quantity.Seconds.Show(s, quantity.Metric)
	v, _ := quantity.Seconds.In(s, unit)
	decimals := 0
	if math.Abs(v) < 10 {
		decimals = 1
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	return strings.TrimSuffix(text, ".0") + " " + unit
}

// HarmWords say a kind of harm as a person does.
func HarmWords(kind string) string {
	switch kind {
	case "cell high":
		return "a cell above its limit"
	case "cell low":
		return "a cell below its limit"
	case "frost charge":
		return "charged in frost"
	case "cell hot":
		return "a cell too hot"
	case "current":
		return "more current than a cell bears"
	}
	return kind
}
