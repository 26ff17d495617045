package live

import (
	"fmt"
	"math"
	"time"

	q "ampstead/quantity"
)

// look judges one alarm from the values that are fresh. say is asked only when the
// words are wanted.
type look func(w *watch, at time.Time) (v verdict, say func() string)

// rules are the alarms of limits.
var rules = []struct {
	key  string
	look look
}{
	{"group high", groupHigh}, {"group low", groupLow}, {"spread", spread},
	{"bank high", bankHigh}, {"bank low", bankLow}, {"hot", hot}, {"frost", frost},
}

func groupHigh(w *watch, at time.Time) (verdict, func() string) {
	_, high, n := w.extremes(w.groups, at)
	if n == 0 {
		return unknown, nil
	}
	limit := w.limits.high
	return over(high.v, limit, backV), func() string {
		return fmt.Sprintf("group %d at %s, high limit %s (%s)", high.number, volts(high.v, 3), volts(limit, 3), w.limits.basis)
	}
}

func groupLow(w *watch, at time.Time) (verdict, func() string) {
	low, _, n := w.extremes(w.groups, at)
	if n == 0 {
		return unknown, nil
	}
	limit := w.limits.low
	return under(low.v, limit, backV), func() string {
		return fmt.Sprintf("group %d at %s, low limit %s (%s)", low.number, volts(low.v, 3), volts(limit, 3), w.limits.basis)
	}
}

func spread(w *watch, at time.Time) (verdict, func() string) {
	low, high, n := w.extremes(w.groups, at)
	limit := w.limits.spread
	if n < 2 || math.IsInf(limit, 0) {
		return unknown, nil
	}
	return over(high.v-low.v, limit, backSpread*limit), func() string {
		return fmt.Sprintf("group %d stands %s above group %d, spread limit %s", high.number,
			q.Volts.Fixed(high.v-low.v, "mV", 0), low.number, q.Volts.Fixed(limit, "mV", 0))
	}
}

// bankHigh holds the bank against so many times the limit of a group: beyond it,
// some group is beyond its own.
func bankHigh(w *watch, at time.Time) (verdict, func() string) {
	n := float64(w.limits.groups)
	return w.bank("high", w.limits.high*n, at, func(v, limit float64) verdict { return over(v, limit, backV*n) })
}

func bankLow(w *watch, at time.Time) (verdict, func() string) {
	n := float64(w.limits.groups)
	return w.bank("low", w.limits.low*n, at, func(v, limit float64) verdict { return under(v, limit, backV*n) })
}

func (w *watch) bank(side string, limit float64, at time.Time, against func(v, limit float64) verdict) (verdict, func() string) {
	h := &w.single[bankAt]
	if !w.fresh(h, at) {
		return unknown, nil
	}
	return against(h.v, limit), func() string {
		return fmt.Sprintf("bank at %s, %s limit %s (%d groups, %s)", volts(h.v, 2), side, volts(limit, 2), w.limits.groups, w.limits.basis)
	}
}

func hot(w *watch, at time.Time) (verdict, func() string) {
	_, high, n := w.extremes(w.temps, at)
	if n == 0 || math.IsInf(w.limits.hot, 0) {
		return unknown, nil
	}
	return over(high.v, w.limits.hot, backK), func() string {
		return fmt.Sprintf("sensor %d at %s, limit %s", high.number, w.degrees(high.v), w.degrees(w.limits.hot))
	}
}

// frost needs both a temperature and a current: cold alone does no harm.
func frost(w *watch, at time.Time) (verdict, func() string) {
	low, _, n := w.extremes(w.temps, at)
	amps := &w.single[currentAt]
	if n == 0 || !w.fresh(amps, at) {
		return unknown, nil
	}
	cold, charging := under(low.v, w.limits.frost, backK), over(amps.v, w.limits.chargeA, w.limits.chargeA/2)
	return min(cold, charging), func() string {
		return fmt.Sprintf("sensor %d at %s at a current of %s, no charging below %s", low.number, w.degrees(low.v),
			q.Amperes.Fixed(amps.v, "A", 1), w.degrees(w.limits.frost))
	}
}

func volts(v float64, decimals int) string { return q.Volts.Fixed(v, "V", decimals) }

func (w *watch) degrees(c float64) string {
	return q.Celsius.Fixed(c, q.Celsius.Show(c, w.units), 1)
}

type extreme struct {
	number int
	v      float64
}

// extremes are the lowest and the highest fresh value, and how many there are.
func (w *watch) extremes(list []heard, at time.Time) (low, high extreme, n int) {
	low.v, high.v = math.Inf(1), math.Inf(-1)
	for k := range list {
		h := &list[k]
		if !w.fresh(h, at) {
			continue
		}
		n++
		if h.v < low.v {
			low = extreme{k + 1, h.v}
		}
		if h.v > high.v {
			high = extreme{k + 1, h.v}
		}
	}
	return low, high, n
}

// fresh reports whether a value was heard and its source has not gone silent.
func (w *watch) fresh(h *heard, at time.Time) bool {
	return !h.at.IsZero() && at.Sub(h.at) < w.plan.sources[h.source].silent
}
