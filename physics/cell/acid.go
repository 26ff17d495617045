package cell

import "ampstead/source"

// acidCells are the lead-acid batteries, counted in cells of 2 V.
func acidCells() []recipe {
	return []recipe{
		{"gravity-lead-acid", floodedCell()},
		{"gravity-lead-acid", matCell()},
	}
}

func floodedCell() Cell {
	compensation := known(-0.004, source.AcidPages, "between −3 and −5 mV/K")
	return Cell{
		Name: "lead-acid-flooded", Title: "lead-acid, flooded deep-cycle, one 2 V cell", Family: LeadAcid,
		CurveSource: source.AcidGravity,
		RestDoubtV:  known(0.033, source.AcidMagazine, "at 50 % this table gives 12.10 V for six cells, an automotive one 12.30 V: what is called empty differs"),

		NominalV:   known(2.0, source.AcidMemory, ""),
		MaxV:       known(2.70, source.AcidMemory, "16.2 V for six: above the highest equalise voltage, at 25 °C; moves with temperature compensation. The Sulzer set ends at 2.42 V"),
		MinV:       known(1.75, source.Sulzer2019, "10.5 V for six"),
		DailyHighV: known(2.40, source.AcidPages, "its absorption voltage; it wants to be full"),
		DailyLowV:  known(2.017, source.AcidTextbook, "rest voltage at half charge; half the capacity is left for long life"),
		StorageSoC: known(1.0, source.AcidMemory, "left part charged it sulphates"),
		ChargeRates: Rates{
			Points: []RatePoint{{-20, 0}, {-10, 0.1}, {0, 0.2}, {40, 0.2}, {50, 0}},
			Source: source.AcidMemory,
		},
		DischargeRate: Rates{
			Points: []RatePoint{{-20, 0.2}, {0, 0.5}, {50, 0.5}},
			Source: source.AcidMemory,
			Note:   "at −20 °C a discharged battery freezes",
		},
		ChargeMinC: known(-20, source.AcidMemory, ""),
		ChargeMaxC: known(50, source.AcidMemory, ""),
		AlarmC:     known(50, source.AcidMemory, ""),
		HarmC:      known(60, source.AcidMemory, ""),

		ResistanceOhmAh: known(0.15, source.AcidMemory, "9 mΩ × 100 Ah for six cells"),
		ColdEaJ:         known(10e3, source.AcidMemory, ""),
		WarmEaJ:         known(10e3, source.AcidMemory, ""),
		SlowShare:       known(0.4, source.AcidMemory, ""),
		SlowTauS:        known(20, source.AcidMemory, ""),
		SpecificHeat:    known(1000, source.AcidMemory, ""),
		Acid: &AcidCharge{
			AbsorptionV:       known(2.40, source.AcidPages, "14.4 V for six; 14.4 to 14.8 V is in use (from memory)"),
			FloatV:            known(2.25, source.AcidPages, "13.4 to 13.8 V for six are printed"),
			EqualiseV:         known(2.50, source.AcidPages, "15.0 V for six, 2 h at most; 15.5 to 16.2 V is in use (from memory)"),
			CompensationVPerK: compensation,
		},
	}
}

func matCell() Cell {
	c := floodedCell()
	c.Name, c.Title = "lead-acid-agm", "lead-acid, absorbed glass mat, one 2 V cell"
	c.RestDoubtV.Note += "; a glass mat battery rests somewhat higher than the flooded one of the table (from memory)"
	c.MaxV = known(2.45, source.AcidMemory, "14.7 V for six, at 25 °C; moves with temperature compensation. The Sulzer set ends at 2.42 V")
	c.DailyHighV = known(2.40, source.AcidMemory, "its absorption voltage; it wants to be full")
	c.ResistanceOhmAh = known(0.10, source.AcidMemory, "6 mΩ × 100 Ah for six cells")
	c.SpecificHeat = known(800, source.AcidMemory, "")
	c.Acid = &AcidCharge{
		AbsorptionV:       known(2.40, source.AcidMemory, "14.4 to 14.7 V for six"),
		FloatV:            known(2.25, source.AcidPages, "13.5 to 13.6 V for six"),
		EqualiseV:         known(0, source.AcidMemory, "none; 15 V only by its maker's leave"),
		CompensationVPerK: c.Acid.CompensationVPerK,
	}
	return c
}
