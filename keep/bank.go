package keep

import (
	"math"

	"ampstead/fit"
	"ampstead/physics/cell"
	"ampstead/rig"
)

// What is taken of groups nobody measured one by one; ours.
const (
	ohmDoubt      = 0.10  // share by which resistances of groups differ unmeasured
	ohmDoubtKnown = 0.05  // the same where each was measured, with years in between
	ownCurveV     = 0.005 // V, by which a curve measured by the owner may differ from cell to cell
	slopeReach    = 0.02  // charge either side of a point over which the curve's slope is taken
)

// plant is the bank that voltages are read against.
type plant struct {
	kind       *cell.Cell
	n          int       // groups in series
	ah         []float64 // capacity of each group
	own        bool      // each group's capacity was measured
	ohm        []float64 // 10 s resistance of each group at 25 °C, with its share of the links
	ohmDoubt   float64
	bankAh     float64
	ratedAh    float64
	paths      int     // cells in parallel in a group, all strings
	curveDoubt float64 // V, by which these cells' curve may differ from the one taken
}

func plantOf(r *rig.Rig, f *fit.Result) *plant {
	p := &plant{kind: f.Kind, n: f.Cell.Series, bankAh: f.Cell.Capacity, ratedAh: f.Cell.RatedAh,
		paths: f.Cell.Parallel, ohmDoubt: ohmDoubt, curveDoubt: f.Kind.RestDoubtV.Value}
	if r.Bank.Own != nil && len(r.Bank.Own.Curve) > 0 {
		p.curveDoubt = ownCurveV
	}
	p.ah, p.ohm = make([]float64, p.n), make([]float64, p.n)
	for k := range p.n {
		p.ah[k], p.ohm[k] = p.bankAh, f.Cell.Ohm/float64(p.n)
	}
	m := r.Bank.Measured
	if m == nil || len(m.Groups) != p.n {
		return p
	}
	p.own = all(m.Groups, func(g rig.GroupReading) bool { return g.Capacity != nil })
	ohms := all(m.Groups, func(g rig.GroupReading) bool { return g.Resistance != nil })
	for k, g := range m.Groups {
		if p.own {
			p.ah[k] = float64(*g.Capacity)
		}
		if ohms {
			p.ohm[k], p.ohmDoubt = float64(*g.Resistance), ohmDoubtKnown
		}
	}
	return p
}

func all[T any](list []T, is func(T) bool) bool {
	for _, x := range list {
		if !is(x) {
			return false
		}
	}
	return true
}

// soc reads a rest voltage (V) backwards, on along the end slopes beyond the
// curve.
func (p *plant) soc(v float64) float64 {
	low, high := p.kind.Curve.Span()
	switch {
	case v > high:
		return 1 + (v-high)/p.slope(1)
	case v < low:
		return (v - low) / p.slope(0)
	}
	return p.kind.Curve.SoC(v)
}

// slope is how steep the curve is about a state of charge, V per unit of charge,
// over a few percent so that a kink of the table does not rule.
func (p *plant) slope(soc float64) float64 { return p.slopeOver(soc, slopeReach) }

// slopeOver takes it over a stated reach of charge to either side.
func (p *plant) slopeOver(soc, reach float64) float64 {
	from, to := math.Max(0, soc-reach), math.Min(1, soc+reach)
	if to <= from { // beyond an end by more than the reach
		from, to = math.Min(from, 1-slopeReach), math.Max(to, slopeReach)
	}
	return (p.kind.Curve.Voltage(to) - p.kind.Curve.Voltage(from)) / (to - from)
}

// fair is the slope of the curve's middle, against which a reading is weighed.
func (p *plant) fair() float64 {
	return (p.kind.Curve.Voltage(0.9) - p.kind.Curve.Voltage(0.1)) / 0.8
}

// sized is the capacity (Ah) of a group whose offset goes by so much (Ah) with a
// whole charge taken from the bank, reckoned with the bank's capacity C: what
// is missing of it reads C/C' times too large, so that the offset is C − C²/C'.
func (p *plant) sized(goes float64) float64 {
	return p.bankAh / math.Max(0.01, 1-goes/p.bankAh)
}
