package life

import (
	"ampstead/fit"
	"ampstead/physics/ageing"
	"ampstead/physics/cell"
)

// Defaults of Options.
const (
	horizon    = 30
	step       = 0.02
	endShare   = 0.7
	endAcid    = 0.8
	moreHours  = 24
	leastShare = 0.5 // of the rated capacity, below which a bank is not followed
)

// Unknown is a model that does not exist.
type Unknown struct{ Err error }

func (e *Unknown) Error() string { return e.Err.Error() }

func modelFor(c *cell.Cell, name string) (*ageing.Model, error) {
	if name == "" {
		return ageing.For(c)[0], nil
	}
	m, err := ageing.Lookup(name)
	if err != nil {
		return nil, &Unknown{err}
	}
	return m, nil
}

// whole fills in what was left out.
func (o Options) whole(res *fit.Result) Options {
	if o.Years <= 0 {
		o.Years = horizon
	}
	if o.Step <= 0 {
		o.Step = step
	}
	if o.EndShare <= 0 {
		o.EndShare = endOf(res.Kind)
	}
	if o.Capacity <= 0 && res.Cell.Basis != "rated" { // measured or estimated
		o.Capacity = res.Cell.Capacity / res.Cell.RatedAh
	}
	return o
}

// endOf is the share of its rated capacity at which a battery is taken as spent.
func endOf(c *cell.Cell) float64 {
	if c.Family == cell.LeadAcid {
		return endAcid
	}
	return endShare
}

// Start is the share of its rated capacity that a battery has by the past the
// Options give: measured, or what the model makes of its stated use, with the
// model's band; 1 when new. Errors: *Unknown.
func Start(c *cell.Cell, o Options) (Band, error) {
	m, err := modelFor(c, o.Model)
	if err != nil {
		return Band{}, err
	}
	share := func(multiplier float64) float64 {
		b := start(m.Scaled(multiplier), o.past())
		return b.share()
	}
	spread := band(m, o.Multiplier, o.Spread)
	return Band{share(spread.High), share(spread.Middle), share(spread.Low)}, nil
}

// past is what is known of the bank so far.
func (o Options) past() ageing.Past {
	return ageing.Past{Capacity: o.Capacity, Resistance: o.Resistance, Use: o.Use}
}

// band is the spread of the multiplier on the loss.
func band(m *ageing.Model, multiplier float64, own ageing.Band) ageing.Band {
	switch {
	case own != ageing.Band{}:
		return own
	case multiplier > 0:
		f := multiplier / m.Band.Middle
		return ageing.Band{Low: f * m.Band.Low, Middle: multiplier, High: f * m.Band.High}
	}
	return m.Band
}

// old is a bank growing old. More than its rated capacity, as good cells have
// when new, is kept as a factor.
type old struct {
	ageing.Life
	more float64
}

func start(m *ageing.Model, p ageing.Past) old {
	return old{Life: m.From(p), more: max(1, p.Capacity)}
}

// share is the capacity left over the rated one.
func (b *old) share() float64 { return b.more * b.Capacity() }

// ohms is the resistance over that when new, 1 where the model is silent.
func (b *old) ohms() float64 {
	factor, ok := b.Resistance()
	if !ok {
		return 1
	}
	return factor
}
