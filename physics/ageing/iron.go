package ageing

import (
	"math"

	"ampstead/physics/cell"
	"ampstead/source"
)

// naumannCalendar is the loss per root of a second at rest.
func naumannCalendar(soc, tempC float64) float64 {
	kelvin := max(tempC, 0) + zeroC
	off := soc - 0.5
	return 1.2571e-5 * math.Exp(-17126/gasJ*(1/kelvin-1/room)) * (2.8575*off*off*off + 0.60225)
}

// naumannCycling is the loss per root of a full equivalent.
func naumannCycling(cRate, depth float64) float64 {
	off := depth - 0.6
	return (0.0630*cRate + 0.0971) * (4.0253*off*off*off + 1.0923) / 100
}

func naumannRate(s Stress) amounts {
	k, c := naumannCalendar(s.SoC, s.TempC), naumannCycling(s.CRate, s.Depth)
	return amounts{calendar: k * k * s.Days * 86400, cycling: c * c * s.Throughput}
}

func naumann() *Model {
	return &Model{
		Name:     "naumann",
		Title:    "iron-phosphate, storage and cycling",
		FittedTo: "one kind of 3 Ah 26650 cell, iron-phosphate against graphite",
		Families: []cell.Family{cell.LFP},
		Covers:   "storage and cycling",
		Equation: "capacity = 1 − 1.2571e−5·exp[−17126/R·(1/T − 1/298.15)]·[2.8575·(soc − 0.5)³ + 0.60225]·√t " +
			"− (0.0630·rate + 0.0971)·[4.0253·(depth − 0.6)³ + 1.0923]·√FEC/100; t seconds, T kelvin, R = 8.314 J/mol/K",
		Source: source.Naumann,
		Limits: []Limit{
			limitOf(temperature, 0, 60, source.Memory, "below 0 °C held at its 0 °C value, above carried on"),
			limitOf(depth, 0.05, 1, source.Memory, "the equation is carried on"),
			limitOf(rate, 0.2, 1, source.Memory, "the equation is carried on"),
			limitOf(age, 0, 885, source.Memory, "the root of time is carried on"),
		},
		Choices: []string{"The papers' resistance terms could not be confirmed and are left out: no growth of resistance is reported, which does not mean there is none."},
		Silent:  "Resistance, plating in frost, the knee, imbalance. The cycle term knows no temperature (fitted mostly at 40 °C).",
		Band:    Band{Low: 0.74, Middle: 1.02, High: 1.39}, BandFrom: source.AgeingComparison,
		law: powers{rate: naumannRate, z: amounts{0.5, 0.5, 1, 1}},
	}
}

// wangRates are the four rates (1/h) and factors B that Wang et al. 2011 print.
var wangRates = [4][2]float64{{0.5, 31630}, {2, 21681}, {6, 12934}, {10, 15512}}

// wangB is the factor at a rate, straight in the logarithms between the printed
// ones and held outside: below C/2 a power law would grow without end.
func wangB(cRate float64) float64 {
	c := min(max(cRate, wangRates[0][0]), wangRates[3][0])
	k := 0
	for k < 2 && c > wangRates[k+1][0] {
		k++
	}
	low, high := wangRates[k], wangRates[k+1]
	share := math.Log(c/low[0]) / math.Log(high[0]/low[0])
	return low[1] * math.Pow(high[1]/low[1], share)
}

// wangAhPerFEC is the capacity by which Wang et al. 2011 count cycles, Ah.
const wangAhPerFEC = 2

// wang2011Rate counts cycling alone; held at its 15 °C value below.
func wang2011Rate(s Stress) amounts {
	if s.Throughput <= 0 {
		return amounts{}
	}
	c := min(max(s.CRate, wangRates[0][0]), wangRates[3][0])
	k := wangB(c) * math.Exp((-31700+370.3*c)/(gasJ*(max(s.TempC, 15)+zeroC))) / 100
	return amounts{cycling: math.Pow(k, 1/0.55) * s.Throughput * wangAhPerFEC}
}

func wang2011() *Model {
	return &Model{
		Name:     "wang2011",
		Title:    "iron-phosphate, cycling only",
		FittedTo: "one kind of 2.2 Ah 26650 cell, iron-phosphate against graphite",
		Families: []cell.Family{cell.LFP},
		Covers:   "cycling only",
		Equation: "loss % = B·exp[(−31700 + 370.3·rate)/(R·T)]·Ah^0.55, Ah = 2·FEC, T kelvin, B 31630, 21681, 12934, 15512 at C/2, 2C, 6C, 10C",
		Source:   source.Wang2011,
		Limits: []Limit{
			limitOf(temperature, 15, 60, source.Memory, "below 15 °C held at its 15 °C value, the larger ageing; above carried on"),
			limitOf(rate, 0.5, 10, source.SecondHand, "the value at C/2 or 10C is held"),
		},
		Choices: []string{
			"Between the printed rates B is straight in the logarithms.",
			"Ah are counted in discharge only (from memory, unconfirmed).",
		},
		Silent: "Storage: what time alone takes is not counted, beyond what was in the cycling tests. Resistance, plating in frost, the knee. Depth has no effect beyond throughput.",
		Band:   Band{Low: 1.03, Middle: 1.16, High: 2.45}, BandFrom: source.AgeingComparison,
		law: powers{rate: wang2011Rate, z: amounts{1, 0.55, 1, 1}},
	}
}
