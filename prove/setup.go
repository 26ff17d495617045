package prove

import (
	"fmt"
	"math"
	"strings"

	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
)

func newStudy(o Options) (*study, error) {
	s := &study{o: o, kind: o.Kind, in: &intake{}, res: &Result{}}
	if s.kind == nil {
		if o.Cell == "" {
			return nil, &fit.InputError{Path: "cell", Message: "no cell is named", Expected: "one of " + strings.Join(cell.Names(), ", "), Example: "nmc532"}
		}
		kind, err := cell.Lookup(o.Cell)
		if err != nil {
			return nil, &fit.InputError{Path: "cell", Message: err.Error(), Expected: "one of " + strings.Join(cell.Names(), ", "), Example: "nmc532"}
		}
		s.kind = kind
	}
	s.res.Cell, s.res.Kind = s.kind.Name, s.kind
	return s, s.checkOptions()
}

// checkOptions refuses limits that are none of one cell of this kind.
func (s *study) checkOptions() error {
	low, high := orElse(s.o.LowV, s.kind.MinV.Value), orElse(s.o.HighV, s.kind.MaxV.Value)
	text := func(v float64) string { return q.Volts.Text(v, q.Metric) }
	expected := fmt.Sprintf("a voltage of one cell; %s is used between %s and %s", s.kind.Name, text(s.kind.MinV.Value), text(s.kind.MaxV.Value))
	switch {
	case !(low > 0.5*s.kind.MinV.Value) || low > s.kind.NominalV.Value:
		return &fit.InputError{Path: "low", Message: text(low) + " is no low limit of such a cell", Expected: expected, Example: text(s.kind.MinV.Value)}
	case !(high > low) || high > windowOver*s.kind.MaxV.Value:
		return &fit.InputError{Path: "high", Message: text(high) + " is no high limit of such a cell", Expected: expected, Example: text(s.kind.MaxV.Value)}
	case s.o.Groups < 0 || s.o.Groups > 1000:
		return &fit.InputError{Path: "groups", Message: fmt.Sprintf("%d groups in series", s.o.Groups), Expected: "a whole number from 1", Example: "7"}
	case !(s.o.RatedAh >= 0) || math.IsInf(s.o.RatedAh, 1):
		return &fit.InputError{Path: "rated", Message: "a rated capacity below zero", Expected: "the capacity of the whole when new", Example: "65 Ah"}
	}
	return nil
}

func orElse(v, other float64) float64 {
	if v == 0 {
		return other
	}
	return v
}

// windowOver is how far above its limit a cell can have stood without the log
// being read with the wrong cell or the wrong number of groups.
const windowOver = 1.07

// setSeries finds how many cells are in series: given, by the columns of group
// voltages, or by the voltage. It refuses a number the voltages contradict.
func (s *study) setSeries() error {
	if len(s.segs) == 0 {
		return &fit.InputError{Path: "log", Message: "no row has both a voltage and a current", Expected: "a log of a test with both", Example: "time_s,voltage_v,current_a"}
	}
	s.groups, s.series = s.in.columns, s.o.Groups
	low, high := s.voltSpan()
	switch {
	case s.series == 0 && s.groups > 0:
		s.series = s.groups
	case s.series == 0:
		s.series = s.guessSeries(low, high)
	}
	if s.groups > s.series {
		return &fit.InputError{Path: "groups", Message: fmt.Sprintf("%d groups in series, but the log has %d columns of group voltages", s.series, s.groups),
			Expected: "at least as many groups as columns", Example: fmt.Sprint(s.groups)}
	}
	if 0 < s.groups && s.groups < s.series {
		s.warn("groups-missing", fmt.Sprintf("%d of %d groups have a column", s.groups, s.series), "The groups without one cannot be told apart, and any of them may be the weakest.")
	}
	return s.checkWindow(low/float64(s.series), high/float64(s.series))
}

// voltSpan is the lowest and highest voltage at the terminals.
func (s *study) voltSpan() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for k := range s.segs {
		for _, p := range s.segs[k].own() {
			low, high = min(low, p.v), max(high, p.v)
		}
	}
	return low, high
}

// guessSeries takes the fewest cells that none stands above its limit of.
func (s *study) guessSeries(low, high float64) int {
	most := s.kind.MaxV.Value * 1.03
	n := max(int(math.Ceil(high/most)), 1)
	if more := int(math.Floor(low / (0.9 * s.kind.MinV.Value))); more > n {
		s.warn("groups-guessed", fmt.Sprintf("%d cells in series are taken from the highest voltage, %s; up to %d would fit too",
			n, q.Volts.Text(high, q.Metric), more), "Everything told of one cell rests on that number. Give it.")
	}
	return n
}

// checkWindow refuses voltages per cell that no such cell has.
func (s *study) checkWindow(low, high float64) error {
	text := func(v float64) string { return q.Volts.Text(v, q.Metric) }
	if high > windowOver*s.kind.MaxV.Value {
		return &fit.InputError{Path: "groups", Message: fmt.Sprintf("with %d in series a cell would stand at %s; a %s cell ends at %s",
			s.series, text(high), s.kind.Name, text(s.kind.MaxV.Value)), Expected: "the number of cells in series and the kind of cell the log belongs to",
			Example: fmt.Sprint(int(math.Ceil(high * float64(s.series) / s.kind.MaxV.Value)))}
	}
	if high < 0.9*s.kind.MinV.Value {
		return &fit.InputError{Path: "groups", Message: fmt.Sprintf("with %d in series no cell ever stands above %s; a %s cell is empty at %s",
			s.series, text(high), s.kind.Name, text(s.kind.MinV.Value)), Expected: "the number of cells in series and the kind of cell the log belongs to",
			Example: fmt.Sprint(max(int(math.Ceil(high*float64(s.series)/s.kind.MaxV.Value)), 1))}
	}
	return nil
}

// setLimits takes the limits given, or the cell's; where the test itself went
// beyond those, its own ends.
func (s *study) setLimits() {
	s.res.Low, s.res.High = orElse(s.o.LowV, s.kind.MinV.Value), orElse(s.o.HighV, s.kind.MaxV.Value)
	below, above := 0.0, math.Inf(1)
	for k := range s.segs {
		seg := &s.segs[k]
		low, high := s.cellSpan(seg.end())
		switch seg.Kind {
		case kindDischarge:
			if low < s.kind.MinV.Value-reachV {
				below = max(below, low)
			}
		case kindCharge, kindHold:
			if high > s.kind.MaxV.Value+reachV {
				above = min(above, high)
			}
		}
	}
	if s.o.LowV == 0 && below > 0 {
		s.res.Low = below
	}
	if s.o.HighV == 0 && !math.IsInf(above, 1) {
		s.res.High = above
	}
}
