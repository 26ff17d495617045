package wire

import (
	"ampstead/circuit"
	"ampstead/finding"
)

// rule looks for one kind of mistake in the wiring.
type rule struct {
	id    string
	check func(*study) []finding.Finding
}

// rules is the table of everything that is looked for. The four that guard the
// bank are shared with fit, word for word, so that a page that shows both shows
// each once (finding.Merge). Whether devices bear the bank's range of voltage is
// fit's to say.
var rules = []rule{
	// Fuses.
	{"no-main-fuse", shared(circuit.NoMainFuse)},
	{"no-string-fuse", shared(circuit.NoStringFuse)},
	{"interrupt-rating", shared(circuit.InterruptRating)},
	{"interrupt-rating", branchInterrupt},
	{"fuse-voltage", shared(circuit.FuseVoltage)},
	{"fuse-voltage", branchVoltage},
	{"fuse-too-small", fuseTooSmall},
	{"fuse-distance", fuseDistance},
	{"fuse-coordination", fuseCoordination},
	// Conductors.
	{"cable-too-small", cableTooSmall},
	{"cable-unprotected", cableUnprotected},
	{"short-withstand", shortWithstand},
	{"cable-adrift", cableAdrift},
	{"cable-missing", cableMissing},
	// Contactor and pre-charge.
	{"contactor-current", contactorCurrent},
	{"contactor-break", contactorBreak},
	{"contactor-polarised", contactorPolarised},
	{"no-pre-charge", noPreCharge},
	{"pre-charge-short", preChargeShort},
	// Roof.
	{"string-too-high", stringTooHigh},
	{"string-too-low", stringTooLow},
	{"panel-current", panelCurrent},
	{"panel-fuse", panelFuse},
	// What is fed.
	{"supply-overloaded", supplyOverloaded},
	{"heater-density", heaterDensity},
}

// shared makes a rule of wire from one of circuit.
func shared(check func(circuit.Bank) []finding.Finding) func(*study) []finding.Finding {
	return func(s *study) []finding.Finding {
		return check(circuit.Bank{Rig: s.rig, Sys: s.sys, Short: s.short})
	}
}

// mistake makes a finding; the table gives it its rule's name.
func mistake(severity finding.Severity, where, found, because, mend string) finding.Finding {
	return finding.Finding{Severity: severity, Where: where, Found: found, Because: because, Mend: mend}
}
