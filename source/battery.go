package source

// Given is the standing of a value the owner of a rig states for it.
const Given Standing = "given by the rig's owner"

// Papers whose cells and equations the library carries. The parameter sets were
// read as an open research library carries them (PyBaMM, commit 7c9f5bd).
var (
	Kim2011 = Source{"kim-2011", "Kim, Smith, Lee, Santhanagopalan, Pesaran 2011, " +
		"J. Electrochem. Soc. 158, A955-A969; parameter set as carried in PyBaMM", Read}
	Chen2020 = Source{"chen-2020", "Chen, Brosa Planella, O'Regan, Gastol, Widanage, Kendrick 2020, " +
		"J. Electrochem. Soc. 167, 080534; parameter set as carried in PyBaMM", Read}
	Mohtat2020 = Source{"mohtat-2020", "Mohtat, Lee, Sulzer, Siegel, Stefanopoulou 2020, " +
		"J. Electrochem. Soc. 167, 110561 (page from memory); parameter set as carried in PyBaMM", Read}
	Ecker2015 = Source{"ecker-2015", "Ecker et al. 2015, J. Electrochem. Soc. 162, A1836-A1848 and A1849-A1857, " +
		"fits after Richardson et al. 2020, Electrochim. Acta 339, 135862; parameter set as carried in PyBaMM", Read}
	Prada2013 = Source{"prada-2013", "Prada et al. 2013, J. Electrochem. Soc. 160, A616, with the iron-phosphate potential of " +
		"Afshar, Morris, Khajepour 2017 (arXiv 1709.03970) and graphite of Chen et al. 2020; parameter set as carried in PyBaMM", Read}
	Sunil2025 = Source{"sunil-2025", "Sunil, Pattipati, Balasingam 2025, Piecewise linear approximation of battery open-circuit " +
		"voltage characteristics using dynamic programming, IEEE Trans. Instrum. Meas.; published data", Read}
	Sulzer2019 = Source{"sulzer-2019", "Sulzer et al. 2019, lead-acid parameter set as carried in PyBaMM", Read}
	Bode1977   = Source{"bode-1977", "Bode 1977, Lead-Acid Batteries, Wiley; electrode potentials as carried in the Sulzer 2019 parameter set", SecondHand}
	Bernardi   = Source{"bernardi-1985", "Bernardi, Pawlikowski, Newman 1985, J. Electrochem. Soc. 132, 5-12, reduced form (page numbers from memory)", Memory}
	Plating    = Source{"feinauer-2024", "Feinauer, Wohlfahrt-Mehrens, Hölzle, Waldmann 2024, J. Power Sources 594, 233948: " +
		"lithium plating dominates ageing in the cold", Read}
	Schmalstieg = Source{"schmalstieg-2014", "Schmalstieg, Käbitz, Ecker, Sauer 2014, J. Power Sources 257, 325-334; " +
		"coefficients as several open re-uses print them", SecondHand}
)

// Measured data.
var (
	PouchTest = Source{"pouch-test", "Wiggins, Allu, Wang, Battery cell data from a 2013 production electric car, " +
		"Oak Ridge National Laboratory, doi 10.5281/zenodo.2580327", Read}
	PouchDerived = Source{"pouch-derived", "derived here from the pulse test of Wiggins, Allu, Wang, doi 10.5281/zenodo.2580327", Derived}
	PouchThermal = Source{"pouch-thermal", "heat fitted to an automotive module, equivalent-circuit research library batterysim/equiv-circ-model", Read}
	PulseBat     = Source{"tao-2024", "Tao et al. 2024, Generative learning assisted state-of-health estimation for sustainable battery recycling " +
		"with random retirement conditions, Nature Communications 15; pulse data of retired cells", Read}
	Cell21700Pulses = Source{"pulses-21700", "pulse data of three 5 Ah 21700 cells at 25 °C, example data of the open PyBOP library", Read}
	Rest21700       = Source{"rest-21700", "compared here with the mean rest voltage of a 5 Ah 21700 nickel-manganese-cobalt 811 cell at 25 °C, " +
		"example data of the open PyBOP library", Derived}
	SunilDerived = Source{"sunil-derived", "derived here from the measured curves of Sunil, Pattipati, Balasingam 2025", Derived}
)

// Specifications, handbooks and habits.
var (
	LFPSheet       = Source{"lfp-sheet", "published specification of one small iron-phosphate cell", Read}
	DeviceCharging = Source{"device-charging", "charging temperature zones as printed in handbooks of portable devices", Read}
	CellSheets     = Source{"cell-sheets", "usual data sheets of lithium energy cells", Memory}
	CellSizes      = Source{"cell-sizes", "usual 10 s resistance of cells by size", Memory}
	Hysteresis     = Source{"iron-hysteresis", "rest voltage of iron-phosphate after charge against after discharge, 10 to 20 mV apart", Memory}
	HeatText       = Source{"heat-text", "engineering text quoting measured specific heats of cells", SecondHand}
	CellPractice   = Source{"cell-practice", "working habit for lithium banks built by hand", Practice}
	AcidPages      = Source{"acid-pages", "lead-acid charge voltages as encyclopaedia and handbook pages print them", SecondHand}
	AcidMagazine   = Source{"acid-magazine", "rest-voltage table of automotive batteries in a magazine's answer", Read}
	AcidTextbook   = Source{"acid-textbook", "photovoltaics textbook, as quoted: half the capacity for long life", SecondHand}
	AcidMemory     = Source{"acid-memory", "usual figures for lead-acid batteries", Memory}
	AcidGravity    = Source{"acid-gravity", "specific gravity against state of charge of a deep-cycle flooded battery, with volts by SG + 0.845", Memory}
	Owner          = Source{"owner", "stated in the rig file", Given}
	CellCurves     = Source{"cell-curves", "published rest-voltage table or equations of the cell named; each cell's own source is listed in docs/cells.md", Read}
	Equation       = Source{"equation", "computed from the stated equation", Computed}
)

var battery = []Source{Kim2011, Chen2020, Mohtat2020, Ecker2015, Prada2013, Sunil2025, Sulzer2019, Bode1977, Bernardi,
	Plating, Schmalstieg, PouchTest, PouchDerived, PouchThermal, PulseBat, Cell21700Pulses, Rest21700, SunilDerived,
	LFPSheet, DeviceCharging, Hysteresis, CellSheets, CellSizes, HeatText, CellPractice, AcidPages, AcidMagazine, AcidTextbook, AcidMemory,
	AcidGravity, Owner, CellCurves, Equation}
