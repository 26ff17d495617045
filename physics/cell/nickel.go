package cell

import "ampstead/source"

func known(v float64, s source.Source, note string) Known { return Known{v, s, note} }

// nickelCells are the cells with a nickel or manganese positive electrode.
func nickelCells() []recipe {
	return []recipe{
		{"kim-2011-nca", ncaCell()},
		{"mohtat-2020-nmc532", nmc532Cell()},
		{"chen-2020-nmc811", nmc811Cell("nmc811", "nickel-manganese-cobalt 811 with silicon in the graphite, 21700", source.Chen2020)},
		{"sunil-2025-nmc811-21700", measured811Cell()},
		{"sunil-2025-nickel-rich-18650", powerCell("nickel-rich-18650", "nickel-rich 18650 power cell, 2.8 Ah, measured curve", 0.052)},
		{"sunil-2025-nickel-rich-21700-a", powerCell("nickel-rich-21700-a", "nickel-rich 21700 power cell, 4.2 Ah, measured curve", 0.078)},
		{"sunil-2025-nickel-rich-21700-b", powerCell("nickel-rich-21700-b", "nickel-rich 21700 power cell, 4.0 Ah, measured curve", 0.074)},
		{"ecker-2015-nco", ncoCell()},
		{"pouch-test-lmo-blend", lmoCell()},
	}
}

// nickelBase is what the nickel cells share: limits that are the strictest of the
// sources, currents and temperatures.
func nickelBase() Cell {
	c := Cell{
		RestDoubtV: known(0.030, source.Rest21700, "curves from equations: the 811 set lies 32 mV from an independent measurement of its cell on average, 91 mV at 5 % charge"),

		MinV:       known(3.0, source.CellPractice, "automotive habit; sets and sheets go lower, the cautious side is taken"),
		DailyHighV: known(4.10, source.CellPractice, "about a tenth of the charge is left out at the top, where calendar ageing is fastest"),
		DailyLowV:  known(3.40, source.CellPractice, "leaves out the steep end of the curve, where groups drift apart, and leaves room for sag under load"),
		StorageSoC: known(0.40, source.CellSheets, "30 to 50 %, at 0 to 25 °C"),
		ChargeRates: Rates{
			Points: []RatePoint{{0, 0}, {1, 0.2}, {15, 0.2}, {16, 0.5}, {45, 0.5}, {50, 0}},
			Source: source.CellPractice,
			Note: "shape of the iron-phosphate sheet (0.2C to 15 °C, 0.5C to 45 °C) taken for nickel cells too, " +
				"for plating dominates ageing in the cold (Feinauer et al. 2024); between 45 and 50 °C slowed, as device handbooks do",
		},
		DischargeRate: Rates{
			Points: []RatePoint{{-20, 0.2}, {0, 0.2}, {1, 1}, {60, 1}},
			Source: source.CellPractice,
			Note:   "one iron-phosphate sheet's limits taken for nickel cells too; new cells of vehicles take more, with cooling",
		},

		ColdEaJ:      known(21e3, source.PouchDerived, "10 s readings of one manganese-blend pouch between 10 and 25 °C; the electrode processes of parameter sets run from 17 to 40 kJ/mol, so expect worse well below 0 °C"),
		WarmEaJ:      known(4e3, source.PouchDerived, "between 25 and 40 °C; a difference between the cells measured cannot be excluded"),
		SlowShare:    known(0.271, source.PouchDerived, slowHow),
		SlowTauS:     known(20, source.PouchDerived, "as the slow share"),
		SpecificHeat: known(1040, source.HeatText, "cell at 50 % charge, ± 34"),
	}
	warmth(&c, source.DeviceCharging)
	return c
}

// slowHow says how the two branches were found; the test repeats it.
const slowHow = "R(t) = R0 + R1(1 − e^(−t/τ)) through the mean 1, 10 and 30 s resistances of the pouch at 25 °C, " +
	"1.562, 2.048 and 2.586 mΩ; 10 and 40 °C give the same time constant within 1 s"

// warmth sets the temperature marks all lithium cells share.
func warmth(c *Cell, frost source.Source) {
	c.ChargeMinC = known(0, frost, "charging below 0 °C plates lithium")
	c.ChargeMaxC = known(50, source.DeviceCharging, "the rate falls from 45 °C, where cell sheets end; one handbook stops at 40 °C already")
	c.AlarmC = known(55, source.CellPractice, "")
	c.HarmC = known(60, source.CellPractice, "one iron-phosphate sheet allows a case of 60 °C in charge, 70 °C in discharge")
}

func ncaCell() Cell {
	c := nickelBase()
	c.Name, c.Family = "nca", NCA
	c.Title = "nickel-cobalt-aluminium, 18650 as in vehicle modules"
	c.CurveSource = source.Kim2011
	c.NominalV = known(3.6, source.CellSheets, "")
	c.MaxV = known(4.20, source.Kim2011, "")
	c.DailyLowV = known(3.25, source.CellPractice, "about 10 % charge on this curve, which lies lower than other nickel cells'; below, groups drift apart")
	c.MinV.Note = "automotive habit; the parameter set goes to 2.7 V, energy-cell sheets to 2.5 V (from memory); the cautious side is taken"
	c.ResistanceOhmAh = known(0.135, source.CellSizes, "45 mΩ × 3.0 Ah, the middle of 30 to 60 mΩ for an 18650 energy cell")
	c.SpecificHeat = known(835, source.HeatText, "18650 at 50 % charge; 825 empty, 848 full")
	return c
}

