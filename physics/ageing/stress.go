package ageing

import (
	"math"

	"ampstead/physics/cell"
)

// Stress is what a cell goes through during some days. A year is a list of them.
type Stress struct {
	Days       float64
	SoC        float64 // mean state of charge, fraction
	CellV      float64 // mean rest voltage, V; 0: from the model's curve at SoC
	RmsV       float64 // quadratic mean voltage while cycling, V; 0: from the curve over Depth about SoC
	TempC      float64 // of the cell
	Depth      float64 // of the day's main cycle, fraction; 0: from Cycles, else 1 when there is throughput
	Throughput float64 // full equivalents in all, Ah discharged over rated Ah; 0: from Cycles
	CRate      float64 // 1/h, mean of charge and discharge while cycling
	Cycles     []Cycle // state of charge by rainflow; empty: Throughput/Depth cycles of Depth about SoC
}

// whole fills in what was left out.
func (s Stress) whole() Stress {
	if len(s.Cycles) > 0 {
		charge, weighted := 0.0, 0.0
		for _, c := range s.Cycles {
			charge += c.Count * c.Range
			weighted += c.Count * c.Range * c.Range
		}
		if s.Throughput == 0 {
			s.Throughput = charge
		}
		if s.Depth == 0 && charge > 0 {
			s.Depth = weighted / charge
		}
	}
	if s.Depth == 0 && s.Throughput > 0 {
		s.Depth = 1
	}
	return s
}

// restV is the mean rest voltage, V.
func (s *Stress) restV(curve cell.Curve) float64 {
	if s.CellV > 0 {
		return s.CellV
	}
	return curve.Voltage(s.SoC)
}

// rmsSteps is how finely a cycle is sampled for its quadratic mean: 16 steps are
// within 0.2 mV of 1000.
const rmsSteps = 16

// rmsV is the quadratic mean voltage of a cycle of Depth about SoC, V. The cycle
// is moved to lie between empty and full.
func (s *Stress) rmsV(curve cell.Curve) float64 {
	if s.RmsV > 0 {
		return s.RmsV
	}
	low := max(0, min(s.SoC-s.Depth/2, 1-s.Depth))
	sum := 0.0
	for k := range rmsSteps {
		v := curve.Voltage(low + (float64(k)+0.5)/rmsSteps*s.Depth)
		sum += v * v
	}
	return math.Sqrt(sum / rmsSteps)
}
