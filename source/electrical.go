package source

// Conductors and short-circuit current. Standards were read through reprints;
// where only the figure and not the clause was seen, the standing says so.
var (
	ASTMB258 = Source{"astm-b258", "ASTM B258-02, Standard nominal diameters and cross-sectional areas of AWG sizes " +
		"of solid round wires used as electrical conductors", Read}
	CopperIACS  = Source{"copper-iacs", "International Annealed Copper Standard, 0.017241 Ω·mm²/m at 20 °C", Read}
	CopperSlope = Source{"copper-slope", "Temperature coefficient of copper, 0.00393 per K at 20 °C; agrees with the 0.00323 per K " +
		"at 75 °C of NFPA 70, chapter 9, table 8", Memory}
	NECTable8 = Source{"nec-ch9-t8", "NFPA 70 (National Electrical Code), chapter 9, table 8: conductor properties, " +
		"as two reprints that agree print it", SecondHand}
	IEC60228 = Source{"iec-60228-2004", "IEC 60228:2004, Conductors of insulated cables, table 3 (class 5, plain), " +
		"in two reprints that agree", Read}
	SAEAreas  = Source{"sae-areas", "minimum conductor areas of SAE gauges, as a marine cable table prints them", Read}
	CFR183425 = Source{"33-cfr-183-425", "33 CFR 183.425, Conductors: general, table 5 and notes", Read}
	NECBundle = Source{"nec-310-15-c-1", "NFPA 70 (National Electrical Code), table 310.15(C)(1): " +
		"more than three current-carrying conductors", Read}
	EngineFactors = Source{"engine-factors", "factors of 33 CFR 183.425 for 50 °C: 0.85 at 105 °C read there; 60, 75 and 90 °C as NFPA 70; " +
		"80, 125 and 200 °C from memory", Memory}
	ISO10133 = Source{"iso-10133-a", "ISO 10133 and ISO 13297, annex A, ampacity by mm²; a printed extract contradicts it " +
		"and is not used, because it is higher", Memory}
	ABYCDrop = Source{"abyc-e-11-drop", "ABYC E-11, voltage drop formula with 10.75 Ω·cmil/ft and worked example, " +
		"as a reprint for boat builders gives them", SecondHand}
	ConductorTables = Source{"conductor-tables", "ASTM B258 and IEC 60228 (read), NFPA 70 chapter 9 table 8 (second hand), copper coefficient " +
		"0.00393 per K (from memory), 33 CFR 183.425 (read), ISO 10133 annex A for mm² sizes (from memory)", SecondHand}
	ShortCircuitExample = Source{"short-circuit-example", "published worked examples of the short-circuit current of battery cells", Read}
)

var electrical = []Source{ASTMB258, CopperIACS, CopperSlope, NECTable8, IEC60228, SAEAreas, CFR183425, NECBundle,
	EngineFactors, ISO10133, ABYCDrop, ConductorTables, ShortCircuitExample}
