package working

// bankSteps are what every simulation of the bank shares.
var bankSteps = []Step{
	{"Each cell group: its rest voltage at its charge, its resistance at its temperature, and the slow part that follows a change of current.",
		[]string{"rest-voltage", "resistance-at", "rc-relaxation"}},
	{"The groups stand in series and share the current; each has its own capacity, charge and leak. Heat of the current, the heater and the box give the temperature of the bank.",
		[]string{"cell-heat", "heat-loss"}},
	{"The devices watch what they would measure and act with their hysteresis, delays and limits; charging ends, locks and starts again as they are set.",
		[]string{"charge-limit", "converter-draw"}},
}

var bankAccuracy = []Accuracy{
	{"Rest voltage: within 10 mV at the points of the published curves; a record of another make of cell lies 13 to 32 mV off on average.", "accuracy.md", []string{"within 10 mV", "13 to 32 mV"}},
	{"The energy books of a simulation close to 2e-13 of what moved at worst.", "accuracy.md", []string{"2e-13 of what moved"}},
}

// Year is how travel reckons a year on the road.
var Year = Chain{
	Key: "year", Title: "How the year is reckoned",
	Steps: append([]Step{
		{"Where the sun stands, minute by minute, at each stay of the route, and how strong it is without clouds.", []string{"sun-position", "clear-sky"}},
		{"How much of it the weather leaves: from your hourly file, or from years drawn from the climate of each place.", []string{"monthly-climate", "temperature-range", "diffuse-share"}},
		{"How much falls on the tilted panel and through its glass, how warm the panel gets and what it gives.", []string{"plane-irradiance", "incidence-loss", "cell-temperature", "panel-power"}},
		{"What the charger passes on to the bank.", []string{"controller-output"}},
		{"What the appliances ask for, by the habits in the file, and what converters and inverters draw for it.", []string{"converter-draw", "inverter-part-load"}},
	}, bankSteps...),
	Assumed: []string{
		"Habits repeat as the file says; nobody saves power when the bank runs low.",
		"Every device does exactly as it is set, at its nominal value.",
		"The bank is one lump of heat; a cold corner is colder.",
	},
	Found: append([]Accuracy{
		{"Sun: 0.0014° at worst; plane, glass, temperature and power of a panel agree with reference tables to 1 in 10 million, glass for ground light to 1.3 %.", "accuracy.md", []string{"0.0014°", "1 in 10 million; glass for ground light 1.3 %"}},
		{"A year on a tilted plane from an hourly file: 0.55 % at worst through the minutes of a year.", "accuracy.md", []string{"0.55 % at worst"}},
		{"Climate table against station files: +1.5 % of sun on average, 9.9 % r.m.s. by month; temperature 1.3 to 3.6 K r.m.s. by climate. Allow for 7 % of the sun and 2 K.", "accuracy.md", []string{"+1.5 % of sun on average, 9.9 % r.m.s. by month", "1.3 to 3.6 K r.m.s."}},
		{"Longer steps where nothing is near a threshold: 0.04 % of the sun caught and 0.5 % of the energy not served, against single minutes.", "accuracy.md", []string{"0.04 % in sun caught and 0.5 % in energy not served"}},
	}, bankAccuracy...),
}

// Settings is how fit works out windows, layers and settings.
var Settings = Chain{
	Key: "settings", Title: "How the settings are reckoned",
	Steps: []Step{
		{"What one cell bears is looked up, or given by you where that is stricter.", []string{"cell-limits", "acid-charging"}},
		{"The bank is so many of them in series; between two voltages lies so much charge and energy.", []string{"series-span", "window-energy"}},
		{"From harm inwards each device is set as far out as its tolerance, the spread between groups, its delay and the drop of its cable allow.", []string{"layer-setting", "layer-band", "weak-group", "delay-drift", "voltage-drop"}},
		{"Where something starts again, clear of what the voltage springs back by.", []string{"restart-voltage", "hysteresis"}},
		{"Currents by what the cells take and give; marks of temperature from the frost limit up.", []string{"charge-limit", "discharge-limit", "charge-share", "bank-draw", "frost-lock", "heater-marks", "hot-stop"}},
		{"What no law gives is a habit of the trade, and says so.", []string{"tail-current", "acid-tail", "setting-time", "storage-voltage", "spread-alarm"}},
		{"How much faster a cell ages at rest when it is fuller.", []string{"calendar-stress"}},
	},
	Assumed: []string{
		"A device that does not state its accuracy is off by 1 % of a bank's voltage, 10 mV of a cell's, 2 K; groups that were not measured stand 30 mV apart near full and 60 mV near empty.",
		"Every error is against you at once: the worst case decides; the likely column is for judgement.",
	},
	Found: []Accuracy{
		{"Rest voltage: within 10 mV at the points of the published curves; a record of another make of cell lies 13 to 32 mV off on average.", "accuracy.md", []string{"within 10 mV", "13 to 32 mV"}},
		{"The staging of layers was derived here: no published standard was found. The drills play them with faults.", "accuracy.md", nil},
	},
}

