package ageing

import (
	"math"

	"ampstead/physics/cell"
	"ampstead/source"
)

// acidCycles is how many cycles of a depth a flooded deep-cycle battery lasts,
// to 80 % of its capacity, from memory.
var acidCycles = [...][2]float64{{0.2, 2500}, {0.3, 1600}, {0.5, 900}, {0.8, 550}, {1, 400}}

// acidEnd is the loss at which those lives end.
const acidEnd = 0.2

// cyclesAt interpolates between the logarithms; shallower than the table the
// product of depth and cycles stays that of its first row.
func cyclesAt(depth float64) float64 {
	first := acidCycles[0]
	if depth <= first[0] {
		return first[0] * first[1] / depth
	}
	k := 0
	for k < len(acidCycles)-2 && depth > acidCycles[k+1][0] {
		k++
	}
	low, high := acidCycles[k], acidCycles[k+1]
	share := math.Log(min(depth, 1)/low[0]) / math.Log(high[0]/low[0])
	return low[1] * math.Pow(high[1]/low[1], share)
}

// acid is the lesser of a life in cycles and a life in years.
type acid struct {
	years float64 // corrosion life at 25 °C
	share float64 // of the flooded battery's cycles
}

func (p acid) add(s Stress) amounts {
	years := p.years * math.Exp2((heldAt-max(s.TempC, heldAt))/10)
	a := amounts{calendar: acidEnd * s.Days / daysAYear / years}
	for _, c := range s.Cycles {
		if c.Range > 0 {
			a.cycling += acidEnd * c.Count / (p.share * cyclesAt(c.Range))
		}
	}
	if len(s.Cycles) == 0 && s.Throughput > 0 {
		a.cycling = acidEnd * s.Throughput / s.Depth / (p.share * cyclesAt(s.Depth))
	}
	return a
}

func (acid) lost(a amounts) (calendar, cycling, total float64) {
	return a.calendar, a.cycling, max(a.calendar, a.cycling)
}

func (acid) grown(amounts) (calendar, cycling float64, ok bool) { return 0, 0, false }

func flooded() *Model {
	return acidModel("lead-acid-flooded", "lead-acid, flooded deep-cycle", acid{years: 10, share: 1},
		"10 years of corrosion life at 25 °C (from memory, unconfirmed).")
}

func agm() *Model {
	return acidModel("lead-acid-agm", "lead-acid, absorbed glass mat", acid{years: 8, share: 0.5},
		"8 years of corrosion life at 25 °C and half the flooded battery's cycles, the cautious end of half to two thirds (from memory, unconfirmed).")
}

func acidModel(name, title string, p acid, choice string) *Model {
	return &Model{
		Name: name, Title: title + ", the lesser of cycle life and corrosion life",
		FittedTo: "no test: a curve of cycles against depth from memory, and the rule of Spiers and Rasinkoski 1996",
		Families: []cell.Family{cell.LeadAcid},
		Covers:   "storage and cycling",
		Equation: "loss = 0.2·max(Σ cycles/cycles(depth), years/(L·2^((25 − temperature)/10))); cycles to 80 % of a flooded one: 2500 at 20 %, 1600 at 30 %, 900 at 50 %, 550 at 80 %, 400 at 100 %",
		Source:   source.AcidMemory,
		Limits: []Limit{
			limitOf(temperature, 25, 45, source.Memory, "below 25 °C the corrosion life is held, the larger ageing; above it is halved for each 10 K more"),
			limitOf(depth, 0.2, 1, source.Memory, "shallower cycles give 500 full equivalents in all"),
		},
		Choices: []string{choice, "Capacity is taken to fall evenly to 80 % at the end of either life, and on at that pace."},
		Silent:  "Incomplete recharge and standing discharged, the main cause of early loss in solar use, can end it in a year or two. Resistance, drying out, stratified acid.",
		Band:    Band{Low: 0.5, Middle: 1, High: 2}, BandFrom: source.AcidMemory,
		law: p,
	}
}
