package synthetic

import (
	"math"
	"math/rand/v2"

	"ampstead/physics/sun"
	"ampstead/weather"
)

// tag are the coefficients of Aguiar & Collares-Pereira 1992 for a day of one
// clearness index.
type tag struct {
	level, height, steep float64 // of the mean
	width, widen         float64 // of the spread
	keep, noise          float64 // of the succession of hours
}

func newTag(kt float64) tag {
	t := tag{
		level:  -0.19 + 1.12*kt + 0.24*math.Exp(-8*kt),
		height: 0.32 - 1.6*(kt-0.5)*(kt-0.5),
		steep:  0.19 + kt*kt*(2.27-2.51*kt),
		width:  0.14 * math.Exp(-20*(kt-0.35)*(kt-0.35)),
		widen:  3*(kt-0.45)*(kt-0.45) + 16*kt*kt*kt*kt*kt,
		keep:   0.38 + 0.06*math.Cos(7.4*kt-2.5),
	}
	t.noise = math.Sqrt(1 - t.keep*t.keep)
	return t
}

// mean returns the mean clearness index of the hours of one height of the sun.
func (t *tag) mean(up float64) float64 { return t.level + t.height*math.Exp(-t.steep/up) }

// spread returns its standard deviation.
func (t *tag) spread(up float64) float64 { return t.width * math.Exp(t.widen*(1-up)) }

// redraws is how often an hour outside night and clear sky is drawn again.
const redraws = 6

// fillDay makes the hours of one day whose irradiation is light, Wh/m².
func (s *daySky) fillDay(light float64, draw *rand.PCG, h *weather.Hours, first int) {
	if s.outside <= 0 || light <= 0 {
		return
	}
	global := h.GHI[first : first+24]
	t := newTag(light / s.outside)
	y := normal(unit(draw))
	for i := s.from; i < s.to; i++ {
		o := &s.hours[i]
		if o.up == 0 {
			continue
		}
		var kt float64
		kt, y = t.hour(o, y, draw)
		global[i] = kt * o.outside
	}
	scale(global[s.from:s.to], light, func(i int) float64 { return s.hours[s.from+i].clear })
	for i := s.from; i < s.to; i++ {
		part := sun.Split(global[i], zenith(s.hours[i].up), s.normal)
		h.DNI[first+i], h.DHI[first+i] = part.Beam, part.Diffuse
	}
}

// hour draws one hour after the deviation of the one before, both in standard
// deviations.
func (t *tag) hour(o *hourSky, before float64, draw *rand.PCG) (kt, y float64) {
	mean, spread, clear := t.mean(o.up), t.spread(o.up), o.clear/o.outside
	for range redraws {
		y = t.keep*before + t.noise*normal(unit(draw))
		if kt = mean + spread*y; kt > 0 && kt <= clear {
			return kt, y
		}
	}
	return max(0.02, min(kt, clear)), y
}
