package fit

import (
	"errors"
	"fmt"
	"strings"

	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/physics/tolerance"
	q "ampstead/quantity"
	"ampstead/rig"
)

// What is assumed of a lithium bank's spread until it is measured; source.SpreadHabit.
const (
	assumedSpreadHigh = 0.030 // V
	assumedSpreadLow  = 0.060 // V
)

// facts finds out what the bank is: cell, layout, capacity, resistance, spread.
func (s *study) facts() error {
	if err := s.chooseCell(); err != nil {
		return err
	}
	b := &s.rig.Bank
	if n := groupCount(b); n != 0 && n != b.Series {
		return &InputError{Path: "bank.measured.groups", Message: fmt.Sprintf("%d groups are listed for %d in series", n, b.Series),
			Expected: "one reading for each group in series, or none"}
	}
	parallel := max(1, b.CellsPerGroup) * max(1, b.Strings)
	s.info = CellInfo{Name: b.Cell, Title: s.cell.Title, Family: string(s.cell.Family),
		Series: b.Series, Parallel: parallel, RatedAh: float64(*b.CellCapacity) * float64(parallel)}
	s.capacity()
	s.resistance()
	s.spread()
	s.info.Ohm, s.info.SpreadHi, s.info.SpreadLo = tidy(s.info.Ohm), tidy(s.info.SpreadHi), tidy(s.info.SpreadLo)
	return nil
}

func groupCount(b *rig.Bank) int {
	if b.Measured == nil {
		return 0
	}
	return len(b.Measured.Groups)
}

// chooseCell takes the cell from the library or the file and tightens its limits.
func (s *study) chooseCell() error {
	b := &s.rig.Bank
	name, path := b.Cell, "bank.cell"
	own := b.Cell == rig.OwnCellName && b.Own != nil
	if own {
		name, path = b.Own.Like, "bank.own.like"
	}
	c, err := cell.Lookup(name)
	if err != nil {
		return &InputError{Path: path, Message: err.Error(), Expected: "a cell of the library, or own", Example: "nmc532"}
	}
	if own {
		if c, err = ownCell(c, b.Own); err != nil {
			return err
		}
	}
	if b.Limits != nil {
		if c, err = s.tighten(c, b.Limits); err != nil {
			return err
		}
	}
	if b.Daily != nil && c.Family != cell.LeadAcid {
		if c, err = c.WithDaily(or(b.Daily.High, 0), or(b.Daily.Low, 0)); err != nil {
			return ownError("bank.daily.", err)
		}
	}
	s.cell = c
	return nil
}

func ownCell(like *cell.Cell, own *rig.OwnCell) (*cell.Cell, error) {
	var curve cell.Curve
	if len(own.Curve) > 0 {
		var soc, volt []float64
		for _, p := range own.Curve {
			soc, volt = append(soc, float64(*p.SoC)), append(volt, float64(*p.Voltage))
		}
		var err error
		if curve, err = cell.NewCurve(soc, volt); err != nil {
			return nil, &InputError{Path: "bank.own.curve", Message: err.Error(), Expected: "rest voltages rising from 0 % to 100 %"}
		}
	}
	c, err := like.With(curve, or(own.MaxVoltage, 0), or(own.MinVoltage, 0), own.Title)
	return c, ownError("bank.own.", err)
}

// ownError places what the cell package finds wrong.
func ownError(path string, err error) error {
	var e *cell.OwnError
	if !errors.As(err, &e) {
		return err
	}
	key := strings.ReplaceAll(e.Field, " ", "_")
	if e.Field == "charge temperatures" {
		key = "charge_min"
	}
	return &InputError{Path: path + key, Message: e.Message, Expected: e.Expected}
}

// tighten works the owner's stricter limits in; looser ones are refused.
func (s *study) tighten(c *cell.Cell, l *rig.Limits) (*cell.Cell, error) {
	for _, x := range []struct {
		key   string
		mine  *float64
		known float64
		upper bool
		unit  *q.Dimension
	}{
		{"max_voltage", number(l.MaxVoltage), c.MaxV.Value, true, q.Volts},
		{"min_voltage", number(l.MinVoltage), c.MinV.Value, false, q.Volts},
		{"charge_min", number(l.ChargeMin), c.ChargeMinC.Value, false, q.Celsius},
		{"charge_max", number(l.ChargeMax), c.ChargeMaxC.Value, true, q.Celsius},
	} {
		if x.mine == nil || *x.mine == x.known || (*x.mine < x.known) == x.upper {
			continue
		}
		return nil, &InputError{Path: "bank.limits." + x.key,
			Message:  fmt.Sprintf("%s is looser than %s, which is known of this cell", x.unit.Text(*x.mine, s.sys), x.unit.Text(x.known, s.sys)),
			Expected: "the same or stricter: limits may only tighten", Example: x.unit.Text(x.known, s.sys)}
	}
	c, err := c.With(cell.Curve{}, or(l.MaxVoltage, 0), or(l.MinVoltage, 0), "")
	if err != nil {
		return nil, ownError("bank.limits.", err)
	}
	c, err = c.WithChargeBetween(or(l.ChargeMin, c.ChargeMinC.Value), or(l.ChargeMax, c.ChargeMaxC.Value))
	return c, ownError("bank.limits.", err)
}

