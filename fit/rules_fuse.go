package fit

import (
	"ampstead/circuit"
	"ampstead/finding"
)

// fuses makes a rule of fit from one that circuit shares with other stages.
func fuses(check func(circuit.Bank) []finding.Finding) func(*study) []finding.Finding {
	return func(s *study) []finding.Finding {
		return check(circuit.Bank{Rig: s.rig, Sys: s.sys, Short: s.short})
	}
}

// shortOf reckons the worst short of the bank.
func (s *study) shortOf() circuit.Short {
	short, err := circuit.ShortOf(&s.rig.Bank, s.cell, s.window.BankHighV, s.info.RatedAh, s.info.Ohm)
	if err != nil {
		s.figures.Fail(err)
		return short
	}
	s.figures.Uses = append(s.figures.Uses, short.Use)
	return short
}
