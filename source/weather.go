package source

// Climate, synthetic weather and the formats of weather files.
var (
	ClimateGHI = Source{"nasa-sse-6", "NASA Surface meteorology and Solar Energy (SSE), release 6.0 of 12 March 2008: insolation on a horizontal " +
		"surface, monthly means July 1983 to June 2005, cells of 1°; US Government work, public domain", Read}
	ClimateTemperature = Source{"ncep-ncar-1", "NCEP-NCAR Reanalysis 1, monthly long-term mean air temperature at sigma 0.995, 1981 to 2010, 2.5° nodes, " +
		"NOAA Physical Sciences Laboratory; US Government data, public domain", Read}
	Terrain = Source{"terrain-mosaic", "open terrain tiles at 1/12°, made from ETOPO1 (NOAA), GMTED2010, SRTM and 3DEP (USGS), ArcticDEM " +
		"(NSF awards 1043681, 1559691, 1542736), EU-DEM (Copernicus), Geoscience Australia, Open Government Licence Canada, INEGI, " +
		"Land Information New Zealand, Kartverket, UK Environment Agency and offene Daten Österreichs; steps of 28 m", Read}
	StationList = Source{"station-list", "names and positions of weather stations: US National Weather Service list (public domain) and a public-domain " +
		"list of airports, as a free software package carries them (ISC licence)", Read}
	LapseRate = Source{"standard-lapse", "6.5 K per km, the troposphere of the standard atmosphere (ISO 2533)", Memory}
	FAO56     = Source{"fao-56-50", "Allen, R. G. et al., FAO Irrigation and Drainage Paper 56 (1998), equation 50 after Hargreaves and Samani: " +
		"0.16 inland, 0.19 at coasts", Memory}
	TemperatureRule = Source{"temperature-rule", "day-to-day spread of temperature and how the daily range follows the day's sun, fitted here to six hourly " +
		"station files; persistence 0.7", Derived}
	SpreadRule = Source{"spread-rule", "spread of a month's mean between years: that of the mean of as many days with the published day-to-day spread " +
		"and persistence", Derived}
	ClimateDoubt = Source{"climate-doubt", "how far the climate table is off at six stations: about 7 % in irradiation, 2 K in temperature", Derived}
	Aguiar1988   = Source{"aguiar-1988", "Aguiar, R. J., Collares-Pereira, M. and Conde, J. P., Simple procedure for generating sequences of daily radiation values " +
		"using a library of Markov transition matrices, Solar Energy 40 (1988) 269-279, digits from one implementation", SecondHand}
	Aguiar1992 = Source{"aguiar-1992", "Aguiar, R. and Collares-Pereira, M., TAG: a time-dependent, autoregressive, Gaussian model for generating synthetic " +
		"hourly radiation, Solar Energy 49 (1992) 167-174, coefficients from one implementation; the scale of its noise from memory", SecondHand}
	Erbs1983 = Source{"erbs-1983", "Erbs, D. G., Klein, S. A. and Beckman, W. A., Estimation of degree-days and ambient temperature bin data from " +
		"monthly-average temperatures, ASHRAE Journal 25(6) (1983): the mean course of the day", Memory}
	WithinHour = Source{"weather-within-hour", "sunny and dull spells inside the hour that keep its means", Derived}
	CalmWind   = Source{"assumed-wind", "a steady wind of 3 m/s at 10 m, a little below the 3 to 5 m/s of five station files, where no wind is known", Practice}
	TMY3Manual = Source{"tmy3", "Wilcox, S. and Marion, W., Users manual for TMY3 data sets, NREL/TP-581-43156 (2008)", SecondHand}
	TMY2Manual = Source{"tmy2", "Marion, W. and Urban, K., User's manual for TMY2s (1995)", SecondHand}
	EPWFormat  = Source{"epw", "hourly weather file in the format of the US Department of Energy (EPW)", SecondHand}
	PVGIS      = Source{"pvgis", "PVGIS, © European Union: typical year or hourly series", SecondHand}
	NSRDB      = Source{"nsrdb", "National Solar Radiation Database, hourly file", SecondHand}
	SURFRAD    = Source{"surfrad", "NOAA Surface Radiation budget network, minutes of one day", SecondHand}
	Targets    = Source{"station-months", "monthly statistics measured in six hourly station files", Computed}
)

var weathers = []Source{ClimateGHI, ClimateTemperature, Terrain, StationList, LapseRate, FAO56, TemperatureRule, SpreadRule, ClimateDoubt,
	Aguiar1988, Aguiar1992, Erbs1983, WithinHour, CalmWind, TMY3Manual, TMY2Manual, EPWFormat, PVGIS, NSRDB, SURFRAD, Targets}
