package rig

import "fmt"

// OwnCellName is what bank.cell says when the cell is described in the file.
const OwnCellName = "own"

func (c *checker) ownCell() {
	b := c.rig.Bank
	switch {
	case b.Cell == OwnCellName && b.Own == nil:
		c.add("bank.cell", "cell is own but there is no own block", "an own block that describes the cell", "own: {like: nmc532}")
	case b.Cell != OwnCellName && b.Own != nil:
		c.add("bank.own", fmt.Sprintf("there is an own block but cell is %s", b.Cell), "cell: own, or no own block", "")
	case b.Own != nil && b.Own.Like == OwnCellName:
		c.add("bank.own.like", "a cell cannot be like itself", "the name of a library cell", "nmc532")
	}
}

// ownCurve skips points that are not whole; those are reported already.
func (c *checker) ownCurve() {
	if c.rig.Bank.Own == nil || len(c.rig.Bank.Own.Curve) == 0 {
		return
	}
	points := c.rig.Bank.Own.Curve
	for _, p := range points {
		if p.SoC == nil || p.Voltage == nil {
			return
		}
	}
	const at, hair = "bank.own.curve", 1e-9
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
	if own := c.rig.Bank.Own; own != nil && own.MaxVoltage != nil && own.MinVoltage != nil {
		c.above("bank.own", "max_voltage", "min_voltage", *own.MaxVoltage > *own.MinVoltage)
	}
	l := c.rig.Bank.Limits
	if l == nil {
		return
	}
	if l.MaxVoltage != nil && l.MinVoltage != nil {
		c.above("bank.limits", "max_voltage", "min_voltage", *l.MaxVoltage > *l.MinVoltage)
	}
	if l.ChargeMax != nil && l.ChargeMin != nil {
		c.above("bank.limits", "charge_max", "charge_min", *l.ChargeMax > *l.ChargeMin)
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
