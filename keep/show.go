package keep

import (
	"math"
	"slices"
	"strings"
	"time"
)

// show fills in what the readings themselves tell.
func (s *study) show() {
	s.res.Readings = len(s.visits)
	if n := len(s.visits); n > 0 {
		s.res.From = s.visits[0].reading.Taken.Format(time.RFC3339)
		s.res.To = s.visits[n-1].reading.Taken.Format(time.RFC3339)
	}
	for _, v := range s.visits {
		s.res.Used = append(s.res.Used, s.used(v))
	}
	for _, v := range s.usable {
		s.res.Trend = append(s.res.Trend, Point{Taken: v.reading.Taken.Format(time.RFC3339), MV: 1000 * spread(v.rest),
			Ah: spread(v.offset), Groups: zeroed(v.offset), Weight: v.weight})
	}
	if v := s.latest(); v != nil {
		s.res.SpreadMV, s.res.SpreadAh = 1000*spread(v.rest), spread(v.offset)
	}
	for k := len(s.visits) - 1; k >= 0; k-- {
		if v := s.visits[k]; known(v.soc) && !v.heavy(s.plant.bankAh) {
			soc := math.Max(0, math.Min(1, v.soc))
			s.res.SoC, s.res.SoCErr = &soc, v.socErr
			break
		}
	}
}

// latest is the last visit that tells the groups' charges, nil when none does.
func (s *study) latest() *visit {
	if len(s.usable) == 0 {
		return nil
	}
	return s.usable[len(s.usable)-1]
}

// heavy reports whether a visit was read under more current than can be taken off.
func (v *visit) heavy(bankAh float64) bool {
	return known(v.amps) && math.Abs(v.amps) > loadMost*bankAh
}

func (s *study) used(v *visit) Used {
	u := Used{ID: v.reading.ID, Taken: v.reading.Taken.Format(time.RFC3339), Weight: v.weight, Why: strings.Join(v.why, "; ")}
	if known(v.soc) {
		u.BankSoC = v.soc
	}
	if v.weight > 0 {
		u.Offsets, u.Errors = zeroed(v.offset), zeroed(v.errAh)
	}
	return u
}

// zeroed writes what was not read as zero, for JSON has no other number for it;
// its error is zero too, which no reading's is.
func zeroed(list []float64) []float64 {
	out := slices.Clone(list)
	for k, v := range out {
		if !known(v) {
			out[k] = 0
		}
	}
	return out
}

func spread(list []float64) float64 {
	have := present(list)
	if len(have) == 0 {
		return 0
	}
	return slices.Max(have) - slices.Min(have)
}
