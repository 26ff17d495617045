package source

// Tests and how their readings are worked up.
var (
	StepTests = Source{"iec-61960-3", "IEC 61960-3, direct-current resistance from two currents: R = (U1 − U2)/(I2 − I1), " +
		"0.2 It for 10 s, then 1.0 It for 1 s", Read}
	Plett2011 = Source{"plett-2011", "Plett 2011, J. Power Sources 196, 2319-2331, abstract: recursive total least squares for capacity; " +
		"the case of proportional errors derived anew here", Derived}
)

var measures = []Source{StepTests, Plett2011}
