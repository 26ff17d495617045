package prove

import (
	"math"
	"slices"
)

// decay is a rest split into a straight fall and a relaxation.
type decay struct {
	endSlope float64 // V/h over the last quarter
	noise    float64 // its standard error
	steady   float64 // V/h of the straight part
	creep    float64 // V/h that relaxation still makes in the last quarter
	doubt    float64 // V/h by which the forms of relaxation disagree about the straight part, half of it, or the fit's own error
}

const (
	beyondNoise = 3    // standard errors
	creepShare  = 0.15 // of the slope: with more than this in relaxation only an upper bound can be had
)

// settled tells whether relaxation is over, as far as the meter shows.
func (d decay) settled() bool {
	slope := math.Abs(d.endSlope)
	return slope < beyondNoise*d.noise || math.Abs(d.creep) < creepShare*slope && d.doubt < creepShare*slope
}

// decayOf reads a rest, its first hour (or twentieth) left out:
//
//	v = a + b·t + c·f(t),  f = e^(−t/τ) or ln(1 + t/τ)
//
// The two forms fall off quickest and slowest of those in use; where they
// disagree about b, the rest cannot tell it.
func decayOf(points []sample, read func(*sample) float64) decay {
	from, to := points[0].t, points[len(points)-1].t
	late := since(points, to-(to-from)/4)
	end := lineOf(late, read)
	d := decay{endSlope: end.slope, noise: end.sigma}
	kept := since(points, from+min(3600, (to-from)/20))
	hours := (to - from) / 3600
	quick := bestForm(kept, read, from, hours, func(x float64) float64 { return math.Exp(-x) })
	slow := bestForm(kept, read, from, hours, math.Log1p)
	if quick.square > worseFit*slow.square {
		quick = slow
	}
	if slow.square > worseFit*quick.square {
		slow = quick
	}
	d.steady = min(0, (quick.b+slow.b)/2)
	d.creep = d.endSlope - d.steady
	d.doubt = math.Hypot(math.Abs(quick.b-slow.b)/2, max(quick.sigma, slow.sigma))
	return d
}

// worseFit is how much larger the squares of a form's residuals are when the rest
// itself speaks against it.
const worseFit = 1.2

func since(points []sample, t float64) []sample {
	k, _ := slices.BinarySearchFunc(points, t, func(p sample, t float64) int {
		if p.t < t {
			return -1
		}
		return 1
	})
	return points[min(k, len(points)-3):]
}

// form is one form of relaxation fitted.
type form struct{ b, sigma, square float64 }

// bestForm tries time constants from a hundredth of the rest to twice it.
func bestForm(points []sample, read func(*sample) float64, from, hours float64, shape func(float64) float64) form {
	best := form{square: math.Inf(1)}
	for tau := hours / 100; tau < 2*hours; tau *= 1.5 {
		f := fitForm(points, read, func(p *sample) (t, relaxed float64) {
			t = (p.t - from) / 3600
			return t, shape(t / tau)
		})
		if f.square < best.square {
			best = f
		}
	}
	return best
}

func fitForm(points []sample, read func(*sample) float64, at func(*sample) (t, relaxed float64)) form {
	var normal [3][3]float64
	var right [3]float64
	first := read(&points[0])
	weights := spacing(points)
	for k := range points {
		t, f := at(&points[k])
		add(&normal, &right, [3]float64{1, t, f}, read(&points[k])-first, weights[k])
	}
	x, ok := solve(normal, right)
	if !ok {
		return form{square: math.Inf(1)}
	}
	square := 0.0
	for k := range points {
		t, f := at(&points[k])
		r := read(&points[k]) - first - x[0] - x[1]*t - x[2]*f
		square += weights[k] * r * r
	}
	inverse, _ := invert(normal)
	return form{x[1], math.Sqrt(inverse[1][1] * square / float64(max(1, len(points)-3))), square}
}

// line is a straight line through readings, V/h, with the slope's error.
type line struct{ slope, sigma float64 }

// lineOf fits by least squares, every reading for the time it stands for.
// Readings close in time err alike, so no more than twenty of them count as
// independent.
func lineOf(points []sample, read func(*sample) float64) line {
	weights := spacing(points)
	n, st, sv := float64(len(points)), 0.0, 0.0
	for k := range points {
		st += weights[k] * points[k].t / 3600
		sv += weights[k] * read(&points[k])
	}
	mt, mv := st/n, sv/n
	stt, stv, svv := 0.0, 0.0, 0.0
	for k := range points {
		t, v := points[k].t/3600-mt, read(&points[k])-mv
		stt, stv, svv = stt+weights[k]*t*t, stv+weights[k]*t*v, svv+weights[k]*v*v
	}
	if stt == 0 {
		return line{0, math.Inf(1)}
	}
	slope := stv / stt
	residual := max(0, svv-slope*stv) / n
	return line{slope, math.Sqrt((residual + readingVar) / (stt / n) / min(n, independent))}
}

// spacing is the time each sample stands for, its mean made 1: samples of a rest
// are thinned in the middle and not at the ends.
func spacing(points []sample) []float64 {
	weights := make([]float64, len(points))
	all := points[len(points)-1].t - points[0].t
	for k := 1; k < len(points); k++ {
		half := (points[k].t - points[k-1].t) / 2 / all * float64(len(points))
		weights[k-1] += half
		weights[k] += half
	}
	return weights
}

const (
	independent = 20
	readingVar  = 0.001 * 0.001 / 12 // V², of a meter that shows millivolts
)
