package measure

import (
	"fmt"
	"math"
)

// CapacityOf returns the capacity (Ah) that one pair shows, and its standard
// error: charge moved (Ah) over the change of state of charge (fraction), each
// with its own standard error. Q = y/x; σ = Q·√((σy/y)² + (σx/x)²).
func CapacityOf(charge, chargeErr, change, changeErr float64) (ah, sigma float64) {
	ah = charge / change
	return ah, math.Abs(ah) * math.Hypot(chargeErr/charge, changeErr/change)
}

// Pairs gathers pairs of a change of state of charge x and the charge moved y
// that both have errors, and finds the capacity they agree on by total least
// squares in Plett's proportional case: σx = k·σy with one k for all pairs. The
// sums are recursive, so that pairs can be added for years and the sums stored.
// The zero value with K set is empty.
type Pairs struct {
	K          float64 // σx/σy, 1/Ah
	C1, C2, C3 float64 // Σx²/σy², Σxy/σy², Σy²/σy²
}

// Add takes a pair: change of state of charge x (fraction), charge y (Ah) and the
// charge's standard error (Ah, > 0).
func (p *Pairs) Add(x, y, sigmaY float64) {
	w := 1 / (sigmaY * sigmaY)
	p.C1, p.C2, p.C3 = p.C1+x*x*w, p.C2+x*y*w, p.C3+y*y*w
}

// Forget weakens what was added so far by a factor of at most one.
func (p *Pairs) Forget(keep float64) {
	p.C1, p.C2, p.C3 = p.C1*keep, p.C2*keep, p.C3*keep
}

// Capacity returns the capacity (Ah), its standard error, and chi squared: the
// sum of the squared distances over their errors. Error: no pair in which charge
// moved the way the state of charge did.
func (p *Pairs) Capacity() (ah, sigma, chi2 float64, err error) {
	if !(p.C1 > 0 && p.C2 > 0) {
		return 0, 0, 0, fmt.Errorf("no pair shows a capacity")
	}
	if ah = p.C2 / p.C1; p.K > 0 {
		k2 := p.K * p.K
		half := p.C1 - k2*p.C3
		ah = (-half + math.Sqrt(half*half+4*k2*p.C2*p.C2)) / (2 * k2 * p.C2)
	}
	return ah, math.Sqrt(2 / p.curvature(ah)), p.chi2(ah), nil
}

// Weighted returns the capacity with errors in the charge only, and its standard
// error: too small, and the value biased, when the state of charge errs too.
func (p *Pairs) Weighted() (ah, sigma float64) {
	return p.C2 / p.C1, 1 / math.Sqrt(p.C1)
}

func (p *Pairs) chi2(q float64) float64 {
	return (p.C3 - 2*q*p.C2 + q*q*p.C1) / (1 + p.K*p.K*q*q)
}

// curvature is the second derivative of chi squared by the capacity.
func (p *Pairs) curvature(q float64) float64 {
	k2 := p.K * p.K
	n, n1, n2 := p.C3-2*q*p.C2+q*q*p.C1, 2*(q*p.C1-p.C2), 2*p.C1
	d, d1, d2 := 1+k2*q*q, 2*k2*q, 2*k2
	return n2/d - 2*n1*d1/(d*d) - n*d2/(d*d) + 2*n*d1*d1/(d*d*d)
}
