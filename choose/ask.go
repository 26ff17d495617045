package choose

import (
	"fmt"

	"ampstead/physics/cell"
	q "ampstead/quantity"
)

// asks is what to ask and measure at the seller's, in the order in which to do
// it: questions, what to look at, then with instruments. Nothing for the rig's
// own bank.
func asks(v *variant) []Ask {
	switch {
	case v.cand == nil:
		return []Ask{}
	case v.res.Kind.Family == cell.LeadAcid:
		return v.askAcid()
	case v.cand.Kind == "salvaged module":
		return append(v.askSalvaged(), v.measure()...)
	}
	return append(v.askNew(), v.measureNew()...)
}

func (v *variant) askSalvaged() []Ask {
	return []Ask{
		{Ask: "Why was the vehicle taken off the road, and where was it hit?", Good: "light damage away from the battery's floor and sides, dry, on paper or in photographs",
			Refuse: "fire, flood, salt water, or a blow to the battery's case"},
		{Ask: "Did the airbags deploy, or did the battery's own fuse or breaker fire?", Good: "no; or yes, and it is known that only the fuse fired",
			Refuse: "nobody knows"},
		{Ask: "Is there a record of the battery: age, distance, faults stored, last charge? It needs no owner's name and no vehicle number.", Good: v.recordGood(),
			Refuse: "no record at all: take the wide band above as it stands, and pay for the low end of it"},
		{Ask: "Since when has it been out of the vehicle, how full was it then, and where was it kept?", Good: "30 to 60 % full, dry, free of frost and heat, less than a year",
			Refuse: "empty, or in the open over a winter"},
		{Ask: "Are all modules from one battery, and were any groups exchanged or bled?", Good: "one battery, untouched", Refuse: "mixed, or opened by someone who is not there to ask"},
		{Ask: "May it come back if a capacity test at home disappoints?", Good: "yes, within two weeks", Refuse: "no, at the price of a good one"},
		{Ask: "Lay a straight edge along every face: is anything swollen?", Good: "flat within 1 mm, end plates straight", Refuse: "a bulge, a bent end plate, a cracked weld, a sweet smell of solvent"},
		{Ask: "Look for coolant: was the plate drained, is anything stained or furred?", Good: "dry, metal bright", Refuse: "coolant or its dry traces inside the module, green or white growth on links"},
		{Ask: "Look at sense leads, links and terminals.", Good: "all leads whole and numbered, terminals covered for the way home", Refuse: "cut leads at the cells, blackened links, bolts that were loose under load"},
	}
}

// recordGood is what a record should agree with.
func (v *variant) recordGood() string {
	good := "a printed record with the modules' serial numbers"
	if s := v.cand.State; s != nil && s.Years > 0 {
		good += fmt.Sprintf("; its dates agree with the %d years stated", s.Years)
	}
	return good
}

// Cells at the seller's; source.SalvageHabit and source.OverDischarge.
const (
	restLow, restHigh  = 0.2, 0.8 // charge at which modules are kept
	evenV, unevenV     = 0.010, 0.050
	deadV              = 2.0
	ohmGood, ohmRefuse = 1.5, 2.0 // over the resistance when new
	shareRefuse        = 0.7
	insulationOhmPerV  = 500.0
	insulationGood     = 1e6
	warmerK            = 3.0
	testRate           = 0.2 // 1/h, current of the pulse
	keptLeast          = 0.2
)

