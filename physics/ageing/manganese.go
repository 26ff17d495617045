package ageing

import (
	"math"

	"ampstead/physics/cell"
	"ampstead/source"
)

// wang2014Rate is the calendar term; held at its 10 °C value below.
func wang2014Rate(s Stress) amounts {
	k := 14876 * math.Exp(-24500/(gasJ*(max(s.TempC, 10)+zeroC))) / 100
	return amounts{calendar: k * k * s.Days}
}

func wang2014() *Model {
	return &Model{
		Name:     "wang2014",
		Title:    "nickel-manganese blend, storage only",
		FittedTo: "one kind of 1.5 Ah 18650 cell, nickel-manganese-cobalt and manganese-oxide blend against graphite",
		Families: []cell.Family{cell.LMO},
		Covers:   "storage only",
		Equation: "loss % = 14876·√t·exp(−24500/(R·T)), t days, T kelvin",
		Source:   source.Wang2014,
		Limits: []Limit{
			limitOf(temperature, 10, 46, source.Memory, "below 10 °C held at its 10 °C value, the larger ageing; above carried on"),
		},
		Choices: []string{
			"The cycle term is left out on purpose. Its printed coefficients have three figures, and a·T² + b·T + c is a small difference of large numbers: " +
				"it comes out negative from about 14 to 36 °C, so cycling would mend the cell.",
		},
		Silent: "Cycling, resistance, and the state of charge, which has no part in the term (probably that of the storage tests).",
		Band:   Band{Low: 0.23, Middle: 0.34, High: 0.56}, BandFrom: source.AgeingComparison,
		law: powers{rate: wang2014Rate, z: amounts{0.5, 1, 1, 1}},
	}
}

// Xu et al. 2018: the fatigue f, and the loss with its fast first part.
const (
	xuAlpha = 0.0575
	xuBeta  = 121
	xuTime  = 4.14e-10 // 1/s
)

type fatigue struct{}

func (fatigue) add(s Stress) amounts {
	warm := xuWarmth(s.TempC)
	a := amounts{calendar: xuTime * s.Days * 86400 * xuCharge(s.SoC) * warm}
	for _, c := range s.Cycles {
		a.cycling += c.Count * xuDepth(c.Range) * xuCharge(c.Mean) * warm
	}
	if len(s.Cycles) == 0 && s.Throughput > 0 {
		a.cycling = s.Throughput / s.Depth * xuDepth(s.Depth) * xuCharge(s.SoC) * warm
	}
	return a
}

// xuDepth is the fatigue of one cycle of a depth; none of none.
func xuDepth(depth float64) float64 {
	if depth <= 0 {
		return 0
	}
	return 1 / (1.40e5*math.Pow(min(depth, 1), -0.501) - 1.23e5)
}

func xuCharge(soc float64) float64 { return math.Exp(1.04 * (soc - 0.5)) }

// xuWarmth has both temperatures in kelvin and is held below 15 °C.
func xuWarmth(tempC float64) float64 {
	kelvin := max(tempC, 15) + zeroC
	return math.Exp(0.0693 * (kelvin - room) * room / kelvin)
}

// lost splits the loss in the proportion of the fatigue.
func (fatigue) lost(a amounts) (calendar, cycling, total float64) {
	f := a.calendar + a.cycling
	if f <= 0 {
		return 0, 0, 0
	}
	total = -xuAlpha*math.Expm1(-xuBeta*f) - (1-xuAlpha)*math.Expm1(-f)
	calendar = total * (a.calendar / f)
	return calendar, total - calendar, total
}

func (fatigue) grown(amounts) (calendar, cycling float64, ok bool) { return 0, 0, false }

func xu() *Model {
	return &Model{
		Name:     "xu",
		Title:    "manganese cell by counted cycles and stress factors; a second opinion for any lithium cell",
		FittedTo: "manganese-oxide cells",
		Families: []cell.Family{cell.LMO},
		Covers:   "storage and cycling",
		Equation: "loss = 1 − 0.0575·e^(−121·f) − 0.9425·e^(−f); f = Σ n·Sd(depth)·Ss(soc)·St(T) + 4.14e−10·t·Ss(mean soc)·St(T); " +
			"Sd = 1/(1.40e5·depth^(−0.501) − 1.23e5); Ss = exp[1.04·(soc − 0.5)]; St = exp[0.0693·(T − 298.15)·298.15/T]; t seconds, T kelvin, n by rainflow",
		Source: source.Xu2018,
		Limits: []Limit{
			limitOf(temperature, 15, 60, source.Memory, "below 15 °C held at its 15 °C value, the larger ageing; above carried on"),
		},
		Choices: []string{
			"Temperatures in St are in kelvin, the only reading that fits its dimensions; one public re-use divides °C by °C.",
			"Without counted cycles, throughput is taken as cycles of the given depth about the mean state of charge.",
		},
		Silent: "Rate, resistance, plating in frost, the knee, imbalance; and any chemistry but its own, which is why the band is so wide.",
		Band:   Band{Low: 0.44, Middle: 1.29, High: 6.25}, BandFrom: source.AgeingComparison,
		law: fatigue{},
	}
}
