package synthetic

import (
	"math"
	"math/rand/v2"
)

const (
	classes = 10
	states  = 10
)

// classOf returns the matrix for a month's clearness index: one up to 0.30, then
// every 0.05, the last above 0.70.
func classOf(kt float64) int {
	return max(0, min(classes-1, int(math.Ceil((kt-0.30)/0.05-1e-9))))
}

// chain walks the days of one class.
type chain struct {
	rows      *[states][states]float64 // cumulative
	low, step float64
}

func newChain(class int) chain {
	s := spans[class]
	return chain{rows: &cumulative[class], low: s.low, step: (s.high - s.low) / states}
}

// next draws tomorrow's clearness index from today's: the state where the row's
// sum passes the draw, linearly inside it.
func (c *chain) next(today float64, draw *rand.PCG) float64 {
	row := &c.rows[max(0, min(states-1, int((today-c.low)/c.step)))]
	u, below := unit(draw), 0.0
	for k, sum := range row {
		if u < sum {
			return c.low + c.step*(float64(k)+(u-below)/(sum-below))
		}
		below = sum
	}
	return c.low + c.step*states
}

// cumulative are the rows of transitions, summed up and brought to exactly 1.
var cumulative = sumUp()

func sumUp() (sums [classes][states][states]float64) {
	for c := range transitions {
		for i, row := range transitions[c] {
			total := 0.0
			for k, p := range row {
				total += float64(p)
				sums[c][i][k] = total
			}
			for k := range row {
				sums[c][i][k] /= total
			}
		}
	}
	return sums
}

// unit draws from 0 up to but not including 1.
func unit(p *rand.PCG) float64 { return float64(p.Uint64()>>11) / (1 << 53) }

// normal turns a draw between 0 and 1 into one of mean 0 and deviation 1 (the
// approximation that Aguiar & Collares-Pereira 1992 use, within 0.01 inside ±2).
func normal(u float64) float64 {
	return (math.Pow(u, 0.135) - math.Pow(1-u, 0.135)) / 0.1975
}
