package compare

import (
	"math"
	"strconv"

	q "ampstead/quantity"
)

// format says how a person reads a number.
type format struct {
	dim      *q.Dimension
	unit     string // always this one; "" for one that suits the size
	decimals int    // with unit
}

var (
	volts    = format{dim: q.Volts}
	amperes  = format{dim: q.Amperes}
	ohms     = format{dim: q.Ohms}
	ampHours = format{dim: q.AmpereHours}
	energy   = format{dim: q.WattHours}
	kWh      = format{q.WattHours, "kWh", 1}
	hours    = format{q.Hours, "h", 0}
	percent  = format{q.Percent, "%", 1}
	share    = format{q.Fraction, "%", 1}
	degrees  = format{dim: q.Celsius}
	metres   = format{dim: q.Metres}
	seconds  = format{dim: q.Seconds}
	times    = format{dim: q.Plain}
	count    = format{q.Plain, "", 0}
)

func (f format) text(v float64, sys q.System) string {
	switch {
	case f.dim == q.Celsius:
		return f.dim.Fixed(v, f.dim.Show(v, sys), 1)
	case f == count:
		return strconv.FormatFloat(v, 'f', 0, 64)
	case f.unit != "":
		return f.dim.Fixed(v, f.unit, f.decimals)
	}
	return f.dim.Text(v, sys)
}

// WasText shows the earlier value in the units of the system, "" for none.
func (r Row) WasText(sys q.System) string { return r.text(r.Was, sys) }

// IsText shows the later value.
func (r Row) IsText(sys q.System) string { return r.text(r.Is, sys) }

func (r Row) text(v Value, sys q.System) string {
	switch {
	case !v.Known:
		return ""
	case v.Word != "":
		return v.Word
	}
	return r.show.text(v.Number, sys)
}

// ChangeText shows by how much a number changed, with its sign; "" where there are
// not two numbers or they look alike.
func (r Row) ChangeText(sys q.System) string {
	if !r.Differs() || !r.Was.number() || !r.Is.number() {
		return ""
	}
	unit := r.show.unit
	if unit == "" {
		unit = r.show.dim.Show(math.Max(math.Abs(r.Was.Number), math.Abs(r.Is.Number)), sys)
	}
	was, _ := r.show.dim.In(r.Was.Number, unit)
	is, _ := r.show.dim.In(r.Is.Number, unit)
	was, is = r.show.shown(was), r.show.shown(is)
	text := r.show.digits(is - was)
	if is > was {
		text = "+" + text
	}
	if unit == "°C" {
		unit = "K"
	}
	if unit == "" {
		return text
	}
	return text + " " + unit
}

// shown is a number as a person sees it, where it has so many decimals.
func (f format) shown(v float64) float64 {
	decimals := f.decimals
	if f.dim == q.Celsius {
		decimals = 1
	} else if f.unit == "" && f != count {
		return v
	}
	step := math.Pow(10, float64(-decimals))
	return math.Round(v/step) * step
}

// digits writes a difference as finely as the values themselves.
func (f format) digits(v float64) string {
	switch {
	case f.dim == q.Celsius:
		return strconv.FormatFloat(v, 'f', 1, 64)
	case f.unit != "" || f == count:
		return strconv.FormatFloat(v, 'f', f.decimals, 64)
	}
	return q.Plain.Text(rounded(v), q.Metric)
}

// rounded keeps three digits of a difference.
func rounded(v float64) float64 {
	if v == 0 {
		return 0
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-2)
	return math.Round(v/step) * step
}

func (v Value) number() bool { return v.Known && v.Word == "" }

// turn judges a row whose values stand.
func (r Row) turn() Turn {
	switch {
	case !r.Was.Known && !r.Is.Known:
		return Missing
	case !r.Was.Known:
		return Came
	case !r.Is.Known:
		return Went
	case r.WasText(q.Metric) == r.IsText(q.Metric):
		return Kept
	case r.Better == Neither || !r.Was.number() || !r.Is.number():
		return Other
	case (r.Better == More) == (r.Is.Number > r.Was.Number):
		return Gained
	}
	return Lost
}
