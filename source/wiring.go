package source

// Fuses, contactors, corrections of ampacity and what else a wiring schedule
// rests on. Clauses were read as quoted; the standing says where only a trade
// text quotes them.
var (
	NEC31016 = Source{"nec-310-16", "NFPA 70 (National Electrical Code), table 310.16: not more than three conductors in raceway, cable or earth, " +
		"30 °C, as reprints print it", SecondHand}
	NECAmbient = Source{"nec-310-15-b-1", "NFPA 70 (National Electrical Code), table 310.15(B)(1): factors for other ambient temperatures, " +
		"and the law I2 = I1·√((Tc - Ta2)/(Tc - Ta1)) behind it; with a published example", Read}
	NECTerminals  = Source{"nec-110-14-c", "NFPA 70 (National Electrical Code), 110.14(C): terminals limit the column that may be used", Memory}
	NECContinuous = Source{"nec-210-19", "NFPA 70 (National Electrical Code), 210.19 and 215.2: conductor and device for 125 % of the continuous " +
		"current, with a printed example", Read}
	NEC2406    = Source{"nec-240-6", "NFPA 70 (National Electrical Code), 240.6(A): standard ratings of fuses", Read}
	CFR183455  = Source{"33-cfr-183-455", "33 CFR 183.455, Overcurrent protection: general: 150 % of the ampacity below 50 V, distance from the source", Read}
	FuseSheets = Source{"fuse-classes", "interrupting ratings of fuse classes on dc, from trade texts; those of terminal fuses above 14 V, of midi and of " +
		"blade fuses and the voltage of class T are remembered. Of two figures the lower is used", Memory}
	FuseCurves = Source{"fuse-coordination", "two current-limiting fuses of one class are taken to clear one by one from a ratio of 2 on: a habit of " +
		"makers' tables, for which no published curve was at hand", Practice}
	IEC60364554    = Source{"iec-60364-5-54", "IEC 60364-5-54 and BS 7671: adiabatic limit of conductors and its factors k, with printed examples", Read}
	ISO10133Drop   = Source{"iso-10133-drop", "ISO 10133:2012 annex A, voltage drop formula, in two texts; its 0.0164 is below copper at 20 °C", SecondHand}
	CopperHeat     = Source{"conductor-heat", "heat balance of a conductor: its rise over the air goes with the square of the current, as in NFPA 70's law of ambient", Derived}
	CopperBars     = Source{"copper-bars", "Copper Development Association, ampacities of copper no. 110 bus bars, table 1", Read}
	PreChargeSheet = Source{"pre-charge-example", "published worked example of a resistor maker: 800 V, 47 Ω, 1000 µF", Read}
	PreChargeHabit = Source{"pre-charge-habit", "pulse energy of a resistor with a margin of 2; pre-charge to 95 % in about a second, off within ten; " +
		"5 µF for each watt of an inverter that does not state its capacitors", Practice}
	ContactorSheet = Source{"contactor-life", "data sheet of a sealed 400 A contactor: 50 000 operations at 90 % pre-charge, 50 at 80 %; a polarised one " +
		"breaks 20 times in reverse instead of 5000", Read}
	NEC6908 = Source{"nec-690-8", "NFPA 70 (National Electrical Code), 690.8: 125 % of the short-circuit current, and 125 % of that for conductor and fuse, " +
		"with a published example", Read}
	ArrayFuses       = Source{"array-fuses", "fuses in each of more than two parallel strings when the others exceed a panel's series fuse", Memory}
	ControllerSizing = Source{"controller-sizing", "output of a solar charger: power over bank voltage times 1.25, next size up, with a published example", SecondHand}
	StringLeast      = Source{"string-least", "panels in series give enough voltage on a hot roof: cells 35 K above the air, their voltage at peak power falling " +
		"with the power's coefficient, 2 V above the bank", Practice}
	PadSheet  = Source{"pad-density", "wattage guide of a maker of heating mats for metal plates, with printed examples", Read}
	PadHabit  = Source{"pad-habit", "0.2 W/cm² at most on a plastic-cased cell, a quarter more power than reckoned", Memory}
	WireHabit = Source{"wire-habit", "what is assumed of a run that is not written down: its length, 105 °C insulation, lugs rated 75 °C, air of 30 °C or the " +
		"hottest of the route", Practice}
)

var wiring = []Source{NEC31016, NECAmbient, NECTerminals, NECContinuous, NEC2406, CFR183455, FuseSheets, FuseCurves, IEC60364554, ISO10133Drop,
	CopperHeat, CopperBars, PreChargeSheet, PreChargeHabit, ContactorSheet, NEC6908, ArrayFuses, ControllerSizing, StringLeast, PadSheet, PadHabit, WireHabit}
