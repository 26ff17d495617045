package drill

import (
	"math"

	"ampstead/physics/panel"
	"ampstead/physics/sun"
	"ampstead/rig"
)

// usualPerK is taken of panels that state no power coefficient, 1/K.
const usualPerK = -0.0037

// calm is the wind over the panels, m/s; ours.
const calm = 2.0

// sunlight is what the panels of each source give under a clear sky between two
// hours of solar time, by knot: level panels without shade, for more sun is the
// harder case. Clear sky after Haurwitz, panels after Dobos, their temperature
// after Faiman.
func (s *scenery) sunlight(p *stay, day int, from, to, airC float64) [][]float64 {
	out := make([][]float64, len(s.rig.Charge))
	n := int((to-from)*3600/knotS) + 1
	for i := range s.rig.Charge {
		src := &s.rig.Charge[i]
		if src.Kind != "solar" {
			continue
		}
		out[i] = make([]float64, n)
		for k := range out[i] {
			g := clearSky(p.latitude, day, from+float64(k)*knotS/3600)
			out[i][k] = panelWatts(src, g, panel.Faiman(g, airC, calm, faimanU0, faimanU1))
		}
	}
	return out
}

// Heat loss of panels mounted close to a roof: constant and by wind, W/m²/K and
// W·s/m³/K, after Faiman 2008.
const (
	faimanU0 = 25.0
	faimanU1 = 6.84
)

func panelWatts(src *rig.Source, irradiance, cellC float64) float64 {
	sum := 0.0
	for _, x := range src.Panels {
		perK := usualPerK
		if x.PowerCoefficient != nil {
			perK = float64(*x.PowerCoefficient)
		}
		sum += panel.Power(irradiance, cellC, float64(*x.Power)*float64(x.Series*max(1, x.Parallel)), perK)
	}
	return sum
}

// clearSky is the light on level ground at an hour of solar time, W/m².
func clearSky(latitude float64, day int, hour float64) float64 {
	const degree = math.Pi / 180
	sinLat, cosLat := math.Sincos(latitude * degree)
	sinDec, cosDec := math.Sincos(sun.Declination(day) * degree)
	up := sinLat*sinDec + cosLat*cosDec*math.Cos((hour-12)*15*degree)
	if up <= 0 {
		return 0
	}
	return sun.Haurwitz(math.Acos(min(1, up)) / degree)
}

// sunrise is its hour of solar time.
func sunrise(latitude float64, day int) float64 {
	return 12 - sun.SunsetAngle(latitude, sun.Declination(day))/15
}

// brightest is the stay and day with the highest sun at noon, of the first, the
// middle and the last day of each.
func (s *scenery) brightest() (*stay, int) {
	best, at, most := &s.stays[0], s.stays[0].firstDay, -1.0
	for k := range s.stays {
		p := &s.stays[k]
		for _, day := range []int{p.firstDay, p.middle(), p.day(p.days - 1)} {
			if g := clearSky(p.latitude, day, 12); g > most {
				best, at, most = p, day, g
			}
		}
	}
	return best, at
}
