package life

import (
	"slices"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Aged is a rig whose bank has another share of its rated capacity and its
// resistance multiplied; groups keep their differences. r stays as it is.
// Errors: *fit.InputError.
func Aged(r *rig.Rig, share, ohms float64) (*rig.Rig, error) {
	res, err := fit.Run(r)
	if err != nil {
		return nil, err
	}
	return faded(r, res, share, ohms), nil
}

// faded is the rig with its bank at another capacity (share of rated) and its
// resistance multiplied. res is what fit makes of the rig as it is.
func faded(r *rig.Rig, res *fit.Result, share, ohms float64) *rig.Rig {
	c := *r
	m := rig.Measured{}
	if r.Bank.Measured != nil {
		m = *r.Bank.Measured
	}
	now := share * res.Cell.RatedAh
	fade := now / res.Cell.Capacity
	links := 0.0
	if r.Bank.Links != nil {
		links = float64(*r.Bank.Links) / float64(max(1, r.Bank.Strings))
	}
	ah, ohm := q.Charge(now), q.Resistance(links+ohms*(res.Cell.Ohm-links))
	m.Capacity, m.Resistance = &ah, &ohm
	m.Groups = slices.Clone(m.Groups)
	for k := range m.Groups {
		g := &m.Groups[k]
		g.Capacity, g.Resistance = times(g.Capacity, fade), times(g.Resistance, ohms)
	}
	c.Bank.Measured = &m
	return &c
}

func times[Q ~float64](v *Q, by float64) *Q {
	if v == nil {
		return nil
	}
	x := Q(float64(*v) * by)
	return &x
}
