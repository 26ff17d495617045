package convert

// Weight is how much of its time an inverter works at a share of its rating.
type Weight struct{ Load, Share float64 }

// California and European weights of inverter efficiencies. Both suit inverters
// on a grid; one in a vehicle mostly works below a fifth of its rating.
var (
	California = []Weight{{0.10, 0.04}, {0.20, 0.05}, {0.30, 0.12}, {0.50, 0.21}, {0.75, 0.53}, {1, 0.05}}
	European   = []Weight{{0.05, 0.03}, {0.10, 0.06}, {0.20, 0.13}, {0.30, 0.10}, {0.50, 0.48}, {1, 0.20}}
)

// Weighted returns the mean of an efficiency over the weights; efficiency is asked
// at each load.
func Weighted(weights []Weight, efficiency func(load float64) float64) float64 {
	total := 0.0
	for _, w := range weights {
		total += w.Share * efficiency(w.Load)
	}
	return total
}
