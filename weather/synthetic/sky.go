package synthetic

import (
	"math"

	"ampstead/physics/sun"
)

// hourSky is what a clear hour would bring.
type hourSky struct {
	outside float64 // extraterrestrial light on a level surface, mean of the hour, W/m²
	up      float64 // upward part of the sun's direction, mean of the hour, 0 below the horizon
	clear   float64 // clear sky on a level surface, mean of the hour, W/m²
}

// daySky is the same for a day.
type daySky struct {
	hours          [24]hourSky
	outside, clear float64 // Wh/m²
	normal         float64 // extraterrestrial, facing the sun, W/m²
	from, to       int     // the hours with light, to is the first without
}

// Steps of the sun in an hour, and the haze of the clear sky that bounds the
// hours: clean country air.
const (
	steps     = 6
	turbidity = 2.5
)

// newSky prepares every day of a year; zone is the clock of the days in hours
// ahead of universal time.
func newSky(at sun.Place, year, days int, zone float64) []daySky {
	sky := make([]daySky, days)
	air := sun.Pressure(at.Elevation) / 101325
	day := sun.NewDay(sun.At(year, 1, 1, -zone*3600), at)
	for d := range sky {
		sky[d].normal = sun.Extraterrestrial(d+1, sun.SolarConstant)
		sky[d].fill(&day, at, air)
		day = day.Next(at)
	}
	return sky
}

func (s *daySky) fill(day *sun.Day, at sun.Place, air float64) {
	const step = 3600.0 / steps
	walk := day.Walk(step/2, step)
	s.from = 24
	for i := range s.hours {
		h := &s.hours[i]
		for range steps {
			h.up += max(0, walk.Next().Up) / steps
		}
		if h.up == 0 {
			continue
		}
		h.outside = s.normal * h.up
		h.clear = min(h.outside, clearSky(h.up, air, s.normal, at.Elevation))
		s.outside += h.outside
		s.clear += h.clear
		s.from, s.to = min(s.from, i), i+1
	}
}

func clearSky(up, air, normal, elevation float64) float64 {
	return sun.Ineichen(sun.Clear{
		Zenith:    zenith(up),
		AirMass:   air * sun.QuickAirMass(up),
		Normal:    normal,
		Elevation: elevation,
		Turbidity: turbidity,
	}).Global
}

func zenith(up float64) float64 { return math.Acos(min(1, up)) * 180 / math.Pi }
