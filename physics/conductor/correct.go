package conductor

import (
	"fmt"

	"ampstead/figure"
	"ampstead/source"
)

// factorStanding marks the engine-space factors that were read neither in the
// regulation nor in NFPA 70, by insulation rating.
var factorStanding = map[float64]source.Standing{80: source.Memory, 125: source.Memory, 200: source.Derived}

// inSpace corrects a rating in open air for an engine space.
func inSpace(r Rating, place string, column int) (Rating, error) {
	switch place {
	case Open, "":
		return r, nil
	case Engine:
		r.Amperes *= engineFactors[column]
		r.Basis += fmt.Sprintf("; × %g for an engine space", engineFactors[column])
		if standing, weak := factorStanding[cfrColumns[column]]; weak {
			r.Basis += ", " + string(standing)
			r.Weak = true
		}
		return r, nil
	}
	return Rating{}, fmt.Errorf("place %q: expected %s, %s or %s", place, Open, Enclosed, Engine)
}

// inBundle corrects a rating for the conductors lying together.
func inBundle(r Rating, bundle int) (Rating, error) {
	if bundle < 0 {
		return Rating{}, fmt.Errorf("%d conductors lying together: expected 1 or more: %w", bundle, figure.ErrRange)
	}
	if factor := bundleFactor(bundleFactors, bundle); factor < 1 {
		r.Amperes *= factor
		r.Basis += fmt.Sprintf("; × %g for %d conductors lying together", factor, bundle)
	}
	return r, nil
}

// bundleFactor is the last of the factors that a number of conductors reaches.
func bundleFactor(factors []bundled, conductors int) float64 {
	factor := 1.0
	for _, b := range factors {
		if conductors >= b.from {
			factor = b.factor
		}
	}
	return factor
}