func (v *variant) measure() []Ask {
	k, n := v.res.Kind, float64(v.res.Cell.Series)
	rest := func(soc float64) string { return volts(k.Curve.Voltage(soc) * n) }
	list := []Ask{
		{Measure: true, Ask: "Rest voltage of one string, nothing connected for an hour", Good: fmt.Sprintf("%s to %s, which is 20 to 80 %% full", rest(restLow), rest(restHigh)),
			Refuse: fmt.Sprintf("below %s, or any group below %.1f V", volts(v.res.Window.BankLowV), deadV)},
		{Measure: true, Ask: "Voltage of every group, to 1 mV", Good: v.evenGood(), Refuse: fmt.Sprintf("more than %.0f mV apart%s, or any group at 0 V", 1e3*unevenV, v.unevenWhere())},
		v.askResistance(),
		v.askCapacity(),
		{Measure: true, Ask: "Insulation of both terminals against the case, with a tester of at least the full voltage",
			Good: "more than " + ohms(insulationGood), Refuse: fmt.Sprintf("less than %s, %.0f Ω for each volt of %s", ohms(insulationOhmPerV*v.res.Window.BankHighV), insulationOhmPerV, volts(v.res.Window.BankHighV))},
		{Measure: true, Ask: "Temperature along the module with a hand-held thermometer, at rest", Good: "the same everywhere",
			Refuse: fmt.Sprintf("any group %.0f K warmer than its neighbours: it is discharging into itself", warmerK)},
		{Measure: true, Ask: "Weigh it", Good: v.massText(), Refuse: "a tenth away from it: it is another module than stated"},
	}
	if v.res.Cell.Parallel > 1 && max(1, v.cand.Strings) > 1 {
		list = append(list, Ask{Measure: true, Ask: "Rest voltage of the strings against each other", Good: "less than 0.1 V apart before they are joined",
			Refuse: "more, unless they are brought together through a resistor first"})
	}
	return list
}

// evenGood is the spread of a healthy module; where the curve is flat it says
// nothing.
func (v *variant) evenGood() string {
	good := fmt.Sprintf("all within %.0f mV", 1e3*evenV)
	if k := v.res.Kind; k.FlatTo > k.FlatFrom {
		good += fmt.Sprintf("; but from %.0f to %.0f %% full its voltage tells nothing of the charge: ask for it nearly full", 100*k.FlatFrom, 100*k.FlatTo)
	}
	return good
}

func (v *variant) unevenWhere() string {
	if k := v.res.Kind; k.FlatTo > k.FlatFrom {
		return " in the flat part"
	}
	return ""
}

// askResistance is a pulse with a load of known current.
func (v *variant) askResistance() Ask {
	c, k := v.res.Cell, v.res.Kind
	fresh := k.ResistanceOhm(c.RatedAh, 25) * float64(c.Series)
	amps := testRate * c.RatedAh
	drop := func(times float64) string { return q.Volts.Fixed(times*fresh*amps, "V", 2) }
	return Ask{Measure: true, Ask: fmt.Sprintf("Drop of the terminal voltage in 10 s under %.0f A, at about 25 °C, half full", amps),
		Good:   fmt.Sprintf("up to %s, %s; new about %s", drop(ohmGood), ohms(ohmGood*fresh), ohms(fresh)),
		Refuse: fmt.Sprintf("more than %s, %s: twice that of new cells; in the cold it is more by itself", drop(ohmRefuse), ohms(ohmRefuse*fresh))}
}

// askCapacity is a whole discharge, where the seller can do one.
func (v *variant) askCapacity() Ask {
	rated := v.res.Cell.RatedAh
	good := fmt.Sprintf("%.0f Ah or more", v.share.Middle*rated)
	if v.share.High-v.share.Low > 0.005 {
		good = fmt.Sprintf("%.0f to %.0f Ah by what is stated of its past", v.least()*rated, v.share.High*rated)
	}
	return Ask{Measure: true, Ask: fmt.Sprintf("Capacity from full to %s, if the seller can draw it", volts(v.res.Window.BankLowV)),
		Good: good, Refuse: fmt.Sprintf("less than %.0f Ah, %.0f %% of the rated", shareRefuse*rated, 100*shareRefuse)}
}

func (v *variant) massText() string {
	if v.bill.massKg == 0 {
		return "as its label or maker says"
	}
	return "about " + q.Kilograms.Text(v.bill.massKg, v.sys) + " all together"
}

