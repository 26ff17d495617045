package sheet

import (
	"fmt"
	"strings"

	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/source"
)

// Limit is one thing known of the cell, with where it comes from.
type Limit struct {
	What, Value string
	Source      source.Source
	Note        string // condition, conflict or doubt
}

// cell lists what is known of one cell; empty when the cell is not known.
func (b *builder) cell() []Limit {
	c := b.res.Kind
	if c == nil {
		return nil
	}
	return []Limit{
		b.curveLimit(c),
		b.limit("charge limit", c.MaxV, q.Volts), b.limit("discharge limit", c.MinV, q.Volts),
		b.limit("preferred top of daily use", c.DailyHighV, q.Volts), b.limit("preferred bottom of daily use", c.DailyLowV, q.Volts),
		b.limit("no charge below", c.ChargeMinC, q.Celsius), b.limit("no charge above", c.ChargeMaxC, q.Celsius),
		b.rates("most charge current of this bank", c.ChargeRates), b.rates("most discharge current of this bank", c.DischargeRate),
		b.limit("warn when as warm as", c.AlarmC, q.Celsius), b.limit("disconnect at the latest at", c.HarmC, q.Celsius),
		b.limit("specific heat", c.SpecificHeat, q.JoulesPerKgK),
	}
}

func (b *builder) curveLimit(c *cell.Cell) Limit {
	l := Limit{What: "rest-voltage curve", Source: c.CurveSource}
	low, high := c.Curve.Span()
	l.Value = between(low, high, 2) + " empty to full"
	return l
}

func (b *builder) limit(what string, k cell.Known, d *q.Dimension) Limit {
	return Limit{What: what, Value: dimensioned(k.Value, d, "", 0.01, b.sys), Source: k.Source, Note: k.Note}
}

// rates writes a table of current limits as the current of this bank at each
// temperature.
func (b *builder) rates(what string, r cell.Rates) Limit {
	var knots []string
	for _, p := range r.Points {
		knots = append(knots, fmt.Sprintf("%s at %s", b.amperes(p.Rate*b.res.Cell.Capacity), b.temperature(p.TempC)))
	}
	return Limit{What: what, Value: strings.Join(knots, ", "), Source: r.Source, Note: r.Note}
}

// amperes shows a current limit to the whole ampere, as no table of them is finer.
func (b *builder) amperes(a float64) string { return q.Amperes.Fixed(a, "A", 0) }
