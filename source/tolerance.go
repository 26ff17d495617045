package source

// What the staging of limits rests on.
var (
	ToleranceStacking = Source{"tolerance-stacking", "Worst-case and root-sum-square addition of tolerances, " +
		"published worked examples as reprinted in training texts", SecondHand}
	LayerStaging = Source{"layer-staging", "Staging of protective voltage layers in a vehicle's house battery, " +
		"derived here: no published standard was found", Derived}
	SpreadHabit = Source{"spread-habit", "Spread between groups taken as 30 mV near full and 60 mV near empty " +
		"until it is measured", Practice}
	ToleranceHabit = Source{"tolerance-habit", "Accuracy of a device that does not state it: 1 % for a voltage of the " +
		"whole bank, 10 mV for a cell meter, 2 K for a thermostat", Practice}
	SettingHabit = Source{"setting-habit", "Settings of chargers, relays and heaters for a lithium bank: tail current, " +
		"delays, restart and temperature steps", Practice}
)

var tolerances = []Source{ToleranceStacking, LayerStaging, SpreadHabit, ToleranceHabit, SettingHabit}
