package ageing

import (
	"math"

	"ampstead/physics/cell"
	"ampstead/source"
)

const (
	zeroC  = 273.15
	gasJ   = 8.314 // J/mol/K
	room   = 298.15
	heldAt = 25 // °C: Schmalstieg's calendar terms are held below
	// chargePerFEC is the charge plus discharge of one full equivalent of
	// Schmalstieg's 2.05 Ah cell, Ah.
	chargePerFEC = 2 * 2.05
)

// nickel is the arithmetic of Schmalstieg et al. 2014 with a rest-voltage curve.
type nickel struct{ curve cell.Curve }

func (n nickel) rate(s Stress) amounts {
	volt := s.restV(n.curve)
	a := amounts{
		calendar:    pow43(cell.CalendarAlpha(volt, s.TempC)) * s.Days,
		calendarRes: pow43(resistanceAlpha(volt, s.TempC)) * s.Days,
	}
	if s.Throughput > 0 {
		rms, charge := s.rmsV(n.curve), s.Throughput*chargePerFEC
		beta := capacityBeta(rms, s.Depth)
		a.cycling = beta * beta * charge
		a.cyclingRes = resistanceBeta(rms, s.Depth) * charge
	}
	return a
}

// pow43 is k^(4/3), the rate of an amount whose loss is k·t^0.75.
func pow43(k float64) float64 { return k * math.Cbrt(k) }

// resistanceAlpha is the growth per day^0.75 at rest.
func resistanceAlpha(volt, tempC float64) float64 {
	return max(0, (5.270*volt-16.32)*1e5*math.Exp(-5986/(max(tempC, heldAt)+zeroC)))
}

// capacityBeta is the loss per root of Ah, charge and discharge both counted.
func capacityBeta(rms, depth float64) float64 {
	off := rms - 3.667
	return 7.348e-3*off*off + 7.60e-4 + 4.081e-3*depth
}

// resistanceBeta is the growth per Ah.
func resistanceBeta(rms, depth float64) float64 {
	off := rms - 3.725
	return max(1.5e-5, 2.153e-4*off*off-1.521e-5+2.798e-4*depth)
}

func schmalstieg() *Model {
	n := nickel{curveOf("nmc532")}
	return &Model{
		Name:     "schmalstieg",
		Title:    "nickel-manganese-cobalt, storage and cycling, capacity and resistance",
		FittedTo: "one kind of 2.05 Ah 18650 cell of about 2012, nickel-manganese-cobalt 111 against graphite",
		Families: []cell.Family{cell.NMC},
		Covers:   "storage and cycling",
		Equation: "C/C0 = 1 − α·t^0.75 − β·√Q; R/R0 = 1 + α'·t^0.75 + β'·Q; α = (7.543·V − 23.75)·1e6·exp(−6976/T); " +
			"α' = (5.270·V − 16.32)·1e5·exp(−5986/T); β = 7.348e−3·(Vrms − 3.667)² + 7.60e−4 + 4.081e−3·depth; " +
			"β' = max(1.5e−5, 2.153e−4·(Vrms − 3.725)² − 1.521e−5 + 2.798e−4·depth); t days, T kelvin, V at rest, Q Ah in and out of a 2.05 Ah cell",
		Source: source.Schmalstieg,
		Limits: []Limit{
			limitOf(temperature, 35, 50, source.Memory, "below 25 °C the calendar terms are held at their 25 °C values, the larger ageing; else the equation is carried on"),
			limitOf(rate, 0, 1, source.SecondHand, "the rate has no part in the equation; it was cycled at 1C, and slower is taken to age alike"),
		},
		Choices: []string{
			"Throughput in full equivalents is scaled to the fitted cell: one is 4.10 Ah, charge and discharge counted.",
			"The paper's own rest-voltage curve is not at hand: where no voltage is given it comes from the cell library's nmc532 at the state of charge.",
			"The voltage terms are held at zero below 3.149 V (capacity) and 3.097 V (resistance), where they turn negative.",
		},
		Silent: "Plating in frost and at fast charge, the knee after which a cell falls off, swelling, and imbalance between groups. The cycle terms know no temperature (fitted at 35 °C). How long the tests ran is not at hand; ten years are carried on from months.",
		Band:   Band{Low: 0.67, Middle: 0.74, High: 1.27}, BandFrom: source.AgeingComparison,
		law: powers{rate: n.rate, z: amounts{0.75, 0.5, 0.75, 1}, resistive: true},
	}
}

// schmalstiegNCA is the same equations with the rest voltage of nickel-cobalt-
// aluminium, for which no complete published set could be found.
func schmalstiegNCA() *Model {
	m := schmalstieg()
	m.Name, m.Title = "schmalstieg-nca", "nickel-cobalt-aluminium by the equations of another chemistry, with a wide band"
	m.Choices[1] = "No complete published set for nickel-cobalt-aluminium was found: the equations of nickel-manganese-cobalt are used with the rest voltage of the cell library's nca, and the band spans every condition compared."
	m.Silent += " Calendar loss of such cells rises in plateaus with the graphite's stages, not steadily with voltage (Keil et al. 2016)."
	m.Families = nil
	m.Band = Band{Low: 0.66, Middle: 0.94, High: 1.7}
	m.law = powers{rate: nickel{curveOf("nca")}.rate, z: amounts{0.75, 0.5, 0.75, 1}, resistive: true}
	return m
}
