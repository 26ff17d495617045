package rig

import "fmt"

// OwnCellName is what bank.cell says when the cell is described in the file.
const OwnCellName = "own"

// battery is the bank or a candidate for it.
type battery struct {
	at, cell string
	own      *OwnCell
	limits   *Limits
}

func (c *checker) batteries() []battery {
	b := &c.rig.Bank
	list := []battery{{"bank", b.Cell, b.Own, b.Limits}}
	for i := range c.rig.Candidates {
		k := &c.rig.Candidates[i]
		list = append(list, battery{c.item("candidates", i), k.Cell, k.Own, k.Limits})
	}
	return list
}

func (c *checker) ownCell() {
	for _, b := range c.batteries() {
		switch {
		case b.cell == OwnCellName && b.own == nil:
			c.add(b.at+".cell", "cell is own but there is no own block", "an own block that describes the cell", "own: {like: nmc532}")
		case b.cell != OwnCellName && b.own != nil:
			c.add(b.at+".own", fmt.Sprintf("there is an own block but cell is %s", b.cell), "cell: own, or no own block", "")
		case b.own != nil && b.own.Like == OwnCellName:
			c.add(b.at+".own.like", "a cell cannot be like itself", "the name of a library cell", "nmc532")
		}
	}
}

func (c *checker) ownCurve() {
	for _, b := range c.batteries() {
		if b.own != nil && len(b.own.Curve) > 0 {
			c.curve(b.at+".own.curve", b.own.Curve)
		}
	}
}

// curve skips points that are not whole; those are reported already.
func (c *checker) curve(at string, points []CurvePoint) {
	for _, p := range points {
		if p.SoC == nil || p.Voltage == nil {
			return
		}
	}
	const hair = 1e-9
	first, last := points[0], points[len(points)-1]
	if len(points) < 2 || *first.SoC > hair || *last.SoC < 1-hair {
		c.add(at, "the curve does not reach from 0 % to 100 %", "first point at 0 %, last at 100 %", "")
	}
	for i := 1; i < len(points); i++ {
		before, here := points[i-1], points[i]
		if *here.SoC <= *before.SoC || *here.Voltage <= *before.Voltage {
			c.add(fmt.Sprintf("%s.%d", at, i), "this point is not above the one before it",
				"charge and voltage that both rise", "")
		}
	}
}

func (c *checker) cellLimits() {
	if d := c.rig.Bank.Daily; d != nil && d.High != nil && d.Low != nil {
		c.above("bank.daily", "high", "low", *d.High > *d.Low)
	}
	for _, b := range c.batteries() {
		if own := b.own; own != nil && own.MaxVoltage != nil && own.MinVoltage != nil {
			c.above(b.at+".own", "max_voltage", "min_voltage", *own.MaxVoltage > *own.MinVoltage)
		}
		if b.limits != nil {
			c.limits(b.at+".limits", b.limits)
		}
	}
}

func (c *checker) limits(at string, l *Limits) {
	if l.MaxVoltage != nil && l.MinVoltage != nil {
		c.above(at, "max_voltage", "min_voltage", *l.MaxVoltage > *l.MinVoltage)
	}
	if l.ChargeMax != nil && l.ChargeMin != nil {
		c.above(at, "charge_max", "charge_min", *l.ChargeMax > *l.ChargeMin)
	}
}

func (c *checker) groups() {
	m, series := c.rig.Bank.Measured, c.rig.Bank.Series
	if m == nil || len(m.Groups) == 0 || series == 0 || len(m.Groups) == series {
		return
	}
	c.add("bank.measured.groups", fmt.Sprintf("the number of readings is %d, that of groups in series %d", len(m.Groups), series),
		"one reading for each group", "")
}