// capacity takes the measured capacity, of the weakest group where groups were
// measured, for that one ends every discharge.
func (s *study) capacity() {
	s.info.Capacity, s.info.Basis = s.info.RatedAh, "rated"
	m := s.rig.Bank.Measured
	if m == nil {
		return
	}
	known := m.Capacity != nil
	if known {
		s.info.Capacity = float64(*m.Capacity)
	}
	if weakest, _, ok := groupCapacities(m); ok {
		if known {
			weakest = min(weakest, s.info.Capacity)
		}
		s.info.Capacity, known = weakest, true
	}
	switch {
	case known && m.Estimated:
		s.info.Basis = "estimated from its past"
	case known:
		s.info.Measured, s.info.Basis = true, "measured"
	}
}

// groupCapacities returns the weakest and the mean capacity in Ah; ok when
// every group has one.
func groupCapacities(m *rig.Measured) (weakest, mean float64, ok bool) {
	if m == nil || len(m.Groups) == 0 {
		return 0, 0, false
	}
	for k, g := range m.Groups {
		if g.Capacity == nil {
			return 0, 0, false
		}
		c := float64(*g.Capacity)
		if k == 0 || c < weakest {
			weakest = c
		}
		mean += c / float64(len(m.Groups))
	}
	return weakest, mean, true
}

// resistance takes the bank as measured, else its groups, else typical cells.
func (s *study) resistance() {
	b := &s.rig.Bank
	links := 0.0
	if b.Links != nil {
		links = float64(*b.Links) / float64(max(1, b.Strings))
	}
	switch sum, ok := groupOhms(b.Measured); {
	case b.Measured != nil && b.Measured.Resistance != nil:
		s.info.Ohm = float64(*b.Measured.Resistance)
	case ok:
		s.info.Ohm = sum + links
	default:
		s.info.Ohm = s.cell.ResistanceOhm(s.info.RatedAh, 25)*float64(b.Series) + links
	}
}

func groupOhms(m *rig.Measured) (sum float64, ok bool) {
	if m == nil || len(m.Groups) == 0 {
		return 0, false
	}
	for _, g := range m.Groups {
		if g.Resistance == nil {
			return 0, false
		}
		sum += float64(*g.Resistance)
	}
	return sum, true
}

// spread takes how far the groups stand apart as measured, else as assumed; near
// empty at least what unequal group capacities make of it. A lead-acid battery
// shows no cells to a meter, so none is assumed.
func (s *study) spread() {
	m := s.rig.Bank.Measured
	if m == nil {
		m = &rig.Measured{}
	}
	s.info.SpreadHi, s.info.SpreadLo, s.info.SpreadHow = assumedSpreadHigh, assumedSpreadLow, "assumed"
	if s.acid() {
		s.info.SpreadHi, s.info.SpreadLo = 0, 0
	}
	if m.SpreadHigh != nil && m.SpreadLow != nil {
		s.info.SpreadHow = "measured"
	}
	if m.SpreadHigh != nil {
		s.info.SpreadHi = float64(*m.SpreadHigh)
	}
	if m.SpreadLow != nil {
		s.info.SpreadLo = float64(*m.SpreadLow)
	}
	if share, ok := s.weakShare(); ok {
		s.info.SpreadLo = max(s.info.SpreadLo, s.spreadOfWeakest(share))
	}
}

// weakShare is the weakest group's capacity over the mean, at most 1 whatever
// the mean of equal groups rounds to.
func (s *study) weakShare() (float64, bool) {
	weakest, mean, ok := groupCapacities(s.rig.Bank.Measured)
	return min(1, weakest/mean), ok
}

func (s *study) spreadOfWeakest(share float64) float64 {
	low := s.cell.DailyLowV.Value
	return s.figures.Use(tolerance.WeakGroup, figure.T("cell", s.cell.Name), figure.N("voltage", low), figure.N("share", share)).Num("spread_v")
}

// acid reports whether the bank is lead-acid.
func (s *study) acid() bool { return s.cell.Family == cell.LeadAcid }

// series is the number of groups in series.
func (s *study) series() float64 { return float64(s.info.Series) }
