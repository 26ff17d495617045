package keep

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	q "ampstead/quantity"
)

const (
	testShare   = 0.01 // standard error of a capacity test
	statedDoubt = 0.03 // of a capacity in the rig file
	ratedDoubt  = 0.15 // of a rated one, in a bank nobody measured
	leastCurve  = 0.01 // share, of any curve
	trendDays   = 180.0
	daysAYear   = 365.25
	trendPoints = 3
)

// capacityPoint is an estimate on its day.
type capacityPoint struct {
	at      time.Time
	ah, err float64
	what    string
	partial bool
}

// capacity weighs partial cycles and tests.
func (s *study) capacity() {
	c := &s.res.Capacity
	c.Points = []CapacityPoint{}
	pairs := s.pairs()
	c.Pairs = len(pairs)
	points := append(s.tests(), blocks(pairs, s.plant.bankAh)...)
	slices.SortStableFunc(points, func(a, b capacityPoint) int { return a.at.Compare(b.at) })
	for _, p := range points {
		c.Points = append(c.Points, CapacityPoint{When: day(p.at), Ah: p.ah, Err: p.err})
	}
	c.Ah, c.Basis, c.ErrAh = s.plant.bankAh, "rated", ratedDoubt*s.plant.bankAh
	if s.fit.Cell.Measured {
		c.Basis, c.ErrAh = "as the rig file has it", statedDoubt*s.plant.bankAh
	}
	switch {
	case len(points) == 1 && !points[0].partial:
		c.Ah, c.ErrAh, c.Basis = points[0].ah, points[0].err, basis(points, c.Pairs)
	case len(points) > 0:
		s.trendOf(points, curveShare(pairs))
	}
	c.Share = c.Ah / s.plant.ratedAh
}

// tests are those of the logbook and the one of the rig file.
func (s *study) tests() []capacityPoint {
	var list []capacityPoint
	for _, d := range s.done {
		if strings.Contains(strings.ToLower(d.What), "capacity") && d.Value != nil && finite(*d.Value) && *d.Value > 0 {
			list = append(list, capacityPoint{d.At, *d.Value, testShare * *d.Value, "the test of " + day(d.At), false})
		}
	}
	if m := s.rig.Bank.Measured; m != nil && m.Capacity != nil && m.Date != nil {
		ah := float64(*m.Capacity)
		list = append(list, capacityPoint{m.Date.Time, ah, testShare * ah, "the test of " + day(m.Date.Time), false})
	}
	return list
}

// blocks makes a point of the pairs of each quarter of a year.
func blocks(pairs []pair, about float64) []capacityPoint {
	var list []capacityPoint
	for from := 0; from < len(pairs); {
		to := from + 1
		for to < len(pairs) && pairs[to].at.Sub(pairs[from].at).Hours() < blockDays*hoursADay {
			to++
		}
		if ah, err, ok := agreed(pairs[from:to], about); ok {
			last := pairs[to-1]
			list = append(list, capacityPoint{last.at, ah, err, counted(to - from), true})
		}
		from = to
	}
	return list
}

func counted(n int) string {
	if n == 1 {
		return "1 partial cycle"
	}
	return fmt.Sprintf("%d partial cycles, total least squares", n)
}

// trendOf draws a line through the points, level when they span too little time.
// What partial cycles tell may be off together by what the curve is off; tests
// beside them put that right.
func (s *study) trendOf(points []capacityPoint, curve float64) {
	c := &s.res.Capacity
	n := len(points)
	end := points[n-1].at
	p := problem{p: 2, y: make([]float64, n), sigma: make([]float64, n), row: func(k int) row {
		return row{1, counts(points[k].partial), -end.Sub(points[k].at).Hours() / hoursADay / daysAYear}
	}}
	p.priors[1] = prior{err: math.Max(curve, leastCurve) * s.plant.bankAh}
	for k, x := range points {
		p.y[k], p.sigma[k] = x.ah, x.err
	}
	if n >= trendPoints && end.Sub(points[0].at).Hours() > trendDays*hoursADay {
		p.p = 3
	}
	a := p.solve(&space{make([]row, n), make([]float64, n)}, reweights)
	if !a.ok {
		return
	}
	c.Ah, c.ErrAh = a.beta[0], math.Sqrt(a.cov[0][0])
	c.Basis = basis(points, c.Pairs)
	if p.p == 3 {
		c.PerYear, c.PerYearErr = a.beta[2], math.Sqrt(a.cov[2][2])
	}
}

func counts(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// basis says in words what a capacity rests on.
func basis(points []capacityPoint, pairs int) string {
	var list []string
	for k := len(points) - 1; k >= 0; k-- {
		if !points[k].partial {
			list = append(list, points[k].what)
			break
		}
	}
	if pairs > 0 {
		list = append([]string{counted(pairs)}, list...)
	}
	return strings.Join(list, ", and ")
}

func (s *study) degrees(v float64) string { return q.Celsius.Text(v, s.sys) }
