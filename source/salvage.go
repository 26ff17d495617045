package source

// Used modules: reading their charge, and how they are to be judged.
var (
	RestDifference = Source{"rest-difference", "Charge of a parallel group between two rest voltages on its curve, " +
		"with its error by propagation of the meter's; derived from the balance of charge", Derived}
	UL1974Steps   = Source{"ul-1974", "UL 1974 (first edition 2018, second 2023): evaluation steps for repurposing batteries, as commonly summarised", Memory}
	IEC63330Scope = Source{"iec-63330-1", "IEC 63330-1, scope (requirements and procedure to judge performance and safety of used batteries for repurposing)", Read}
	SecondLife    = Source{"second-life", "several papers on second-life batteries: first life ends at 70 to 80 % of capacity (resistance doubled: from memory)", SecondHand}
	SalvageHabit  = Source{"salvage-practice", "Grading used modules of vehicles", Practice}
	OverDischarge = Source{"over-discharge", "Cells found below 2.0 V or 1.5 V: working rule; copper dissolution shown by Guo et al. 2016, Sci. Rep. 6, 30248, " +
		"and Hendricks et al. 2020, J. Electrochem. Soc. 167", Practice}
	SelfDischarge = Source{"self-discharge", "self-discharge of lithium cells, 2 to 3 % a month, as encyclopaedias print it", SecondHand}
	Coulombic     = Source{"coulombic", "five cycles of an automotive pouch at 25 °C: 0.9990 ± 0.0005 of the charge comes back", Derived}
)

var salvage = []Source{RestDifference, UL1974Steps, IEC63330Scope, SecondLife, SalvageHabit, OverDischarge, SelfDischarge, Coulombic}
