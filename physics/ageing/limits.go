package ageing

import (
	"math"
	"strconv"

	"ampstead/source"
)

// axis is an input that a model was fitted over a range of.
type axis int

const (
	temperature axis = iota
	depth
	rate
	age
	axes // how many there are
)

// span is the lowest and highest value met outside a limit; none when not met.
type span struct {
	low, high float64
	met       bool
}

// Limit is the range of an input in the tests that a model was fitted to.
type Limit struct {
	Input    string // "cell temperature"
	Low      float64
	High     float64
	Unit     string
	Beyond   string // what the model does outside
	Standing source.Standing
	axis     axis
}

func limitOf(a axis, low, high float64, standing source.Standing, beyond string) Limit {
	names := [axes]string{"cell temperature", "depth of the cycles", "rate", "age"}
	units := [axes]string{"°C", "", "C", "days"}
	return Limit{Input: names[a], Low: low, High: high, Unit: units[a], Beyond: beyond, Standing: standing, axis: a}
}

// look notes where a stress lies outside the model's limits. Depth and rate
// count only where there is throughput.
func (l *Life) look(s *Stress) {
	for k := range l.model.Limits {
		limit := &l.model.Limits[k]
		v, counts := l.value(limit.axis, s)
		if !counts || v >= limit.Low && v <= limit.High {
			continue
		}
		seen := &l.seen[limit.axis]
		if !seen.met {
			*seen = span{v, v, true}
		}
		seen.low, seen.high = math.Min(seen.low, v), math.Max(seen.high, v)
	}
}

func (l *Life) value(a axis, s *Stress) (v float64, counts bool) {
	switch a {
	case temperature:
		return s.TempC, true
	case depth:
		return s.Depth, s.Throughput > 0
	case rate:
		return s.CRate, s.Throughput > 0
	}
	return l.days, true
}

// Outside says in words where the life left what the model was fitted to, each
// input once with how far, and what the model does there.
func (l *Life) Outside() []string {
	list := []string{}
	for _, limit := range l.model.Limits {
		if seen := l.seen[limit.axis]; seen.met {
			list = append(list, limit.Input+" "+extent(seen.low, seen.high, limit.Unit)+" (fitted for "+
				extent(limit.Low, limit.High, limit.Unit)+", "+string(limit.Standing)+"; "+limit.Beyond+")")
		}
	}
	return list
}

// String writes the limit as the documentation prints it.
func (l Limit) String() string {
	return l.Input + " " + extent(l.Low, l.High, l.Unit) + " (" + string(l.Standing) + "): outside, " + l.Beyond
}

func extent(low, high float64, unit string) string {
	text := strconv.FormatFloat(low, 'g', 3, 64)
	if unit == "days" {
		text = strconv.FormatFloat(math.Round(low), 'f', -1, 64)
	}
	if high != low {
		last := strconv.FormatFloat(high, 'g', 3, 64)
		if unit == "days" {
			last = strconv.FormatFloat(math.Round(high), 'f', -1, 64)
		}
		text += " to " + last
	}
	if unit != "" {
		text += " " + unit
	}
	return text
}