func nmc532Cell() Cell {
	c := nickelBase()
	c.Name, c.Family = "nmc532", NMC
	c.Title = "nickel-manganese-cobalt 532, prismatic or pouch"
	c.CurveSource = source.Mohtat2020
	c.NominalV = known(3.7, source.CellSheets, "3.65 to 3.7 V class")
	c.MaxV = known(4.20, source.Mohtat2020, "")
	c.MinV.Note = "automotive habit; the parameter set goes to 2.8 V; the cautious side is taken"
	c.ResistanceOhmAh = known(0.062, source.PouchDerived, "an automotive pouch of manganese blend, 2.05 mΩ × 30.5 Ah; retired 21 Ah nickel pouches show 0.054 Ω·Ah at 5 s (Tao et al. 2024)")
	return c
}

func nmc811Cell(name, title string, curve source.Source) Cell {
	c := nickelBase()
	c.Name, c.Title, c.Family = name, title, NMC
	c.CurveSource = curve
	c.NominalV = known(3.65, source.CellSheets, "3.65 to 3.7 V class")
	c.MaxV = known(4.20, source.Chen2020, "")
	c.MinV.Note = "automotive habit; the parameter set goes to 2.5 V; the cautious side is taken"
	c.ResistanceOhmAh = known(0.170, source.Cell21700Pulses, "three cells, 50 % charge, 36.2, 34.0 and 31.6 mΩ × 5 Ah; sheets say 20 to 30 mΩ (from memory)")
	return c
}

func measured811Cell() Cell {
	c := nmc811Cell("nmc811-21700", "nickel-manganese-cobalt 811, 5 Ah 21700, measured curve", source.Sunil2025)
	c.RestDoubtV = known(0.015, source.Rest21700, "an independent measurement of the same kind of cell lies 13 mV away on average, 39 mV at 5 % charge")
	return c
}

func powerCell(name, title string, ohmAh float64) Cell {
	c := nickelBase()
	c.Name, c.Title, c.Family = name, title, NCA
	c.CurveSource = source.Sunil2025
	c.NominalV = known(3.6, source.CellSheets, "that it belongs to the aluminium class is from memory")
	c.MaxV = known(4.20, source.Sunil2025, "")
	c.MinV.Note = "automotive habit; measured down to 2.7 or 2.5 V; the cautious side is taken"
	c.RestDoubtV = known(0.010, source.SunilDerived, "the three measured nickel-rich cells lie within 15 mV of one another between 20 and 95 % charge, within 25 mV near empty")
	c.ResistanceOhmAh = known(ohmAh, source.CellSizes, "18.5 mΩ × its capacity, the middle of 12 to 25 mΩ for a power cell")
	c.SpecificHeat = known(835, source.HeatText, "18650 at 50 % charge; 825 empty, 848 full")
	return c
}

func ncoCell() Cell {
	c := nickelBase()
	c.Name, c.Family = "nco-pouch", NMC
	c.Title = "nickel-cobalt 40/60, 7.5 Ah pouch; the rules of nickel-manganese-cobalt are used"
	c.CurveSource = source.Ecker2015
	c.NominalV = known(3.7, source.CellSheets, "3.65 to 3.7 V class")
	c.MaxV = known(4.20, source.Ecker2015, "")
	c.MinV.Note = "automotive habit; the parameter set goes to 2.5 V; the cautious side is taken"
	c.ResistanceOhmAh = known(0.062, source.PouchDerived, "an automotive pouch of manganese blend, 2.05 mΩ × 30.5 Ah")
	return c
}

func lmoCell() Cell {
	c := nickelBase()
	c.Name, c.Family = "lmo-blend-pouch", LMO
	c.Title = "manganese-rich blend, 33 Ah automotive pouch (that it is a manganese blend is from memory)"
	c.CurveSource = source.PouchDerived
	c.RestDoubtV = known(0.010, source.PouchDerived, "between the ten rests measured; the voltage still moved 10 to 30 mV between the first minute of rest and one hour")
	c.NominalV = known(3.75, source.CellSheets, "3.75 to 3.8 V class")
	c.MaxV = known(4.20, source.PouchTest, "limit of the test")
	c.MinV = known(3.0, source.PouchTest, "limit of the test")
	c.DailyLowV = known(3.50, source.CellPractice, "this curve lies higher than other nickel cells': 3.50 V is about 6 % charge")
	c.ResistanceOhmAh = known(0.062, source.PouchDerived, "2.05 mΩ × 30.5 Ah, mean of 25 to 95 % charge")
	c.SpecificHeat = known(900, source.PouchThermal, "fitted to a module; the same library's 1600 for its single cell conflicts with it and is not used")
	return c
}
