package cell

import "ampstead/source"

// ironCells are the iron-phosphate cells. The plain name goes to the measured
// curve: it is one real cell, while the other set joins electrodes of three
// papers.
func ironCells() []recipe {
	return []recipe{
		{"sunil-2025-lfp-18650", ironCell("lfp", "iron-phosphate, curve measured on a 1.2 Ah 18650", source.Sunil2025)},
		{"prada-2013-lfp", ironCell("lfp-prada", "iron-phosphate, 2.3 Ah 26650, curve from half-cell equations", source.Prada2013)},
	}
}

func ironCell(name, title string, curve source.Source) Cell {
	c := nickelBase()
	c.Name, c.Title, c.Family = name, title, LFP
	c.CurveSource = curve
	c.RestDoubtV = known(0.020, source.Hysteresis, "the curve is the mean of charge and discharge")
	c.NominalV = known(3.2, source.CellSheets, "")
	c.MaxV = known(3.60, source.Prada2013, "sheets say 3.65 V (from memory); the cautious side is taken")
	c.MinV = known(2.5, source.CellSheets, "measured and computed curves go to 2.0 V; the cautious side is taken")
	c.DailyHighV = known(3.45, source.CellPractice, "practically full at rest")
	c.DailyLowV = known(3.0, source.CellPractice, "leaves out the steep end of the curve, where groups drift apart")
	c.ChargeRates.Source = source.LFPSheet
	c.ChargeRates.Note = "0 to 15 °C 0.2C, 15 to 45 °C 0.5C; between 45 and 50 °C slowed, as device handbooks do"
	c.DischargeRate.Source = source.LFPSheet
	c.DischargeRate.Note = "−20 to 0 °C 0.2C, 0 to 60 °C 1C"
	c.ResistanceOhmAh = known(0.100, source.PulseBat, "28 retired 35 Ah prismatic cells, median 2.85 mΩ after 5 s at half charge; 10 s reads a little more")
	c.ColdEaJ.Note = "from a manganese-blend pouch; an iron-phosphate set prints 40 kJ/mol for its electrode, so expect worse in the cold"
	c.SlowShare.Note = "from a manganese-blend pouch: " + slowHow
	c.SpecificHeat = known(1130, source.HeatText, "")
	c.FlatFrom, c.FlatTo = 0.30, 0.97
	c.ChargeMinC = known(0, source.LFPSheet, "charging below 0 °C prohibited")
	return c
}
