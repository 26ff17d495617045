package keep

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"ampstead/rig"
	"ampstead/store"
)

// What is taken where the log does not say; ours.
const (
	unknownStepV  = 0.001
	unknownErrorV = 0.005 // of a meter nobody described
	unknownRestH  = 1.0
	worstMeterV   = 0.2 // worse is no cell meter: what it is said to be is not believed
)

// visit is one reading made ready. A number that was not read is NaN.
type visit struct {
	reading store.Reading
	hours   float64 // since the first visit
	raw     []float64
	bankV   float64
	amps    float64
	tempC   float64 // mean of the sensors
	tempGap float64 // hottest less coldest
	restH   float64
	count   float64
	meter   store.Meter

	rest   []float64 // each group's voltage without its current's share
	charge []float64 // Ah below full, negative; NaN where the curve tells nothing
	errAh  []float64 // one sigma of charge against the other groups
	soc    float64   // of the middle group, or from the bank's voltage
	socErr float64   // with what all groups share
	mixed  float64   // V, error of one group against the others
	offset []float64 // Ah against the groups' common charge
	below  float64   // that common charge, Ah below full
	weight float64
	why    []string
}

func known(v float64) bool { return !math.IsNaN(v) }

// number takes a value that may be absent or no number.
func number(v *float64) float64 {
	if v == nil || math.IsInf(*v, 0) {
		return math.NaN()
	}
	return *v
}

// visitsOf puts readings in order of time, whatever order they came in; those
// without a time or withdrawn are left out.
func (s *study) visitsOf(readings []store.Reading, meters []store.Meter) []*visit {
	list := slices.DeleteFunc(slices.Clone(readings), func(r store.Reading) bool { return r.Gone || r.Taken.IsZero() })
	slices.SortFunc(list, func(a, b store.Reading) int {
		return cmp.Or(a.Taken.Compare(b.Taken), cmp.Compare(a.ID, b.ID), cmp.Compare(a.Version, b.Version))
	})
	by := map[string]store.Meter{}
	for _, m := range meters {
		by[m.Name] = m
	}
	visits := make([]*visit, len(list))
	for k, r := range list {
		visits[k] = s.visitOf(r, by)
		visits[k].hours = r.Taken.Sub(list[0].Taken).Hours()
	}
	return visits
}

func (s *study) visitOf(r store.Reading, meters map[string]store.Meter) *visit {
	v := &visit{reading: r, bankV: number(r.BankV), amps: number(r.Amps), restH: number(r.RestH), count: number(r.CountAh)}
	v.raw = make([]float64, s.plant.n)
	for k := range v.raw {
		v.raw[k] = math.NaN()
		if k < len(r.Groups) {
			v.raw[k] = number(r.Groups[k])
		}
	}
	if len(r.Groups) > 0 && len(r.Groups) != s.plant.n {
		v.why = append(v.why, fmt.Sprintf("%d groups read, the bank has %d", len(r.Groups), s.plant.n))
	}
	v.tempC, v.tempGap = warmth(r.TempsC)
	meter, ok := meters[r.Meter]
	if sigma := sigmaOf(meter); !ok || !finite(sigma) || meter.ErrorV < 0 || meter.StepV < 0 || sigma == 0 || sigma > worstMeterV {
		meter = s.meter
	}
	v.meter = meter
	return v
}

// warmth is the mean of the sensors that make sense, and how far they lie apart.
func warmth(temps []float64) (mean, gap float64) {
	n, low, high := 0, math.Inf(1), math.Inf(-1)
	for _, t := range temps {
		if t > -60 && t < 120 {
			n++
			mean += t
			low, high = math.Min(low, t), math.Max(high, t)
		}
	}
	if n == 0 {
		return math.NaN(), 0
	}
	return mean / float64(n), high - low
}

// meterOf is the meter taken where a reading names none that is known: the rig's
// cell meter, its tolerance read as the ends of an even spread.
func meterOf(r *rig.Rig) store.Meter {
	m := store.Meter{StepV: unknownStepV, ErrorV: unknownErrorV}
	for _, known := range r.Protection.Meters {
		if known.Tolerance != nil && *known.Tolerance > 0 {
			m.ErrorV = float64(*known.Tolerance) / math.Sqrt(3)
			break
		}
	}
	return m
}

// sigmaOf is the standard error of one voltage: the meter's own and that of its
// step, even within it.
func sigmaOf(m store.Meter) float64 { return math.Hypot(m.ErrorV, m.StepV/math.Sqrt(12)) }

func day(t time.Time) string { return t.Format(time.DateOnly) }
