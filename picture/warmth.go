package picture

import (
	"math"
	"strings"

	"ampstead/fit"
	q "ampstead/quantity"
)

// Warmth draws the temperatures at which something acts as marks on one strip,
// each with its tolerance: level where there is width, upright on a phone.
func Warmth(res *fit.Result, o Options) string {
	c, height := warmth(res, o)
	return c.finish(o, height, "Temperature marks", describeWarmth(res, o))
}

func warmth(res *fit.Result, o Options) (*canvas, float64) {
	c := newCanvas("warmth", o)
	if len(res.Warmth) == 0 {
		return c, caption(c, 0, "Nothing acts on temperature here.")
	}
	s := newSlip(res.Warmth, o)
	if o.narrow() || c.width/float64(len(s.marks)) < 110 {
		return c, s.upright(c)
	}
	return c, s.level(c)
}

func describeWarmth(res *fit.Result, o Options) string {
	var list []string
	for _, m := range res.Warmth {
		list = append(list, q.Celsius.Text(m.TempC, o.Units)+" "+m.Name+" ("+m.Device+")")
	}
	return strings.Join(list, "; ") + "."
}

// slip is the strip of temperatures before it is laid out.
type slip struct {
	marks     []fit.Mark
	rows      []int // of each mark's bar across the strip
	count     int
	low, high float64 // °C at the ends
	zones     []warmZone
	units     q.System
}

// warmZone is a range of temperature with a meaning of its own, °C.
type warmZone struct {
	name      string
	low, high float64
	harm      bool
}

func newSlip(marks []fit.Mark, o Options) *slip {
	s := &slip{marks: marks, units: o.Units, low: math.Inf(1), high: math.Inf(-1)}
	var low, high []float64
	for _, m := range marks {
		low, high = append(low, math.Min(m.LowC, m.TempC)), append(high, math.Max(m.HighC, m.TempC))
		s.low, s.high = math.Min(s.low, low[len(low)-1]), math.Max(s.high, high[len(high)-1])
	}
	s.rows = columns(low, high, 0.5)
	for _, r := range s.rows {
		s.count = max(s.count, r+1)
	}
	pad := math.Max(6, 0.14*(s.high-s.low))
	s.low, s.high = s.low-pad, s.high+pad
	s.zones = warmZones(marks, s.low, s.high)
	return s
}

// warmZones finds where the cell must not be charged, where it comes to harm
// and, between them, where the chargers run. The outermost marks of the cell
// are its own limits.
func warmZones(marks []fit.Mark, low, high float64) []warmZone {
	cold, hot := low, high
	from, to := math.NaN(), math.NaN()
	for i, m := range marks {
		switch {
		case m.Device == "cell" && i == 0:
			cold = m.TempC
		case m.Device == "cell":
			hot = math.Min(hot, m.TempC)
		case m.Name == "frost lock":
			from = m.TempC
		case strings.HasPrefix(m.Name, "charge stop"):
			to = m.TempC
		}
	}
	var zones []warmZone
	if cold > low {
		zones = append(zones, warmZone{"no charging", low, cold, true})
	}
	if from, to = math.Max(from, cold), math.Min(to, hot); to > from {
		zones = append(zones, warmZone{"charging", from, to, false})
	}
	if hot < high {
		zones = append(zones, warmZone{"harm", hot, high, true})
	}
	return zones
}

// scale returns the unit shown and the ticks in it, at least least °C apart.
func (s *slip) scale(least float64) (unit string, every float64, list []float64) {
	unit = q.Celsius.Show(0, s.units)
	low, _ := q.Celsius.In(s.low, unit)
	high, _ := q.Celsius.In(s.high, unit)
	every = step(least * (high - low) / (s.high - s.low))
	return unit, every, ticks(low, high, every)
}

// celsius turns a tick back into °C.
func celsius(v float64, unit string) float64 {
	zero, _ := q.Celsius.In(0, unit)
	hundred, _ := q.Celsius.In(100, unit)
	return (v - zero) / (hundred - zero) * 100
}

// label says what acts, at which temperature, and between which it may.
func (s *slip) label(m fit.Mark, wide float64) label {
	said := m.Device
	if m.HighC > m.LowC {
		unit := q.Celsius.Show(0, s.units)
		low, _ := q.Celsius.In(m.LowC, unit)
		high, _ := q.Celsius.In(m.HighC, unit)
		said += ", between " + short(low) + " and " + short(high) + " " + unit
	}
	value, name := strong, plain
	if m.Device == "cell" {
		value, name, said = hot, style{"accent", plain.size, plain.wide}, "of the cell itself"
	}
	return newLabel(words{}, 0, wide, words{value, q.Celsius.Text(m.TempC, s.units)}, words{name, m.Name}, words{small, said})
}