func (v *variant) askNew() []Ask {
	return []Ask{
		{Ask: "When were the cells made, and are they first quality?", Good: "less than a year ago, all of one batch, with a capacity sheet", Refuse: "no date, or sold as second grade at the price of first"},
		{Ask: "Which standard were the cells tested to, and may you see the report and the transport summary?", Good: "IEC 62619 and UN 38.3, with numbers you can check", Refuse: "a logo and no report"},
		{Ask: "Is there a protection board in it: what does it cut at, does it lock charging in frost, what does it carry?",
			Good:   fmt.Sprintf("locks charging at or above %s, cuts outside %s to %s", q.Celsius.Text(v.res.Kind.ChargeMinC.Value, v.sys), volts(v.res.Window.BankLowV), volts(v.res.Window.BankHighV)),
			Refuse: "nobody can say; it may then open in full charge without a word"},
		{Ask: "What charge and discharge current do the cells bear, and does the guarantee hold in a vehicle?", Good: "in writing, above what fit sets for your chargers", Refuse: "only for stationary use"},
	}
}

func (v *variant) measureNew() []Ask {
	k, n := v.res.Kind, float64(v.res.Cell.Series)
	return []Ask{
		{Measure: true, Ask: "Rest voltage as delivered", Good: fmt.Sprintf("%s to %s", volts(k.Curve.Voltage(keptLeast)*n), volts(k.Curve.Voltage(restHigh)*n)),
			Refuse: fmt.Sprintf("below %s: it was left to run empty", volts(v.res.Window.BankLowV))},
		{Measure: true, Ask: "Voltage of every group, if its leads can be reached", Good: v.evenGood(), Refuse: fmt.Sprintf("more than %.0f mV apart", 1e3*unevenV)},
		v.askResistance(),
		{Measure: true, Ask: "Weigh it, and lay a straight edge along it", Good: v.massText() + ", flat", Refuse: "a tenth lighter, or swollen"},
	}
}

// Charge of a lead-acid battery at the counter.
const acidGood, acidRefuse = 0.95, 0.75

func (v *variant) askAcid() []Ask {
	k, n := v.res.Kind, float64(v.res.Cell.Series)
	fresh := k.ResistanceOhm(v.res.Cell.RatedAh, 25) * n
	return []Ask{
		{Ask: "When was it made? Read the date on the block.", Good: "less than six months ago, all blocks within a month", Refuse: "more than a year ago: it has sulphated on the shelf"},
		{Ask: "Over how many hours is the capacity rated, and how many cycles to half are promised?", Good: fmt.Sprintf("%.0f Ah over 20 h, in writing", v.res.Cell.RatedAh), Refuse: "rated over 100 h: it gives less to your loads; or sold for starting engines"},
		{Ask: "What does its maker want for absorption, float and compensation?", Good: fmt.Sprintf("about %s and %s at 25 °C", volts(k.Acid.AbsorptionV.Value*n), volts(k.Acid.FloatV.Value*n)), Refuse: "nothing is said"},
		{Measure: true, Ask: "Rest voltage of all in series", Good: fmt.Sprintf("%s or more", volts(k.Curve.Voltage(acidGood)*n)), Refuse: fmt.Sprintf("below %s: under three quarters full", volts(k.Curve.Voltage(acidRefuse)*n))},
		{Measure: true, Ask: "Blocks against each other", Good: "within 0.05 V", Refuse: "one more than 0.2 V below the rest"},
		{Measure: true, Ask: "Resistance with a battery tester", Good: fmt.Sprintf("about %s all together", ohms(fresh)), Refuse: "twice that"},
		{Measure: true, Ask: "Weigh a block: lead is capacity", Good: v.massText(), Refuse: "a tenth lighter than its maker says"},
	}
}

// ohms writes a resistance with as many digits as a meter at the seller's shows.
func ohms(v float64) string {
	switch {
	case v >= 1e6:
		return fmt.Sprintf("%.0f MΩ", v/1e6)
	case v >= 1e3:
		return fmt.Sprintf("%.0f kΩ", v/1e3)
	}
	return fmt.Sprintf("%.1f mΩ", 1e3*v)
}
