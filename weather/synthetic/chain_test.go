package synthetic

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
)

// The matrices are the published ones, digit for digit.
func TestMatricesAgainstTheTable(t *testing.T) {
	f, err := os.Open(shared.Path(t, "data/weather/aguiar-1988-matrices.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) != 1+classes*states {
		t.Fatal(len(rows), err)
	}
	for _, row := range rows[1:] {
		num := func(i int) float64 {
			v, err := strconv.ParseFloat(row[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		class, state := int(num(0))-1, int(num(4))-1
		if spans[class].low != num(2) || spans[class].high != num(3) {
			t.Errorf("class %d spans %v", class+1, spans[class])
		}
		for k, p := range transitions[class][state] {
			near.Equal(t, fmt.Sprint("class ", class+1, " state ", state+1), float64(p)/1000, num(5+k), 1e-9)
		}
	}
}

func TestClassLimits(t *testing.T) {
	for kt, want := range map[float64]int{0: 0, 0.1: 0, 0.30: 0, 0.301: 1, 0.35: 1, 0.36: 2, 0.5: 4, 0.65: 7, 0.70: 8, 0.701: 9, 1: 9} {
		if got := classOf(kt); got != want {
			t.Errorf("class of %g is %d, want %d", kt, got, want)
		}
	}
}

// In the long run each chain has the mean, spread and persistence that its matrix
// implies.
func TestChainsInTheLongRun(t *testing.T) {
	means := [classes]float64{0.241, 0.334, 0.374, 0.429, 0.476, 0.526, 0.575, 0.620, 0.668, 0.728}
	spreads := [classes]float64{0.156, 0.167, 0.166, 0.167, 0.167, 0.157, 0.153, 0.136, 0.119, 0.073}
	persistences := [classes]float64{0.38, 0.02, 0.28, 0.31, 0.32, 0.31, 0.23, 0.24, 0.20, 0.25}
	for class := range means {
		var draw rand.PCG
		draw.Seed(1, uint64(class))
		c := newChain(class)
		const n = 60000
		var sum, squares, products, last float64
		kt := means[class]
		for range n {
			kt = c.next(kt, &draw)
			d := kt - means[class]
			sum, squares, products = sum+d, squares+d*d, products+d*last
			last = d
		}
		name := fmt.Sprint("class ", class+1)
		near.Equal(t, name+" mean", means[class]+sum/n, means[class], 0.004)
		near.Equal(t, name+" spread", math.Sqrt(squares/n), spreads[class], 0.004)
		near.Equal(t, name+" persistence", products/squares, persistences[class], 0.025)
	}
}

// The noise of hours has mean 0 and deviation 1.
func TestNormal(t *testing.T) {
	var sum, squares float64
	const n = 10000
	for i := range n {
		z := normal((float64(i) + 0.5) / n)
		sum, squares = sum+z, squares+z*z
	}
	near.Equal(t, "mean", sum/n, 0, 1e-9)
	near.Equal(t, "variance", squares/n, 1, 0.02)
	near.Equal(t, "95 %", normal(0.975), 1.96, 0.01)
}

// Twenty years draw each twentieth once.
func TestAnomaliesBalance(t *testing.T) {
	for month := range 12 {
		for _, first := range []int{0, 20, 400} {
			var sum, squares float64
			for n := range 20 {
				a := anomaly(9, month, first+n)
				sum, squares = sum+a, squares+a*a
			}
			near.Equal(t, "sum", sum, 0, 1e-9)
			near.Equal(t, "variance", squares/20, 0.95, 0.03)
		}
	}
	if anomaly(9, 1, 0) == anomaly(9, 2, 0) && anomaly(9, 1, 1) == anomaly(9, 2, 1) && anomaly(9, 1, 2) == anomaly(9, 2, 2) {
		t.Error("two months share their years")
	}
}

// The coefficients of the hours, at a day of clearness 0.5 worked by hand.
func TestHourlyModel(t *testing.T) {
	tag := newTag(0.5)
	near.Equal(t, "level", tag.level, -0.19+0.56+0.24*math.Exp(-4), 1e-12)
	near.Equal(t, "mean overhead", tag.mean(1), 0.3744+0.32*math.Exp(-0.44375), 1e-4)
	near.Equal(t, "spread overhead", tag.spread(1), 0.0893, 1e-4)
	near.Equal(t, "spread at 30°", tag.spread(0.5), 0.0893*math.Exp(0.5*0.5075), 1e-4)
	near.Equal(t, "persistence", tag.keep, 0.38+0.06*math.Cos(1.2), 1e-12)
}

// The course of the day has the published shape: lowest at 6, highest at 15.
func TestDayCourse(t *testing.T) {
	sum, low, high := 0.0, 0, 0
	for i, v := range course {
		sum += v
		if v < course[low] {
			low = i
		}
		if v > course[high] {
			high = i
		}
	}
	near.Equal(t, "mean", sum, 0, 1e-9)
	near.Equal(t, "range", course[high]-course[low], 1, 1e-12)
	if low < 5 || low > 6 || high < 14 || high > 15 {
		t.Errorf("lowest in hour %d, highest in %d", low, high)
	}
}

func TestSharpenKeepsDayMeans(t *testing.T) {
	means := []float64{3, 5, -2, 8, 8, 1, 0, 4}
	noons := sharpen(means)
	for d := 1; d < len(means)-1; d++ {
		near.Equal(t, "day mean", (noons[d-1]+6*noons[d]+noons[d+1])/8, means[d], 0.15)
	}
}
