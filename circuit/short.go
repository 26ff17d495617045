package circuit

import (
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/cell"
	"ampstead/physics/conductor"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/working"
)

// warmC is the cell temperature at which the prospective short-circuit current
// is taken, °C: a warm cell gives more.
const warmC = 45

// Short is what a dead short meets at the terminals of a bank.
type Short struct {
	TopV    float64 // highest voltage the bank is charged to
	Ohm     float64 // of the bank alone
	Strings int     // in parallel
	Use     figure.Use
}

// ShortOf reckons the worst short of a bank: charged to topV, warm, with the
// resistance of new cells or less, links, cables and any switch left out. ratedAh
// is its capacity when new, ohm its 10 s resistance today; what happens at once
// is less than that (cell.Split). Errors: outside the figure short-circuit.
func ShortOf(b *rig.Bank, c *cell.Cell, topV, ratedAh, ohm float64) (Short, error) {
	s := Short{TopV: topV, Strings: max(1, b.Strings)}
	s.Ohm, _ = c.Split(c.ResistanceOhm(ratedAh, warmC) * float64(b.Series))
	if today, _ := c.Split(ohm); today < s.Ohm {
		s.Ohm = today
	}
	if b.ShortOhm != nil {
		s.Ohm = min(s.Ohm, float64(*b.ShortOhm)/float64(s.Strings))
	}
	var err error
	s.Use, err = conductor.ShortCircuit.Use(figure.N("voltage", topV), figure.N("bank-resistance", s.Ohm))
	return s, err
}

// BankA is the current at the bank's terminals, A.
func (s Short) BankA() float64 { return s.Use.Num("current_a") }

// StringA is what the fuse of one string meets, A: its own string into a short,
// or all others into the string.
func (s Short) StringA() float64 {
	n := float64(s.Strings)
	return s.BankA() * max(1, n-1) / n
}

// Workings are what stands behind the currents of a short.
func (s Short) Workings() []finding.Working {
	list := []finding.Working{working.Use(s.Use), working.Found("the cells' part of the resistance that acts at once, at 45 °C and as new, or as measured where that is less",
		working.Of("bank resistance", s.Ohm, q.Ohms), working.Of("highest voltage", s.TopV, q.Volts))}
	if s.Strings > 1 {
		list = append(list, working.Found("into one of several strings from the others: the bank's short × (strings − 1, at least 1) / strings", working.Of("one string", s.StringA(), q.Amperes)))
	}
	return list
}