// Wiring is how wire sizes conductors and protection.
var Wiring = Chain{
	Key: "wiring", Title: "How the wiring is reckoned",
	Steps: []Step{
		{"The largest current of each run for long, from the devices' ratings at the lowest voltage they work at.", []string{"input-current", "panel-current", "controller-current"}},
		{"What a conductor carries, by its insulation, place, bundle and the heat around it; a quarter more than the current is asked for.", []string{"conductor", "ambient-factor", "conductor-temperature", "bus-bar"}},
		{"What is lost on the way, by the exact resistance and by the trade's formula.", []string{"voltage-drop", "voltage-drop-iso", "conductor-for-drop"}},
		{"The fuse: a quarter above the current, below what the conductor bears; what a dead short drives, and whether fuse and conductor bear it.", []string{"fuse-size", "fuse-interrupt", "short-circuit", "thermal-withstand", "withstand-time"}},
		{"Filling the capacitors before the contactor closes.", []string{"pre-charge", "pre-charge-time", "closing-current"}},
		{"The strings of panels on the coldest morning; the heating pad on its area.", []string{"panel-cold-voltage", "panels-in-series", "pad-density"}},
	},
	Assumed: []string{
		"A run the file does not have is proposed with a length assumed; insulation 105 °C and lugs 75 °C where it does not say.",
		"A short is reckoned full, warm and with new cells, through cold cables.",
	},
	Found: []Accuracy{
		{"Resistance of conductors: within the rounding of the printed tables of two codes, every worked example to its printed digits.", "accuracy.md", []string{"within the tables' rounding", "every worked example to its printed digits"}},
	},
}

// Faults is how drill plays faults.
var Faults = Chain{
	Key: "faults", Title: "How the drills are reckoned",
	Steps: append([]Step{
		{"A scene of use sets charge, temperature, sun, mains and demand at the start.", []string{"sun-position", "plane-irradiance", "panel-power"}},
		{"One fault, or two, are put in: a sensor, a contact, a charger, a link of a cell does as its fault says.", nil},
	}, append(bankSteps, Step{"The run ends in harm when a cell leaves its limits; near is closer to them than the tolerance of the last layer. A second is one step wherever something is near a threshold.",
		[]string{"cell-limits", "layer-band"}})...),
	Assumed: []string{
		"Devices stand at their nominal settings; how far each may drift is tried apart, in the margins.",
		"Faults happen at the start of a scene; let-through of fuses, contact bounce and surges shorter than a second are not played.",
		"Nobody acts, unless the scene says that somebody is there.",
	},
	Found: append([]Accuracy{
		{"Half the time step changes no verdict of a sample of drills.", "accuracy.md", []string{"Half the time step changes no verdict of a sample of drills"}},
		{"There is no published record of such faults in such rigs to compare with.", "accuracy.md", nil},
	}, bankAccuracy...),
}

// Years is how life looks ahead.
var Years = Chain{
	Key: "years", Title: "How the years ahead are reckoned",
	Steps: append([]Step{
		{"A year on the road tells, month by month, how warm and how full the bank stands and what it is asked for.", nil},
		{"Its swings of charge are counted as cycles.", []string{"cycle-count"}},
		{"The ageing model of the cell turns warmth, charge and cycles into loss of capacity and growth of resistance.", []string{"ageing"}},
		{"The faded bank lives the next years, until too little is left, or until it no longer carries the rig through its worst month.", nil},
	}, Year.Steps...),
	Assumed: []string{
		"Every year is like the one reckoned: the same route, the same habits.",
		"Cells age alike; a group that fails by itself is not foreseen.",
	},
	Found: append([]Accuracy{
		{"Ageing models held against cells they were not made from: 5.8 points r.m.s. for manganese-cobalt cycling, 4.8 and 3.0 for cobalt-aluminium cycling and storage, 6.5 and 2.2 for iron-phosphate; the range shown is what that comparison asks for.", "accuracy.md", []string{"5.8 points for manganese-cobalt cycling, 4.8 and 3.0 for cobalt-aluminium cycling and storage, 6.5 and 2.2 for iron-phosphate"}},
		{"One large iron-phosphate cell lost nearly four times what any model says.", "accuracy.md", []string{"one large iron-phosphate cell lost nearly four times what any model says"}},
	}, Year.Found...),
}

