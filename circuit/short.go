package circuit

import (
	"ampstead/figure"
	"ampstead/physics/cell"
	"ampstead/physics/conductor"
	"ampstead/rig"
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
