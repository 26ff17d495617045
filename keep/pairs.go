package keep

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"ampstead/physics/measure"
)

// What is taken of charge that a monitor counted; ours but where said.
const (
	countGain    = 0.005  // of the charge
	countLeastAh = 0.05   // of two readings of the counter
	countOffset  = 0.005  // A, error of the sensor at rest
	cycledADay   = 0.5    // of the capacity: what goes in and out unseen between visits
	lostShare    = 0.001  // of charge that goes in and out, five cycles of a pouch cell: 0.9990 ± 0.0005
	selfShareDay = 0.0008 // of the charge lost in a day, 2 to 3 % a month
	leastChange  = 0.10   // of the charge, for a pair
	leastFullH   = 0.15   // rested, for a state of charge
	blockDays    = 90.0   // pairs of so long make one point of the trend
	halfLifeDays = 720.0  // in which a pair comes to count half
)

// pair is charge counted between two rests.
type pair struct {
	at                time.Time
	days              float64 // before the last
	change, changeErr float64 // of the state of charge, fraction
	charge, chargeErr float64 // Ah
	curveErr          float64 // share by which the curve itself may be wrong over the change
}

// pairs lists what was counted between rested readings that tell the state of
// charge. Two neighbours make one, unless something was done to the bank in
// between.
func (s *study) pairs() []pair {
	var list []pair
	by := map[string]*visit{}
	var last *visit
	for _, v := range s.visits {
		if !s.rested(v) {
			continue
		}
		by[v.reading.ID] = v
		if !known(v.count) {
			continue
		}
		if last != nil && !s.doneBetween(last, v) {
			list = s.add(list, last, v, v.count-last.count, 0)
		}
		last = v
	}
	for _, c := range s.o.Counted {
		if a, b := by[c.From], by[c.To]; a != nil && b != nil && finite(c.Ah, c.ErrAh) {
			list = s.add(list, a, b, c.Ah, c.ErrAh)
		}
	}
	slices.SortStableFunc(list, func(a, b pair) int { return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.charge, b.charge)) })
	for k := range list {
		list[k].days = list[len(list)-1].at.Sub(list[k].at).Hours() / hoursADay
	}
	return list
}

func finite(list ...float64) bool {
	for _, v := range list {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func (s *study) rested(v *visit) bool {
	if !known(v.soc) || known(v.amps) && math.Abs(v.amps) > loadLeast*s.plant.bankAh {
		return false
	}
	return !known(v.restH) || v.restH >= leastFullH
}

// doneBetween reports whether charge went past the counter.
func (s *study) doneBetween(a, b *visit) bool {
	for _, d := range s.done {
		what := strings.ToLower(d.What)
		if d.At.After(a.reading.Taken) && !d.At.After(b.reading.Taken) && (strings.Contains(what, "balanced") || strings.Contains(what, "exchanged")) {
			return true
		}
	}
	return false
}

func (s *study) add(list []pair, a, b *visit, charge, stated float64) []pair {
	change := b.soc - a.soc
	days := math.Abs(b.hours-a.hours) / hoursADay
	if math.Abs(change) < leastChange || charge*change <= 0 {
		return list
	}
	ah := s.plant.bankAh
	unseen := math.Hypot(lostShare*cycledADay*ah*days, math.Hypot(countOffset*hoursADay*days, selfShareDay*ah*days))
	if stated == 0 {
		stated = math.Hypot(countGain*charge, countLeastAh)
	}
	return append(list, pair{at: b.reading.Taken, change: math.Abs(change), changeErr: math.Hypot(a.socErr, b.socErr),
		charge: math.Abs(charge), chargeErr: math.Hypot(stated, unseen),
		curveErr: s.plant.curveDoubt * math.Hypot(1/s.plant.slope(a.soc), 1/s.plant.slope(b.soc)) / math.Abs(change)})
}

// curveShare is the share by which pairs err together because the curve is not
// quite that of these cells: it does not average out.
func curveShare(list []pair) float64 {
	var shares []float64
	for _, p := range list {
		shares = append(shares, p.curveErr)
	}
	return middle(shares)
}

// agreed is the capacity that pairs agree on by total least squares, with an
// older pair counting less. Each pair's own two errors are carried into the one
// ratio the method knows, at the capacity found.
func agreed(list []pair, about float64) (ah, sigma float64, ok bool) {
	if len(list) == 0 {
		return 0, 0, false
	}
	ratios := make([]float64, len(list))
	for k, p := range list {
		ratios[k] = p.changeErr / p.chargeErr
	}
	ratio := middle(ratios)
	ah = about
	chi2 := 0.0
	for range 3 {
		sums := measure.Pairs{K: ratio}
		for k, p := range list {
			if k > 0 {
				sums.Forget(math.Exp2((p.days - list[k-1].days) / halfLifeDays))
			}
			both := math.Hypot(p.chargeErr, ah*p.changeErr)
			sums.Add(p.change, p.charge, both/math.Sqrt(1+ratio*ratio*ah*ah))
		}
		var err error
		if ah, sigma, chi2, err = sums.Capacity(); err != nil || !finite(ah, sigma) {
			return 0, 0, false
		}
	}
	if n := float64(len(list) - 1); n > 0 && chi2 > n { // they scatter more than their errors
		sigma *= math.Sqrt(chi2 / n)
	}
	return ah, sigma, true
}
