package source

// What the bank's equations rest on beyond the cell's figures.
var (
	WallHeat = Source{"wall-heat", "Steady heat flow through a plane wall with a film of air on each side, " +
		"textbook equation; conductivities as read from trade tables", Computed}
	SlowBranch = Source{"slow-branch", "Equivalent circuit of a cell with one resistor-capacitor branch, " +
		"solved exactly for constant current", Computed}
)

var circuits = []Source{WallHeat, SlowBranch}
