package prove

import (
	"math"

	"ampstead/physics/cell"
)

// groupStudy is what is found of one group before it is told.
type groupStudy struct {
	number int
	fit    curveFit
	fitted bool
	fitter fitter    // what the fit was made of
	start  cell.Band // read from the rest before the load
	restV  float64   // NaN when there is none
	meterV float64   // error of a difference between two groups' readings
	endV   float64

	why     string // it cannot be told, empty when it can
	strange bool   // it does not lie along the curve
}

// fitGroups lays every group along the cell's curve.
func (s *study) fitGroups() []groupStudy {
	w := s.window()
	if len(w.segs) == 0 {
		return nil
	}
	list := make([]groupStudy, s.cells())
	for g := range list {
		list[g] = s.fitGroup(g, w)
	}
	s.refine(list)
	return list
}

func (s *study) fitGroup(g int, w window) groupStudy {
	out := groupStudy{number: g + 1, restV: math.NaN(), endV: w.end().groupV(g)}
	f := fitter{curve: s.kind.Curve, doubtV: s.kind.RestDoubtV.Value, start: belief{0.5, 1}}
	if rest := &w.segs[0]; rest.Kind == "rest" {
		out.restV, out.meterV = w.origin().groupV(g), math.Sqrt2*settledV
		out.start = s.standing(out.restV, restErrorV(rest, g))
		f.start = belief{out.start.SoC, (out.start.High - out.start.Low) / 2}
	}
	moved := math.Abs(w.end().ah - w.origin().ah)
	for _, share := range []float64{0.25, 0.5, 0.8, 1} { // of the curve that what was moved may stand for
		perAh := share / moved
		ohm := s.kind.ResistanceOhm(1/perAh, 25)
		f.ohm = belief{1.2 * ohm, 0.6 * ohm} // a long load shows more than the branch of a 10 s pulse
		f.points = s.trace(g, w, perAh)
		if len(f.points) < 10 {
			return out
		}
		if fit := f.from(perAh); !out.fitted || fit.surprise < out.fit.surprise {
			out.fit, out.fitted, out.fitter = fit, true, f
			out.fitter.expected = nil
		}
	}
	return out
}

// settledV is the error of a rest voltage that has settled: the meter's.
const settledV = 0.002

// restErrorV is how far a rest voltage may still be from settled: 10 mV after a
// minute, as rests of the pouch's pulse test show, less when nothing moves.
func restErrorV(rest *segment, g int) float64 {
	first, last := rest.points[0].groupV(g), rest.points[len(rest.points)-1].groupV(g)
	switch {
	case rest.To-rest.From >= restReadS:
		return settledV
	case rest.From == 0 && math.Abs(last-first) < 0.002:
		return 0.003
	}
	return 0.010
}

// standing reads a rest voltage; beyond the ends of the curve it is empty or full.
func (s *study) standing(v, errorV float64) cell.Band {
	b, err := s.kind.Rest(v, errorV)
	if err != nil {
		soc := s.kind.Curve.SoC(v)
		return cell.Band{SoC: soc, Low: soc - 0.03, High: soc + 0.03}
	}
	b.High = max(b.High, b.Low+0.01)
	return b
}
