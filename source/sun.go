package source

// Sun, sky, panels and converters. What was read through open implementations
// that agree, and not in the paper, is second hand.
var (
	RedaAndreas = Source{"reda-andreas-2008", "Reda, I. and Andreas, A., Solar position algorithm for solar radiation applications, " +
		"Solar Energy 76 (2004) 577-589; NREL/TP-560-34302, revised 2008, with worked example", SecondHand}
	DeltaTPolynomial = Source{"espenak-meeus-2006", "Espenak, F. and Meeus, J., polynomial expressions for delta T", SecondHand}
	SunTables        = Source{"sun-tables", "tables of inputs and outputs of the published models, computed with an independent open program", Computed}
	Spencer1971      = Source{"spencer-1971", "Spencer, J. W., Fourier series representation of the position of the sun, Search 2 (1971) 172", SecondHand}
	DuffieBeckman    = Source{"duffie-beckman", "Duffie, J. A. and Beckman, W. A., Solar Engineering of Thermal Processes, 4th edition, " +
		"sections 1.5 to 1.10, with Cooper 1969; the book's answers are remembered, the values recomputed", Computed}
	AlmanacRise = Source{"usno-2015", "US Naval Observatory, sunrise and sunset of 2015 to the minute", SecondHand}
	KastenYoung = Source{"kasten-young-1989", "Kasten, F. and Young, A. T., Revised optical air mass tables and approximation formula, " +
		"Applied Optics 28 (1989) 4735-4738", SecondHand}
	Haurwitz1945    = Source{"haurwitz-1945", "Haurwitz, B., Insolation in relation to cloudiness and cloud density, Journal of Meteorology 2 (1945) and 3 (1946)", SecondHand}
	IneichenPerez   = Source{"ineichen-perez-2002", "Ineichen, P. and Perez, R., A new airmass independent formulation for the Linke turbidity coefficient, Solar Energy 73 (2002) 151-157", SecondHand}
	Turbidities     = Source{"turbidity-values", "working values of Linke's turbidity by kind of air", Memory}
	Erbs1982        = Source{"erbs-1982", "Erbs, D. G., Klein, S. A. and Duffie, J. A., Estimation of the diffuse radiation fraction for hourly, daily and monthly-average global radiation, Solar Energy 28 (1982) 293-302", SecondHand}
	ErbsDaily       = Source{"erbs-1982-daily", "the daily and monthly forms of Erbs, Klein & Duffie 1982", Memory}
	Perez1990       = Source{"perez-1990", "Perez, R., Ineichen, P., Seals, R., Michalsky, J. and Stewart, R., Modeling daylight availability and irradiance components from direct and global irradiance, Solar Energy 44 (1990) 271-289", SecondHand}
	SkyModels       = Source{"sky-models", "Liu & Jordan 1963; Hay & Davies 1980; Reindl, Beckman & Duffie 1990; Perez et al. 1990", SecondHand}
	GlassModels     = Source{"glass-models", "De Soto, Klein & Beckman 2006 (Snell and absorption); Martin & Ruiz 2001; ASHRAE 93; diffuse light by integration as Marion 2017", SecondHand}
	Faiman2008      = Source{"faiman-2008", "Faiman, D., Assessing the outdoor operating temperature of photovoltaic modules, Progress in Photovoltaics 16 (2008) 307-315", SecondHand}
	King2004        = Source{"king-2004", "King, D. L., Boyson, W. E. and Kratochvil, J. A., Photovoltaic array performance model, SAND2004-3535", SecondHand}
	CellTemperature = Source{"cell-temperature", "Faiman 2008; King et al. 2004 (SAND2004-3535); Ross 1980; heat balance with absorptance 0.9", SecondHand}
	Dobos2014       = Source{"dobos-2014", "Dobos, A. P., PVWatts version 5 manual, NREL/TP-6A20-62641 (2014)", SecondHand}
	NEC6907         = Source{"nec-690-7", "NFPA 70 (National Electrical Code), 690.7(A) and table 690.7(A), as two reprints that agree print it, with worked example", SecondHand}
	King2007        = Source{"king-2007", "King, D. L., Gonzalez, S., Galbraith, G. M. and Boyson, W. E., Performance model for grid-connected photovoltaic inverters, SAND2007-5036", SecondHand}
	InverterWeights = Source{"inverter-weights", "weights of the California Energy Commission and of the European efficiency, as the Sandia inverter test guideline of 2005 quotes them", SecondHand}
	ConverterLoss   = Source{"converter-loss", "usual form of a converter's losses: standing, in proportion, and with the square of the load", Memory}
	ControllerRule  = Source{"controller-limits", "energy balance of a charge controller at the limits on its data sheet", Derived}
)

var sunAndPanels = []Source{RedaAndreas, DeltaTPolynomial, SunTables, Spencer1971, DuffieBeckman, AlmanacRise, KastenYoung, Haurwitz1945,
	IneichenPerez, Turbidities, Erbs1982, ErbsDaily, Perez1990, SkyModels, GlassModels, Faiman2008, King2004, CellTemperature, Dobos2014,
	NEC6907, King2007, InverterWeights, ConverterLoss, ControllerRule}
