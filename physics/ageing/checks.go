package ageing

import (
	"strings"

	"ampstead/figure"
	"ampstead/source"
)

// ageingChecks are the rows that the models' equations were computed for outside
// this program; they test the arithmetic, not nature.
func ageingChecks() []figure.Check {
	var list []figure.Check
	for _, rows := range [][]figure.Check{restRows(), cycleRows(), naumannRows(), wangRows(), xuRows(), acidRows()} {
		list = append(list, rows...)
	}
	return list
}

func row(s source.Source, note, out string, want, tolerance float64, in string) figure.Check {
	return figure.Check{Source: s, Note: note, In: strings.Split(in, "|"), Output: out, Expected: want, Tolerance: tolerance}
}

// both are a capacity and a resistance by Schmalstieg et al. 2014.
func both(note string, capacity, resistance float64, in string) []figure.Check {
	return []figure.Check{
		row(source.Schmalstieg, note, "capacity_fraction", capacity, 1e-5, in),
		row(source.Schmalstieg, note, "resistance_factor", resistance, 1e-5, in),
	}
}

func restRows() (list []figure.Check) {
	for _, r := range []struct {
		volt, temp, days     string
		capacity, resistance float64
	}{
		{"3.699", "50", "365", 0.85392, 1.23903}, {"3.699", "25", "365", 0.97610, 1.05057}, {"3.699", "35", "500", 0.93532, 1.12285},
		{"4.162", "50", "500", 0.65942, 1.53536}, {"3.697", "25", "3650", 0.86607, 1.28343}, {"4.162", "25", "3650", 0.75250, 1.50301},
	} {
		list = append(list, both("rest at "+r.volt+" V, "+r.temp+" °C, "+r.days+" days", r.capacity, r.resistance,
			"voltage="+r.volt+" V|temperature="+r.temp+" °C|days="+r.days)...)
	}
	return list
}

func cycleRows() (list []figure.Check) {
	for _, r := range []struct {
		rms, depth, cycles   string
		capacity, resistance float64
	}{
		{"3.697", "0.8", "500", 0.83674, 1.34243}, {"3.697", "0.2", "2000", 0.93590, 1.06711},
		{"3.900", "0.8", "500", 0.82085, 1.35297}, {"3.667", "0.5", "1000", 0.87320, 1.25710},
	} {
		list = append(list, both(r.cycles+" cycles of "+r.depth+" about "+r.rms+" V, no time", r.capacity, r.resistance,
			"days=0|voltage=3.697 V|rms-voltage="+r.rms+" V|depth="+r.depth+"|cycles="+r.cycles)...)
	}
	return append(list, both("one cycle of 0.8 a day, 1000 days at 35 °C", 0.66074, 1.89078,
		"days=1000|temperature=35 °C|voltage=3.697 V|rms-voltage=3.697 V|depth=0.8|cycles=1000")...)
}

func naumannRows() (list []figure.Check) {
	for _, r := range []struct {
		soc, temp, days string
		loss            float64
	}{
		{"0.5", "25", "365", 0.04252}, {"1.0", "25", "365", 0.06773}, {"0.8", "25", "365", 0.04796}, {"1.0", "40", "885", 0.14684},
		{"0.5", "40", "885", 0.09217}, {"1.0", "60", "885", 0.21794}, {"0.5", "25", "3650", 0.13445}, {"0.0", "25", "3650", 0.05471},
	} {
		list = append(list, row(source.Naumann, "rest at soc "+r.soc+", "+r.temp+" °C, "+r.days+" days", "calendar_loss_fraction", r.loss, 2e-5,
			"model=naumann|soc="+r.soc+"|temperature="+r.temp+" °C|days="+r.days))
	}
	for _, r := range []struct {
		rate, depth, cycles string // cycles are full equivalents over depth
		loss                float64
	}{
		{"1", "1.0", "1000", 0.06834}, {"1", "0.8", "1250", 0.05693}, {"0.5", "0.8", "1250", 0.04573},
		{"0.2", "0.5", "6000", 0.06539}, {"1", "0.2", "5000", 0.04226}, {"0.1", "0.6", "6083.3333333333", 0.06824},
	} {
		list = append(list, row(source.Naumann, r.cycles+" cycles of "+r.depth+" at "+r.rate+"C", "cycle_loss_fraction", r.loss, 2e-5,
			"model=naumann|days=0|c-rate="+r.rate+" C|depth="+r.depth+"|cycles="+r.cycles))
	}
	return list
}

func wangRows() (list []figure.Check) {
	for _, r := range []struct {
		rate, temp, cycles, depth string
		percent                   float64
	}{
		{"0.5", "25", "1000", "1", 6.226}, {"0.5", "45", "1000", "1", 13.845}, {"0.5", "60", "754", "0.9", 19.127},
		{"2", "45", "1000", "0.5", 7.997}, {"2", "15", "2000", "0.5", 3.461}, {"6", "45", "500", "0.5", 5.704},
	} {
		list = append(list, row(source.Wang2011, r.cycles+" cycles of "+r.depth+" at "+r.rate+"C, "+r.temp+" °C", "cycle_loss_fraction", r.percent/100, 1e-4,
			"model=wang2011|c-rate="+r.rate+" C|temperature="+r.temp+" °C|depth="+r.depth+"|cycles="+r.cycles))
	}
	for _, r := range []struct {
		temp    string
		percent float64
	}{{"10", 8.586}, {"20", 12.245}, {"25", 14.494}, {"34", 19.362}, {"46", 27.773}} {
		list = append(list, row(source.Wang2014, "365 days at "+r.temp+" °C", "calendar_loss_fraction", r.percent/100, 1e-4,
			"model=wang2014|temperature="+r.temp+" °C"))
	}
	return list
}

func xuRows() (list []figure.Check) {
	for _, r := range []struct {
		note, in string
		loss     float64
	}{
		{"rest for a year", "days=365.25", 0.05790},
		{"rest for ten years", "days=3652.5", 0.17293},
		{"365 cycles of 0.8 in a year", "days=365.25|cycles=365|depth=0.8", 0.07662},
		{"3650 cycles of 0.8 in ten years", "days=3652.5|cycles=3650|depth=0.8", 0.25817},
		{"3650 cycles of 0.5 in ten years", "days=3652.5|cycles=3650|depth=0.5", 0.21215},
		{"1000 whole cycles, no time", "days=0|cycles=1000|depth=1", 0.11130},
		{"3000 whole cycles, no time", "days=0|cycles=3000|depth=1", 0.20997},
		{"whole cycles to a loss of 0.20, no time", "days=0|cycles=2786.7|depth=1", 0.20},
		{"years to a loss of 0.20 with a cycle of 0.8 a day", "days=2500.14|cycles=2500.14|depth=0.8", 0.20},
	} {
		list = append(list, row(source.Xu2018, r.note, "capacity_fraction", 1-r.loss, 0.001*r.loss, "model=xu|"+r.in))
	}
	return list
}

func acidRows() []figure.Check {
	return []figure.Check{
		row(source.AcidMemory, "900 cycles of half the charge", "capacity_fraction", 0.8, 1e-9, "model=lead-acid-flooded|days=0|cycles=900|depth=50 %"),
		row(source.AcidMemory, "400 whole cycles", "capacity_fraction", 0.8, 1e-9, "model=lead-acid-flooded|days=0|cycles=400|depth=100 %"),
		row(source.Spiers1996, "corrosion alone, 10 K warmer (the halving from memory)", "capacity_fraction", 0.8, 1e-9, "model=lead-acid-flooded|days=1826.25|temperature=35 °C|cycles=100"),
	}
}
