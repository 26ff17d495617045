package travel

import "ampstead/fit"

// The most days a span has, and how long it is when that is not said.
const (
	mostSpan  = 31
	usualSpan = 7
)

// spanner takes down a stretch of a year.
type spanner struct {
	from, days int
	each       int // minutes in one entry
	out        *Span
	filled     []float64 // minutes that went into each entry
}

// newSpanner prepares a span, nil when none is wanted. Errors: *fit.InputError
// for a first day that is none.
func newSpanner(wish *SpanWish, stepS float64) (*spanner, error) {
	if wish == nil {
		return nil, nil
	}
	from, err := findDay(wish.From)
	if err != nil {
		return nil, &fit.InputError{Path: "span", Message: err.Error(), Expected: "a day of the year", Example: "01-15"}
	}
	s := &spanner{from: from, days: min(mostSpan, wish.Days)}
	if s.days < 1 {
		s.days = usualSpan
	}
	s.each = someMinutes
	if s.days > 10 {
		s.each = 15
	}
	s.each = max(s.each, int(stepS/60))
	n := s.days * minutes / s.each
	s.filled = make([]float64, n)
	zeros := func() []float64 { return make([]float64, n) }
	s.out = &Span{From: wish.From, StepS: float64(60 * s.each), SoC: zeros(), TempC: zeros(), AirC: zeros(),
		SunW: zeros(), OfferW: zeros(), LoadW: zeros(), BankV: zeros()}
	return s, nil
}

// note takes down some minutes that were stepped.
func (s *spanner) note(r *drive, before *Energies, d, m, n int, air float64) {
	if s == nil {
		return
	}
	k := (d - s.from + yearDays) % yearDays
	if k >= s.days {
		return
	}
	now, seconds := &r.books.t.Energies, float64(60*n)
	soc, cold := meanSoC(r.a.Bank.SoCs()), r.a.Bank.Temperatures()[0]
	for j := m; j < m+n; j++ {
		at := (k*minutes + j) / s.each
		if at >= len(s.filled) {
			return
		}
		s.filled[at]++
		s.out.SoC[at] += soc
		s.out.TempC[at] += cold
		s.out.AirC[at] += air
		s.out.SunW[at] += (now.SunCaught - before.SunCaught) / seconds
		s.out.OfferW[at] += (now.SunOffered - before.SunOffered) / seconds
		s.out.LoadW[at] += (now.Served - before.Served) / seconds
		s.out.BankV[at] += r.a.Bank.Volts()
	}
}

// span returns what was taken down, as means.
func (s *spanner) span() *Span {
	if s == nil {
		return nil
	}
	o := s.out
	for _, list := range [][]float64{o.SoC, o.TempC, o.AirC, o.SunW, o.OfferW, o.LoadW, o.BankV} {
		for k := range list {
			list[k] /= max(1, s.filled[k])
		}
	}
	return o
}
