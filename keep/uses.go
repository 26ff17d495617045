package keep

import (
	"math"
	"strconv"
	"strings"

	"ampstead/figure"
	"ampstead/physics/balance"
	"ampstead/physics/measure"
)

const pairsShown = 20

// figuresUsed applies the figures behind the numbers, so that each can explain
// itself on the readings it rests on. A figure that refuses a reading is left out.
func (s *study) figuresUsed() {
	s.useBleed()
	s.useLeak()
	s.usePairs()
}

func (s *study) useBleed() {
	v := s.latest()
	if v == nil || len(present(v.rest)) != s.plant.n {
		return
	}
	_, _ = s.figures.Try(balance.Bleed, figure.T("cell", s.plant.kind.Name), figure.N("capacity", s.plant.bankAh), figure.T("voltages", list(v.rest)))
}

// useLeak shows the fastest drift on its first and last reading alone.
func (s *study) useLeak() {
	g := s.drifting()
	if g == nil || len(s.usable) < 2 {
		return
	}
	first, last, k := s.usable[0], s.usable[len(s.usable)-1], g.Number-1
	days := (last.hours - first.hours) / hoursADay
	if !known(first.rest[k]) || !known(last.rest[k]) || days <= 0 {
		return
	}
	_, _ = s.figures.Try(balance.LeakFromRest, figure.T("cell", s.plant.kind.Name), figure.N("voltage-before", first.rest[k]),
		figure.N("voltage-after", last.rest[k]), figure.N("days", days), figure.N("capacity", s.plant.ah[k]), figure.N("meter-error", last.mixed))
}

func (s *study) usePairs() {
	pairs := s.pairs()
	if len(pairs) == 0 {
		return
	}
	pairs = pairs[max(0, len(pairs)-pairsShown):]
	var changes, charges, changeErrs, chargeErrs []float64
	for _, p := range pairs {
		changes, charges = append(changes, p.change), append(charges, p.charge)
		changeErrs, chargeErrs = append(changeErrs, p.changeErr), append(chargeErrs, p.chargeErr)
	}
	_, _ = s.figures.Try(measure.CapacityTLS, figure.T("changes", list(changes)), figure.T("charges", strings.ReplaceAll(list(charges), ",", " Ah,")+" Ah"),
		figure.N("change-error", middle(changeErrs)), figure.N("charge-error", middle(chargeErrs)))
}

func list(values []float64) string {
	var words []string
	for _, v := range values {
		words = append(words, strconv.FormatFloat(math.Round(v*1e5)/1e5, 'g', -1, 64))
	}
	return strings.Join(words, ",")
}