// Compare is how choose compares batteries and searches.
var Compare = Chain{
	Key: "compare", Title: "How the batteries are compared",
	Steps: append([]Step{
		{"Each battery is put in place of the rig's own and its settings are worked out again; usable energy lies between its daily limits.", []string{"window-energy", "cell-limits", "layer-setting"}},
		{"A used battery holds what was measured of it, else what its age and distance leave by the ageing model, with a wide band.", []string{"ageing"}},
		{"Price, mass and volume are the file's; what is fetched or exchanged counts.", nil},
		{"What to ask and measure at the seller's: the limits of the cell, and the written thresholds by which used modules are graded.", []string{"cell-limits", "step-resistance"}},
	}, Years.Steps...),
	Assumed: append([]string{"A seller's word on age and distance is taken as it stands."}, Years.Assumed...),
	Found: append([]Accuracy{
		{"The search's brisk year stays within a tenth, or 30 hours short, of the year by the minute; the designs shown are reckoned again by the minute.", "accuracy.md", []string{"brisk year stays within a tenth or 30 hours short of the year by the minute"}},
	}, Years.Found...),
}

// Bench is how prove reads a log of a test.
var Bench = Chain{
	Key: "bench", Title: "How the log is read",
	Steps: []Step{
		{"The log is cut into rests, discharges, charges, holds and pulses by its current.", nil},
		{"Charge is the current added up over time, with the error of the meter's zero, gain and steps.", []string{"capacity-pair"}},
		{"Resistance is the step of voltage over the step of current.", []string{"step-resistance"}},
		{"The voltages of groups at rest and at the end are held against the cell's rest curve: where each stands, what it holds, what balancing would bring back.", []string{"soc-from-rest", "balance-bleed", "rest-voltage"}},
		{"How a rest voltage sinks over the days tells a leak.", []string{"leak-from-rest"}},
		{"The grade compares these with written thresholds.", nil},
	},
	Assumed: []string{"The log is right within the meter's stated or assumed error.", "Damage that electrical tests do not show stays unseen."},
	Found: []Accuracy{
		{"Capacity against the published values of open records: 0.05 % (six cycles at C/15), 0.01 % (28 discharges), 0.33 % worst of 119 charges.", "accuracy.md", []string{"0.05 % (six cycles at C/15), 0.01 % (28 discharges), 0.33 % worst of 119 charges"}},
		{"Resistance: 15 pulses within 3 %.", "accuracy.md", []string{"15 pulses within 3 %"}},
	},
}

// Log is how keep reads the logbook.
var Log = Chain{
	Key: "log", Title: "How the readings are reckoned",
	Steps: []Step{
		{"Each group's rest voltage tells its charge by the cell's curve; readings too soon after a load, or on a flat part of the curve, weigh less.", []string{"soc-from-rest", "rc-relaxation"}},
		{"Against the median of all groups at like conditions, a slope in time is a leak, and a step a change.", []string{"leak-from-rest"}},
		{"What to bleed or add follows from where the groups stand.", []string{"balance-bleed"}},
		{"Charge counted between two rests over the change of charge tells the capacity; several of them agree on one value with its error.", []string{"capacity-pair", "capacity-tls"}},
	},
	Assumed: []string{"A cell of your bank has the curve of its kind; a capacity test entered in the log takes that doubt away."},
	Found: []Accuracy{
		{"A leak of 5 mA with a 5 mV meter read every fortnight is told after 70 days in the middle of ten simulated logs, 84 in the slowest.", "accuracy.md", []string{"after 70 days in the middle of ten logs, 84 in the slowest"}},
		{"False alarms: 5 in 576 bank-years, all with a 10 mV meter.", "accuracy.md", []string{"5 in 576 bank-years, all with a 10 mV meter"}},
		{"Capacity from partial cycles: 21 of 22 retired cells within 2 % with a sister cell's curve; with a library curve of another make 14 to 29 % high, and the error bar says so.", "accuracy.md", []string{"21 of 22 retired cells within 2 % with a sister cell's curve; 14 to 29 % high"}},
	},
}
