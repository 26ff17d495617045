package keep

import (
	"fmt"
	"math"
	"time"

	"ampstead/physics/measure"
)

const (
	stepMinutes = 15.0
	stepShare   = 0.02 // of the capacity per hour, least change of current
	trendOhms   = 3
)

// ohmPoint is one resistance at 25 °C.
type ohmPoint struct {
	at       time.Time
	ohm, err float64
}

// resistance takes steps of load: two readings minutes apart at different
// currents. Minutes show more than the ten seconds of a pulse; it is stated.
func (s *study) resistance() {
	points := s.ohms()
	if len(points) == 0 {
		return
	}
	end := points[len(points)-1].at
	p := problem{p: 1, row: func(k int) row { return row{1, -end.Sub(points[k].at).Hours() / hoursADay / daysAYear} }}
	for _, x := range points {
		p.y, p.sigma = append(p.y, x.ohm), append(p.sigma, x.err)
	}
	if len(points) >= trendOhms && end.Sub(points[0].at).Hours() > trendDays*hoursADay {
		p.p = 2
	}
	a := p.solve(&space{make([]row, len(points)), make([]float64, len(points))}, reweights)
	if !a.ok {
		return
	}
	r := &Quantity{Value: a.beta[0], Err: math.Sqrt(a.cov[0][0]), When: day(end),
		Basis: fmt.Sprintf("%d steps of load, minutes apart, brought to 25 °C", len(points))}
	if p.p == 2 {
		r.PerYear, r.PerYearErr = a.beta[1], math.Sqrt(a.cov[1][1])
	}
	s.res.Resistance = r
}

func (s *study) ohms() []ohmPoint {
	var list []ohmPoint
	for k := 1; k < len(s.visits); k++ {
		a, b := s.visits[k-1], s.visits[k]
		step := b.amps - a.amps
		if b.hours-a.hours > stepMinutes/60 || b.hours <= a.hours || !(math.Abs(step) >= stepShare*s.plant.bankAh) {
			continue
		}
		before, after, ok := s.terminals(a, b)
		if !ok {
			continue
		}
		ohm, err := measure.OhmOf(before, after, sigmaOf(b.meter)*math.Sqrt(float64(s.plant.n)), step)
		factor := s.plant.kind.ResistanceFactor(b.warm())
		if ohm > 0 {
			list = append(list, ohmPoint{b.reading.Taken, ohm / factor, err / factor})
		}
	}
	return list
}

// terminals are the bank's voltages at two visits, read or added up.
func (s *study) terminals(a, b *visit) (before, after float64, ok bool) {
	if len(present(a.raw)) == s.plant.n && len(present(b.raw)) == s.plant.n {
		return sum(a.raw), sum(b.raw), true
	}
	return a.bankV, b.bankV, known(a.bankV) && known(b.bankV)
}

func sum(list []float64) (total float64) {
	for _, v := range list {
		total += v
	}
	return total
}
