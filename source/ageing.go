package source

// Ageing models, the counting of cycles, and the open data the models are
// compared with.
var (
	Naumann = Source{"naumann-2018-2020", "Naumann, Schimpe, Keil, Hesse, Jossen 2018, J. Energy Storage 17, 153-169 (storage), and Naumann, Spingler, " +
		"Jossen 2020, J. Power Sources 451, 227666 (cycling); capacity coefficients as three or more open re-uses print them", SecondHand}
	Wang2011 = Source{"wang-2011", "Wang et al. 2011, J. Power Sources 196, 3942-3948; coefficients as open re-uses print them", SecondHand}
	Wang2014 = Source{"wang-2014", "Wang et al. 2014, J. Power Sources 269, 937-948, calendar term; coefficients as two or three open re-uses print them", SecondHand}
	Xu2018   = Source{"xu-2018", "Xu, Oudalov, Ulbig, Andersson, Kirschen, IEEE Trans. Smart Grid 9(2), 1131-1140, 2018; " +
		"coefficients as two open re-uses print them, kelvin from memory", SecondHand}
	Spiers1996 = Source{"spiers-1996", "Spiers, Rasinkoski 1996, Solar Energy 58, 147-154: life is the lesser of cycle life and corrosion life", Read}
	Keil2016   = Source{"keil-2016", "Keil et al. 2016, J. Electrochem. Soc. 163, A1872: calendar fade in plateaus set by the graphite's stages", Read}
	Rainflow   = Source{"astm-e1049", "ASTM E1049-85, 5.4.4, rainflow counting; the worked sequence computed by its rule, the standard's printed table not seen", Computed}

	AgeingModels = Source{"ageing-models", "the ageing model named; each model's own source, range and error are listed in docs/ageing.md", SecondHand}

	AgeingComparison = Source{"ageing-comparison", "measured over predicted loss in the open data of docs/ageing.md", Derived}
	VehiclePast      = Source{"vehicle-past", "past of a cell from a road vehicle where only years or distance are known: 25 °C, 60 % charge, cycles a third deep", Practice}

	Baumhoefer2014 = Source{"baumhoefer-2014", "Baumhöfer, Brühl, Rothgang, Sauer 2014, J. Power Sources 247, 332-338; open data of 24 equal 18650 cells", Read}
	Zhu2022        = Source{"zhu-2022", "Zhu et al. 2022, Nature Communications 13, 2261; open data, doi 10.5281/zenodo.6379165", Read}
	Preger2020     = Source{"preger-2020", "Preger et al. 2020, J. Electrochem. Soc., doi 10.1149/1945-7111/abae37, figure 2a as two readers digitised it", SecondHand}
	Lam2024        = Source{"lam-2024", "Lam et al. 2024, A decade of insights: delving into calendar aging trends and implications, Joule; fitted parameters", Read}
	Saha2007       = Source{"saha-2007", "Saha, Goebel 2007, battery data set, NASA Ames prognostics data repository, cell B0005", Read}
	He2026         = Source{"he-2026", "He et al. 2026, Resolving inter-cell heterogeneity to mitigate degradation amplification in battery packs; open data, set ESSL1", Read}
)

var ageing = []Source{Naumann, Wang2011, Wang2014, Xu2018, Spiers1996, Keil2016, Rainflow, AgeingModels, AgeingComparison, VehiclePast,
	Baumhoefer2014, Zhu2022, Preger2020, Lam2024, Saha2007, He2026}
