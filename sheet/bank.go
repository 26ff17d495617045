package sheet

import (
	"fmt"
	"strings"

	q "ampstead/quantity"
)

func (b *builder) bank() Bank {
	c := b.res.Cell
	bank := Bank{Cell: c.Title, Layout: fmt.Sprintf("%d groups in series, %s", c.Series, cells(c.Parallel))}
	if name := shortName(c.Name); name != "" && name != c.Title {
		bank.Cell = strings.TrimSpace(fmt.Sprintf("%s (%s)", c.Title, name))
	}
	bank.Capacity = q.AmpereHours.Text(c.Capacity, b.sys)
	bank.Nominal = volts(b.res.Window.BankNominalV, 1)
	return bank
}

// shortName is the library's name of a cell without what its owner changed.
func shortName(name string) string {
	first, _, _ := strings.Cut(name, " ")
	return first
}

func cells(parallel int) string {
	if parallel == 1 {
		return "1 cell in each"
	}
	return fmt.Sprintf("%d cells side by side in each", parallel)
}

// rests lists what was measured and what had to be assumed.
func (b *builder) rests() []Rest {
	c := b.res.Cell
	return []Rest{b.capacityRest(), b.resistanceRest(),
		spreadRest("spread between groups near full", c.SpreadHi, c.SpreadHow),
		spreadRest("spread between groups near empty", c.SpreadLo, c.SpreadHow),
		b.cellRest()}
}

// Basis lists what was measured, or what was assumed, in one line.
func (m *Model) Basis(assumed bool) string {
	var list []string
	for _, r := range m.Rests {
		if r.Assumed == assumed {
			list = append(list, r.What)
		}
	}
	return strings.Join(list, ", ")
}

func (b *builder) capacityRest() Rest {
	c := b.res.Cell
	r := Rest{What: "capacity", Value: q.AmpereHours.Text(c.Capacity, b.sys), Basis: "assumed: as rated when new", Assumed: true}
	if !c.Measured {
		if c.Capacity != c.RatedAh {
			r.Basis = "assumed: an estimate from its past"
		}
		return r
	}
	r.Assumed, r.Basis = false, "measured"+b.day()
	if c.RatedAh > 0 {
		r.Basis += fmt.Sprintf("; %s of the %s it had when new", percent(c.Capacity/c.RatedAh), q.AmpereHours.Text(c.RatedAh, b.sys))
	}
	return r
}

func (b *builder) day() string {
	if m := b.rig.Bank.Measured; m != nil && m.Date != nil {
		return " on " + m.Date.String()
	}
	return ""
}

func (b *builder) resistanceRest() Rest {
	r := Rest{What: "resistance of the bank", Value: q.Ohms.Text(b.res.Cell.Ohm, b.sys), Basis: "assumed: library cell of this size", Assumed: true}
	if m := b.rig.Bank.Measured; m != nil && m.Resistance != nil {
		r.Assumed, r.Basis = false, "measured"+b.day()
	}
	return r
}

func spreadRest(what string, v float64, how string) Rest {
	return Rest{What: what, Value: measure(q.Volts, v, q.Metric), Basis: how, Assumed: how != "measured"}
}

func (b *builder) cellRest() Rest {
	r := Rest{What: "rest-voltage curve and limits", Value: shortName(b.res.Cell.Name), Basis: "assumed: a library cell of this kind, not your module", Assumed: true}
	if own := b.rig.Bank.Own; own != nil && b.rig.Bank.Cell == "own" {
		r.Basis = "given in the rig file; the rest as library cell " + own.Like
	}
	return r
}
