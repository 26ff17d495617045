package compare

import (
	"math"

	"ampstead/drill"
	"ampstead/travel"
)

func travelEntries(res *travel.Result) []entry {
	l, y := &list{stage: Travel}, &res.Year
	l.add("days_short", "days on which something is not served", "", daysShort(res.Days), Less, count)
	l.add("unserved_hours", "hours in which something is not served", "h", y.UnservedH, Less, hours)
	l.band("unserved_hours", "those hours over the weather years", "h", res.Bands.UnservedHours, Less, hours)
	l.add("unserved_wh", "energy not served", "Wh", y.Unserved, Less, kWh)
	l.add("served_wh", "energy served", "Wh", y.Served, More, kWh)
	l.add("soc_min", "lowest charge", "", y.SoCMin, More, share)
	l.band("soc_min", "lowest charge over the weather years", "", res.Bands.SoCMin, More, share)
	l.add("soc_p5", "charge it is below for one hour in twenty", "", y.SoCP5, More, share)
	l.add("sun_caught_wh", "sun caught", "Wh", y.SunCaught, More, kWh)
	l.add("lost_full_wh", "sun refused by a full bank", "Wh", y.LostFull, Neither, kWh)
	l.add("frost_locked_hours", "hours in which frost kept charge out", "h", y.FrostLockedH, Less, hours)
	l.add("lost_frost_wh", "sun lost to frost", "Wh", y.LostFrost, Less, kWh)
	l.add("frost_charge_ah", "charge at or below the frost limit that nothing keeps out", "Ah", y.FrostChargeAh, Less, ampHours)
	l.add("disconnected_hours", "hours with the bank cut off", "h", y.Disconnected, Less, hours)
	l.add("mains_wh", "from the mains", "Wh", y.Mains, Neither, kWh)
	l.add("alternator_wh", "from the alternator", "Wh", y.Alternator, Neither, kWh)
	l.add("heater_wh", "drawn by the heater", "Wh", y.Heater, Neither, kWh)
	l.add("overhead_wh", "lost on the way: idle draw, converters, inverters, coils", "Wh", y.Overhead, Neither, kWh)
	l.add("bank_temp_min_c", "bank at the coldest", "°C", y.BankTempMin, Neither, degrees)
	l.add("bank_temp_max_c", "bank at the hottest", "°C", y.BankTempMax, Neither, degrees)
	l.add("cell_high_v", "highest cell", "V", y.CellHighV, Neither, volts)
	l.add("cell_low_v", "lowest cell", "V", y.CellLowV, Neither, volts)
	l.add("hours_above_90_percent", "hours above 90 % charge", "h", y.HoursHigh, Less, hours)
	l.add("full_cycles", "full cycles", "", y.FullCycles, Neither, count)
	return l.all
}

// band adds the three points of a band.
func (l *list) band(key, what, unit string, r travel.Range, better Better, show format) {
	l.add(key+"_low", what+", low", unit, r.Low, better, show)
	l.add(key+"_middle", what+", middle", unit, r.Middle, better, show)
	l.add(key+"_high", what+", high", unit, r.High, better, show)
}

func daysShort(days []travel.Day) float64 {
	n := 0
	for _, d := range days {
		if d.Unserved > 0 {
			n++
		}
	}
	return float64(n)
}

func drillEntries(res *drill.Result) []entry {
	l := &list{stage: Drill}
	ended := map[drill.Verdict]int{}
	harmful, silent, least := map[string]bool{}, 0, math.Inf(1)
	for _, o := range res.Single {
		ended[o.Outcome]++
		least = math.Min(least, o.MarginMV/1000)
		if o.Outcome == drill.Harm {
			harmful[o.Fault] = true
			if o.Silent {
				silent++
			}
		}
	}
	l.add("faults", "faults played", "", float64(len(res.Faults)), Neither, count)
	l.add("runs", "runs: each fault in every scene", "", float64(len(res.Single)), Neither, count)
	l.add("faults_that_harm", "faults that reach harm in some scene", "", float64(len(harmful)), Less, count)
	l.add("harm", "runs that reach harm", "", float64(ended[drill.Harm]), Less, count)
	l.add("harm_silent", "of these, with nothing that tells in time", "", float64(silent), Less, count)
	l.add("near", "runs that come near it", "", float64(ended[drill.Near]), Less, count)
	l.add("caught", "runs in which a layer acts in time", "", float64(ended[drill.Caught]), Neither, count)
	l.add("nuisance", "runs in which power is lost needlessly", "", float64(ended[drill.Nuisance]), Less, count)
	if !math.IsInf(least, 1) {
		l.add("least_margin_v", "least margin of a cell to its limits, over all runs", "V", least, More, volts)
	}
	return l.all
}
