package cell

import (
	"math"
	"testing"

	"ampstead/internal/near"
)

// halfCells is a published set: electrode potentials against their
// stoichiometry, and the stoichiometries at 0 and 100 % charge.
type halfCells struct {
	negative, positive func(float64) float64
	x0, x100, y0, y100 float64
}

func (h halfCells) voltage(soc float64) float64 {
	return h.positive(h.y0+soc*(h.y100-h.y0)) - h.negative(h.x0+soc*(h.x100-h.x0))
}

func tanh(v, at, width float64) float64 { return math.Tanh((v - at) / width) }

func kimGraphite(x float64) float64 {
	return 0.124 + 1.5*math.Exp(-70*x) - 0.0351*tanh(x, 0.286, 0.083) - 0.0045*tanh(x, 0.9, 0.119) -
		0.035*tanh(x, 0.99, 0.05) - 0.0147*tanh(x, 0.5, 0.034) - 0.102*tanh(x, 0.194, 0.142) -
		0.022*tanh(x, 0.98, 0.0164) - 0.011*tanh(x, 0.124, 0.0226) + 0.0155*tanh(x, 0.105, 0.029)
}

func kimNCA(y float64) float64 {
	sum := 0.0
	for _, c := range []float64{1.638, -2.222, 15.056, -23.488, 81.246, -344.566, 621.3475, -554.774, 264.427, -66.3691, 11.8058} {
		sum = sum*y + c
	}
	return sum - 0.61386*math.Exp(5.8201*math.Pow(y, 136.4))
}

func chenGraphite(x float64) float64 {
	return 1.9793*math.Exp(-39.3631*x) + 0.2482 - 0.0909*math.Tanh(29.8538*(x-0.1234)) -
		0.04478*math.Tanh(14.9159*(x-0.2769)) - 0.0205*math.Tanh(30.4444*(x-0.6103))
}

func chenNMC(y float64) float64 {
	return -0.8090*y + 4.4875 - 0.0428*math.Tanh(18.5138*(y-0.5542)) -
		17.7326*math.Tanh(15.7890*(y-0.3117)) + 17.5842*math.Tanh(15.9308*(y-0.3120))
}

func mohtatGraphite(x float64) float64 {
	return 0.063 + 0.8*math.Exp(-75*(x+0.001)) - 0.0120*tanh(x, 0.127, 0.016) - 0.0118*tanh(x, 0.155, 0.016) -
		0.0035*tanh(x, 0.220, 0.020) - 0.0095*tanh(x, 0.190, 0.013) - 0.0145*tanh(x, 0.490, 0.020) - 0.0800*tanh(x, 1.030, 0.055)
}

func mohtatNMC(y float64) float64 {
	return 4.3452 - 1.6518*y + 1.6225*y*y - 2.0843*y*y*y + 3.5146*y*y*y*y - 2.2166*y*y*y*y*y -
		0.5623e-4*math.Exp(109.451*y-100.006)
}

func afsharLFP(y float64) float64 {
	return 3.4077 - 0.020269*y + 0.5*math.Exp(-150*y) - 0.9*math.Exp(-30*(1-y))
}

var publishedSets = map[string]halfCells{
	"nca":       {kimGraphite, kimNCA, 0.06820, 0.69655, 0.98304, 0.34212},
	"nmc811":    {chenGraphite, chenNMC, 0.02635, 0.91062, 0.85397, 0.26385},
	"nmc532":    {mohtatGraphite, mohtatNMC, 0.00150, 0.83340, 0.89091, 0.03352},
	"lfp-prada": {chenGraphite, afsharLFP, 0.01762, 0.81004, 0.70350, 0.00376},
}

// TestCurvesFollowTheirHalfCellEquations is independent of the tables the
// curves were taken from: at every point 2 mV.
func TestCurvesFollowTheirHalfCellEquations(t *testing.T) {
	for name, set := range publishedSets {
		soc, volt := find(t, name).Curve.Points()
		for k := range soc {
			tolerance := 0.002
			if soc[k] < 0.01 || soc[k] > 0.99 {
				tolerance = 0.005 // stoichiometries are printed to five digits, and the ends are steep
			}
			near.Equal(t, name+" at "+text(soc[k], ""), volt[k], set.voltage(soc[k]), tolerance)
		}
	}
}

// TestPublishedValuesFollowTheEquations checks the check values themselves, 1 mV.
func TestPublishedValuesFollowTheEquations(t *testing.T) {
	for _, table := range restTables() {
		set, ok := publishedSets[table.cell]
		if !ok {
			continue
		}
		for k, soc := range table.soc {
			if soc == 0 || soc == 1 {
				continue // defined by the window, not by the printed stoichiometries
			}
			near.Equal(t, table.cell+" at "+text(soc, ""), table.volt[k], set.voltage(soc), 0.001)
		}
	}
}
