package prove

import (
	"math"

	"ampstead/physics/cell"
)

// tracePoint is one instant of a group's trace.
type tracePoint struct {
	q      float64 // Ah since the start of the trace, positive charging
	u      float64 // A of over-potential: volts over the group's 10 s resistance
	v      float64 // V
	weight float64 // independent readings it stands for
}

// curveFit is a group laid along its cell's curve:
//
//	v = U(start + q/capacity) + ohm·u
//
// found by least squares (Gauss-Newton steps with Levenberg's damping) with what
// is known beforehand of start and ohm as further observations.
type curveFit struct {
	start    float64 // state of charge at the start of the trace
	perAh    float64 // 1/capacity
	ohm      float64 // 10 s
	cov      [3][3]float64
	surprise float64
	misfit   float64 // residuals over what was expected of them, root of the mean square
	rmsV     float64
	endDoubt float64 // of the capacity, as a share, from the curve's doubt at the ends
	drop     float64 // V, the largest drop under load
	from, to float64 // state of charge covered, low and high
}

// capacity returns what the whole curve holds, Ah, and its standard error: that of
// the fit with what the curve's doubt at both ends makes of the charge
// between them, for a curve that is off is off over a stretch.
func (f *curveFit) capacity() (ah, sigma float64) {
	ah = 1 / f.perAh
	return ah, math.Hypot(f.scatter(), ah*f.endDoubt)
}

// scatter is the error of the fit alone: what groups of one kind do not share.
func (f *curveFit) scatter() float64 { return math.Sqrt(f.cov[1][1]) / (f.perAh * f.perAh) }

// beyond is how far the fit runs past empty or full, in state of charge.
func (f *curveFit) beyond() float64 { return max(0, -f.from, f.to-1) }

// widen makes the errors larger by a factor.
func (f *curveFit) widen(by float64) {
	f.endDoubt *= by
	for i := range f.cov {
		for j := range f.cov[i] {
			f.cov[i][j] *= by * by
		}
	}
}

// fitter holds what a fit is made of.
type fitter struct {
	curve  cell.Curve
	points []tracePoint
	doubtV float64 // of the curve, up and down
	start  belief
	ohm    belief

	expected []float64 // V, of each residual
}

// belief is a value known beforehand with its standard error.
type belief struct{ value, sigma float64 }

const (
	sideDoubt  = 0.01 // of the curve sideways, in state of charge: cells of one kind differ
	dropDoubt  = 0.15 // of the over-potential: one resistance stands for all states of charge
	iterations = 40

	// A fit that lies nearer than expected is surer by no more than this: what
	// bends with the curve does not show in the residuals.
	leastMisfit = 0.7
)

// from fits from a first guess of 1/capacity. What is expected of each residual
// is taken anew before every step and held within it.
func (f *fitter) from(perAh float64) curveFit {
	p := [3]float64{f.start.value, perAh, f.ohm.value}
	damp := 1e-3
	for range iterations {
		f.expect(p)
		cost, normal, right := f.sum(p)
		moved := false
		for damp < 1e9 && !moved {
			step, ok := solve(damped(normal, damp), right)
			next := [3]float64{p[0] + step[0], max(p[1]+step[1], p[1]/3), max(p[2]+step[2], 0)}
			nextCost, _, _ := f.sum(next)
			if moved = ok && nextCost <= cost; !moved {
				damp *= 10
				continue
			}
			if p, damp = next, max(damp/10, 1e-9); cost-nextCost < 1e-9*cost {
				return f.finish(p)
			}
		}
	}
	return f.finish(p)
}

// expect takes the error expected of each residual.
func (f *fitter) expect(p [3]float64) {
	f.expected = f.expected[:0]
	for _, t := range f.points {
		_, slope := along(f.curve, p[0]+t.q*p[1])
		f.expected = append(f.expected, f.sigma(slope, p[2]*t.u))
	}
}

// sum returns the cost and the normal equations.
func (f *fitter) sum(p [3]float64) (cost float64, normal [3][3]float64, right [3]float64) {
	for k, t := range f.points {
		rest, slope := along(f.curve, p[0]+t.q*p[1])
		sigma := f.expected[k]
		r := (t.v - rest - p[2]*t.u) / sigma
		cost += t.weight * r * r
		add(&normal, &right, [3]float64{slope / sigma, slope * t.q / sigma, t.u / sigma}, r, t.weight)
	}
	for _, known := range []struct {
		at int
		belief
	}{{0, f.start}, {2, f.ohm}} {
		var row [3]float64
		row[known.at] = 1 / known.sigma
		r := (known.value - p[known.at]) / known.sigma
		cost += r * r
		add(&normal, &right, row, r, 1)
	}
	return cost, normal, right
}

func (f *fitter) sigma(slope, drop float64) float64 {
	return math.Sqrt(f.doubtV*f.doubtV + slope*slope*sideDoubt*sideDoubt + dropDoubt*dropDoubt*drop*drop)
}

func add(normal *[3][3]float64, right *[3]float64, row [3]float64, r, weight float64) {
	for i := range row {
		right[i] += weight * row[i] * r
		for j := range row {
			normal[i][j] += weight * row[i] * row[j]
		}
	}
}

// finish works out errors and misfit. Of several fits the one of the lowest
// surprise is right: it counts what was expected of the residuals too.
func (f *fitter) finish(p [3]float64) curveFit {
	f.expect(p)
	out := curveFit{start: p[0], perAh: p[1], ohm: p[2], from: p[0], to: p[0]}
	weights, square, volts := 0.0, 0.0, 0.0
	for k, t := range f.points {
		soc := p[0] + t.q*p[1]
		rest, _ := along(f.curve, soc)
		r := t.v - rest - p[2]*t.u
		weights += t.weight
		square += t.weight * r * r / (f.expected[k] * f.expected[k])
		volts += t.weight * r * r
		out.surprise += 2 * t.weight * math.Log(f.expected[k])
		out.drop = max(out.drop, math.Abs(p[2]*t.u))
		out.from, out.to = min(out.from, soc), max(out.to, soc)
	}
	out.misfit, out.rmsV = math.Sqrt(square/weights), math.Sqrt(volts/weights)
	cost, normal, _ := f.sum(p)
	out.surprise += cost
	_, low := along(f.curve, out.from)
	_, high := along(f.curve, out.to)
	out.endDoubt = f.doubtV * math.Hypot(1/low, 1/high) / (out.to - out.from)
	out.cov = f.errors(normal, max(leastMisfit, out.misfit))
	return out
}

func (f *fitter) errors(normal [3][3]float64, wider float64) [3][3]float64 {
	inverse, ok := invert(normal)
	for i := range inverse {
		for j := range inverse[i] {
			inverse[i][j] *= wider * wider
			if !ok {
				inverse[i][j] = math.Inf(1)
			}
		}
	}
	return inverse
}

// along is the curve with its last slopes carried on beyond empty and full, so
// that a group driven past them still pulls the fit.
func along(c cell.Curve, soc float64) (volts, slope float64) {
	slope = c.Slope(soc)
	inside := min(max(soc, 0), 1)
	return c.Voltage(soc) + (soc-inside)*slope, slope
}
