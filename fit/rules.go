package fit

import (
	"ampstead/circuit"
	"ampstead/finding"
)

// rule looks for one kind of mistake in the rig as it is set today.
type rule struct {
	id    string
	check func(*study) []finding.Finding
}

// rules is the table of everything that is looked for. One mistake makes one
// finding: where two rules could speak of the same cause, the later one holds
// back.
var rules = []rule{
	// Charging.
	{"lead-acid-profile", leadAcidProfile},
	{"charge-beyond-harm", chargeBeyondHarm},
	{"charge-above-daily", chargeAboveDaily},
	{"compensation-in-cold", compensationInCold},
	{"equalise-on", equaliseOn},
	{"float-too-high", floatTooHigh},
	// Frost.
	{"no-frost-lock", noFrostLock},
	{"heater-order", heaterOrder},
	// Layers.
	{"layers-cross", layersCross},
	{"relay-beyond-harm", relayBeyondHarm},
	{"relay-inside-daily", relayInsideDaily},
	{"alarm-after-disconnect", alarmAfterDisconnect},
	{"no-disconnect", noDisconnect},
	{"no-cell-meter", noCellMeter},
	{"taps-missing", tapsMissing},
	{"weak-group-unseen", weakGroupUnseen},
	// Emptying.
	{"low-cut-too-low", lowCutTooLow},
	{"low-cut-below-inverter", lowCutBelowInverter},
	{"no-low-cut", noLowCut},
	{"daily-window-unmet", dailyUnmet},
	// Devices.
	{"input-range", inputRange},
	{"out-of-device-range", outOfDeviceRange},
	{"set-point-too-fine", setPointTooFine},
	{"alternator-unloaded", alternatorUnloaded},
	// Currents and fuses.
	{"charge-rate", chargeRate},
	{"discharge-rate", dischargeRate},
	{"no-main-fuse", fuses(circuit.NoMainFuse)},
	{"no-string-fuse", fuses(circuit.NoStringFuse)},
	{"interrupt-rating", fuses(circuit.InterruptRating)},
	{"fuse-voltage", fuses(circuit.FuseVoltage)},
	// What is not known.
	{"capacity-unmeasured", capacityUnmeasured},
	{"spread-unmeasured", spreadUnmeasured},
	{"tolerance-assumed", toleranceAssumed},
	{"not-given", settingsNotGiven},
}

// mistake makes a finding; the table gives it its rule's name.
func mistake(severity finding.Severity, where, found, because, mend string) finding.Finding {
	return finding.Finding{Severity: severity, Where: where, Found: found, Because: because, Mend: mend}
}
