package travel

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"ampstead/fit"
	"ampstead/physics/sun"
	"ampstead/source"
	"ampstead/weather"
	"ampstead/weather/climate"
	"ampstead/weather/synthetic"
)

// skies makes the weather of the route for any year. It does not change and may
// be shared.
type skies struct {
	route  *route
	seed   uint64
	places []*synthetic.Generator // by place, for synthetic years
	doubt  []weather.Monthly
	files  []*weather.Hours // years of a file
}

// daySky is the weather around one day: the hours and which of them begins it.
type daySky struct {
	fine  *weather.Fine
	hours *weather.Hours
	first int
}

// skiesOf prepares the weather. Errors: *fit.InputError for a place without
// climate, an error for a file without a whole year.
func skiesOf(r *route, o Options) (*skies, error) {
	s := &skies{route: r, seed: o.Seed}
	if o.Weather != nil {
		if err := o.Weather.Check(); err != nil {
			return nil, err
		}
		if s.files = o.Weather.Years(); len(s.files) == 0 {
			return nil, fmt.Errorf("the weather file holds no whole calendar year")
		}
		return s, nil
	}
	for i := range r.places {
		if err := s.place(&r.places[i]); err != nil {
			return nil, err
		}
	}
	return s, nil
}

func (s *skies) place(p *place) error {
	elevation := climate.Unknown
	if e := p.stay.Elevation; e != nil {
		elevation = float64(*e)
	}
	m, err := climate.At(p.latitude, p.longitude, elevation)
	if err != nil {
		return &fit.InputError{Path: "route." + p.stay.Name + ".latitude", Message: err.Error(), Expected: "a place on land, or an hourly weather file"}
	}
	g, err := synthetic.New(&m, s.route.calendar)
	if err != nil {
		return err
	}
	s.places, s.doubt = append(s.places, g), append(s.doubt, m)
	return nil
}

// years is how many weather years there are: as many as asked for, or those of
// the file.
func (s *skies) years(wanted int) int {
	if s.files != nil {
		return min(max(1, wanted), len(s.files))
	}
	return min(max(1, wanted), mostYears)
}

// year makes the weather of every day of a year.
func (s *skies) year(number int) []daySky {
	if s.files != nil {
		return s.ofFile(s.files[number], number)
	}
	out := make([]daySky, 0, yearDays)
	for first := 0; first < yearDays; {
		last := first
		for last+1 < yearDays && s.route.days[last+1].place == s.route.days[first].place {
			last++
		}
		out = s.stretch(out, number, first, last)
		first = last + 1
	}
	return out
}

// stretch appends the days first to last at one place.
func (s *skies) stretch(out []daySky, number, first, last int) []daySky {
	at := s.route.days[first].place
	h := s.places[at].Part(s.seed+uint64(at), number, first+1, last+1)
	s.shift(h, number, at)
	fine := weather.NewFine(h, s.seed^uint64(number)<<32^uint64(first+1)<<16)
	for d := first; d <= last; d++ {
		out = append(out, daySky{fine, h, 24 * (d - first)})
	}
	return out
}

// shift moves a year by what the climate table may be off: every year but the
// first by its own draw, so that the bands carry that doubt.
func (s *skies) shift(h *weather.Hours, number, at int) {
	if number == 0 {
		return
	}
	draw := rand.New(rand.NewPCG(s.seed^0x5DEECE66D, uint64(number)<<8|uint64(at)))
	m := &s.doubt[at]
	light := max(0.5, 1+m.DoubtGHI*bounded(draw.NormFloat64()))
	warmer := m.DoubtK * bounded(draw.NormFloat64())
	for i := range h.GHI {
		h.GHI[i] *= light
		h.DNI[i] *= light
		h.DHI[i] *= light
		h.TempC[i] += warmer
	}
}

// bounded keeps a draw within two standard deviations.
func bounded(z float64) float64 { return max(-2, min(2, z)) }

// ofFile takes the days of a file's year, its 29th of February left out.
func (s *skies) ofFile(h *weather.Hours, number int) []daySky {
	fine := weather.NewFine(h, s.seed^uint64(number)<<32)
	leap := h.Len() == 366*24
	out := make([]daySky, yearDays)
	for d := range out {
		k := d
		if leap && d >= 59 {
			k++
		}
		out[d] = daySky{fine, h, 24 * k}
	}
	return out
}

// start is the instant a day begins.
func (d *daySky) start() sun.Instant { return d.hours.Start.Add(3600 * float64(d.first)) }

// describe says what the weather rests on.
func (s *skies) describe(o Options) Weather {
	w := Weather{Seed: o.Seed, Years: s.years(o.Years), StepS: o.StepS}
	var b weather.Basis
	if s.files != nil {
		b = s.files[0].Basis
		w.Source = "hourly file " + b.Name
		b.Notes = append(b.Notes[:len(b.Notes):len(b.Notes)], "the file's place stands for the whole route; dates, shade and hook-up are those of the stays")
	} else {
		b = s.places[0].Part(o.Seed, 0, 1, 1).Basis
		w.Source = "synthetic hours from the built-in climate table"
		b.Notes = append(b.Notes[:len(b.Notes):len(b.Notes)], fmt.Sprintf(
			"from the second year on each year is moved by a draw of what the table may be off: %.0f %% of light, %g K", 100*s.doubt[0].DoubtGHI, s.doubt[0].DoubtK))
	}
	w.Sources, w.Notes = keys(b.Sources), b.Notes
	return w
}

// keys lists each source once.
func keys(list []source.Source) []string {
	var out []string
	for _, s := range list {
		if !slices.Contains(out, s.Key) {
			out = append(out, s.Key)
		}
	}
	return out
}
