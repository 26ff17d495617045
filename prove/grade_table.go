package prove

import (
	"ampstead/quantity"
	"ampstead/source"
)

// Threshold is a figure a module is graded by: worse than Derate it is no longer
// taken as it is, worse than Refuse it is not taken. A value whose error spans a
// threshold leaves the grade undecided between the two sides.
type Threshold struct {
	ID      string
	What    string // "capacity of the whole, share of rated"
	Dim     *quantity.Dimension
	Derate  float64
	Refuse  float64
	Falling bool // worse when lower
	Source  source.Source
	Because string
}

// Thresholds is the whole table the grade rests on.
func Thresholds() []Threshold { return append([]Threshold(nil), thresholds...) }

var thresholds = []Threshold{
	{"capacity", "capacity of the whole, share of rated", quantity.Fraction, 0.80, 0.60, true, source.SecondLife,
		"first life ends at 70 to 80 %; that 60 % ends a second one is habit"},
	{"group-loss", "capacity lost by the weakest group against the best, or against rated", quantity.Fraction, 0.10, 0.25, false, source.SalvageHabit,
		"the weakest group sets what the string gives, and one that has aged apart goes on ageing faster"},
	{"resistance", "resistance over that expected of such a cell", quantity.Plain, 1.5, 2, false, source.SecondLife,
		"first life ends at about double the resistance"},
	{"group-resistance", "highest resistance of a group over the median", quantity.Plain, 1.3, 2, false, source.SalvageHabit,
		"one group that stands out has a bad joint or a damaged cell"},
	{"group-leak", "charge a group loses in a month beyond the median, share of its capacity", quantity.Fraction, 0.02, 0.10, false, source.SalvageHabit,
		"shared self-discharge is 2 to 3 % a month; a group that loses much more has an internal short that may grow"},
	{"efficiency", "charge that does not come back in a closed cycle", quantity.Fraction, 0.005, 0.20, false, source.Coulombic,
		"a sound cell gives back 99.9 %; more lost points to a leak, or to the current sensor"},
	{"deepest", "lowest voltage seen of a group", quantity.Volts, 2.0, 1.5, true, source.OverDischarge,
		"below 2.0 V care, below 1.5 V or reversed do not recharge: copper may have dissolved"},
	{"highest", "highest voltage seen of a group over the cell's limit", quantity.Volts, 0.10, 0.25, false, source.SalvageHabit,
		"over-charged cells run away at far lower temperature; a little over is the drop under the charging current"},
}
