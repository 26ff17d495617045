package keep

import (
	"fmt"
	"math"
	"slices"
)

// How far a reading that was not taken at full rest may mislead; ours, after a
// pouch cell of a vehicle at 25 °C, whose voltage moved 10 to 30 mV between the
// first minute and one hour of rest, and 20 mV more until 48 h. Groups move
// alike: a tenth of it is taken to differ between them.
const (
	restApartV  = 0.002 // between groups after 1 h, falling with 1/hours
	restMostV   = 0.020
	restSharedV = 0.006 // of all groups after 1 h, falling with 1/√hours
	loadShared  = 0.5   // of the drop, since the slow part goes on growing
	loadMost    = 0.10  // of the capacity per hour: above, a reading is set aside
	loadLeast   = 0.005 // below, the bank counts as at rest
	warmV       = 0.0001
	warmLowV    = 0.0004 // V/K, dU/dT below a fifth of the charge
	lowCharge   = 0.2
)

// bring reads a visit as charge at rest: without the current's share, group by
// group through the cell's curve, each with its error.
func (s *study) bring(v *visit) {
	n := s.plant.n
	v.rest, v.charge, v.errAh = make([]float64, n), nans(n), nans(n)
	loaded := known(v.amps) && math.Abs(v.amps) > loadLeast*s.plant.bankAh
	drop := s.withoutCurrent(v)
	socs := s.read(v)
	v.soc = middle(socs)
	if len(present(socs)) == 0 {
		s.fromBank(v)
	}
	v.mixed = s.apart(v, loaded, drop)
	if known(v.soc) {
		v.socErr = s.shared(v, loaded, drop) / s.plant.slope(v.soc)
	}
	if s.setAside(v) {
		return
	}
	readable := 0
	reach := math.Max(slopeReach, 2*v.mixed/s.plant.fair()) // an erring voltage may lie on the next bend
	for k, soc := range socs {
		if !known(soc) {
			continue
		}
		readable++
		v.charge[k] = s.plant.ah[k] * (soc - 1)
		v.errAh[k] = s.plant.ah[k] * v.mixed / s.plant.slopeOver(soc, reach)
	}
	if readable > 0 {
		v.weight = s.weigh(v)
	}
}

// withoutCurrent fills in the rest voltages and returns the mean drop, V.
func (s *study) withoutCurrent(v *visit) (drop float64) {
	factor := s.plant.kind.ResistanceFactor(v.warm())
	amps := 0.0
	if known(v.amps) {
		amps = v.amps
	}
	for k, raw := range v.raw {
		each := amps * s.plant.ohm[k] * factor
		v.rest[k] = raw - each
		drop += math.Abs(each) / float64(s.plant.n)
	}
	return drop
}

// warm is the temperature, as of a mild day where nobody read it.
func (v *visit) warm() float64 {
	if known(v.tempC) {
		return v.tempC
	}
	return mildC
}

const mildC = 20

// read turns rest voltages into states of charge; NaN where a voltage was not
// read, is none of this cell's, or tells nothing.
func (s *study) read(v *visit) []float64 {
	socs := nans(s.plant.n)
	flat := 0
	for k, volt := range v.rest {
		if !known(volt) {
			continue
		}
		band, err := s.plant.kind.Rest(volt, sigmaOf(v.meter))
		switch {
		case err != nil:
			v.why = append(v.why, fmt.Sprintf("group %d at %s is off the cell's curve", k+1, s.volts(v.raw[k])))
		case band.Flat:
			flat++
		default:
			socs[k] = s.plant.soc(volt)
		}
	}
	if flat > 0 {
		v.why = append(v.why, flatWhy(flat, len(present(v.rest))))
	}
	return socs
}

func flatWhy(flat, of int) string {
	if flat == of {
		return "flat part of the curve"
	}
	return fmt.Sprintf("%d of %d groups on the flat part of the curve", flat, of)
}

// fromBank takes the state of charge from the bank's voltage when no group was
// read.
func (s *study) fromBank(v *visit) {
	if !known(v.bankV) || len(present(v.raw)) > 0 {
		return
	}
	amps := 0.0
	if known(v.amps) {
		amps = v.amps
	}
	ohm := 0.0
	for _, each := range s.plant.ohm {
		ohm += each
	}
	volt := (v.bankV - amps*ohm*s.plant.kind.ResistanceFactor(v.warm())) / float64(s.plant.n)
	v.why = append(v.why, "no group was read")
	if band, err := s.plant.kind.Rest(volt, sigmaOf(v.meter)/float64(s.plant.n)); err == nil && !band.Flat {
		v.soc = s.plant.soc(volt)
	}
}

// apart is the standard error (V) of one group's rest voltage against the
// others': what they share drops out.
func (s *study) apart(v *visit, loaded bool, drop float64) float64 {
	slope := warmV
	if v.soc < lowCharge {
		slope = warmLowV
	}
	sum := math.Hypot(sigmaOf(v.meter), slope*v.tempGap)
	switch {
	case loaded:
		v.why = append(v.why, fmt.Sprintf("under load of %s", s.amps(v.amps)))
		return math.Hypot(sum, math.Hypot(s.plant.ohmDoubt*drop, restApartV))
	case !known(v.restH):
		v.why = append(v.why, "rest not stated, taken as one hour")
		return math.Hypot(sum, restApartV/unknownRestH)
	case v.restH < unknownRestH:
		v.why = append(v.why, fmt.Sprintf("%.2g h after a current: relaxation", v.restH))
	}
	return math.Hypot(sum, math.Min(restMostV, restApartV/math.Max(v.restH, 1e-3)))
}

// shared is the standard error (V) of the rest voltage itself.
func (s *study) shared(v *visit, loaded bool, drop float64) float64 {
	sum := sigmaOf(v.meter)
	if loaded {
		return math.Hypot(sum, math.Hypot(loadShared*drop, restSharedV))
	}
	rest := unknownRestH
	if known(v.restH) {
		rest = math.Max(v.restH, 1e-3)
	}
	return math.Hypot(sum, math.Min(restMostV, restSharedV/math.Sqrt(rest)))
}

// setAside reports whether a visit is worth nothing for drift, with the reason.
func (s *study) setAside(v *visit) bool {
	if known(v.amps) && math.Abs(v.amps) > loadMost*s.plant.bankAh {
		return true
	}
	return len(present(v.rest)) < 2
}

// weigh is what a visit is worth beside one fully rested with the same meter on
// a fair slope of the curve.
func (s *study) weigh(v *visit) float64 {
	w := math.Pow(sigmaOf(v.meter)/v.mixed, 2)
	steep := s.plant.slope(v.soc) / s.plant.fair()
	if steep < 0.7 {
		v.why = append(v.why, "the curve is flat there")
	}
	return w * math.Min(1, steep*steep)
}

func nans(n int) []float64 {
	list := make([]float64, n)
	for k := range list {
		list[k] = math.NaN()
	}
	return list
}

// present lists the numbers that were read.
func present(list []float64) []float64 {
	return slices.DeleteFunc(slices.Clone(list), math.IsNaN)
}

// middle is the median of the numbers that were read, NaN when there is none.
func middle(list []float64) float64 {
	have := present(list)
	if len(have) == 0 {
		return math.NaN()
	}
	slices.Sort(have)
	n := len(have)
	return (have[(n-1)/2] + have[n/2]) / 2
}

func mean(list []float64) (m float64) {
	for _, v := range list {
		m += v / float64(len(list))
	}
	return m
}
