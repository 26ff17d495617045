package travel

import (
	"math"

	"ampstead/physics/panel"
	"ampstead/physics/sun"
)

const minutes = 24 * 60

// albedo is the share of light the ground throws back onto tilted panels.
const albedo = 0.2

// afterLosses are the usual losses of an array without shade and outages, which
// the route and the simulation know: what is left, as a fraction.
var afterLosses = keepOf(panel.UsualLosses())

func keepOf(all []panel.Loss) float64 {
	var kept []panel.Loss
	for _, l := range all {
		if l.Name != "shading" && l.Name != "availability" {
			kept = append(kept, l)
		}
	}
	return 1 - panel.TotalLoss(kept)/100
}

// light is what reaches the cells of the panels through a year, minute by minute:
// the irradiance that counts (W/m², past shade, glass and fixed losses) and the
// cell temperature (°C). It depends on no panel's size.
type light struct{ plane, cell []float32 }

func newLight() *light {
	all := make([]float32, 2*yearDays*minutes)
	return &light{all[:yearDays*minutes], all[yearDays*minutes:]}
}

// face is how panels stand at a place.
type face struct {
	plane    panel.Plane
	glass    panel.Modifier
	flat     bool
	keep     float64
	mounting panel.Mounting
}

func (p *place) face(glass func(cos float64) float64) *face {
	f := &face{plane: panel.NewPlane(p.tilt, p.facing), glass: panel.NewModifier(p.tilt, glass),
		flat: p.tilt == 0, keep: (1 - p.shade) * afterLosses, mounting: panel.InsulatedBack}
	if !f.flat {
		f.mounting = panel.OpenPolymer
	}
	return f
}

// fill reckons the light of a year.
func (l *light) fill(r *route, sky []daySky) { l.fillThrough(r, sky, panel.CommonGlass.Physical) }

// fillThrough is fill with another pane: what passes at a cosine of incidence.
func (l *light) fillThrough(r *route, sky []daySky, glass func(cos float64) float64) {
	faces := make([]*face, len(r.places))
	for i := range r.places {
		faces[i] = r.places[i].face(glass)
	}
	var d sun.Day
	for k := range sky {
		at := sky[k].hours.Place
		if k > 0 && sky[k].hours == sky[k-1].hours && sky[k].first == sky[k-1].first+24 {
			d = d.Next(at)
		} else {
			d = sun.NewDay(sky[k].start(), at)
		}
		from := k * minutes
		l.day(&sky[k], &d, faces[r.days[k].place], k, l.plane[from:from+minutes], l.cell[from:from+minutes])
	}
}

// day reckons the light of a day.
func (l *light) day(sky *daySky, d *sun.Day, f *face, dayNumber int, plane, cell []float32) {
	var to [60]sun.Direction
	var up [60]float64
	var fall [60]sun.Irradiance
	normal := sun.Extraterrestrial(dayNumber+1, sun.SolarConstant)
	walk := d.Walk(30, 60)
	for hour := range 24 {
		lit := false
		for j := range to {
			to[j] = walk.Next()
			up[j] = to[j].Up
			lit = lit || up[j] > 0
		}
		out, warm := plane[60*hour:60*hour+60], cell[60*hour:60*hour+60]
		if !lit && sky.hours.GHI[sky.first+hour] <= 0 {
			clear(out)
			continue
		}
		sky.fine.Hour(sky.first+hour, up[:], normal, fall[:])
		f.hour(sky, hour, normal, to[:], fall[:], out, warm)
	}
}

// hour turns the light of an hour's minutes onto the panels.
func (f *face) hour(sky *daySky, hour int, normal float64, to []sun.Direction, fall []sun.Irradiance, out, warm []float32) {
	air, wind := sky.hours.Air(float64(sky.first+hour) + 0.5)
	rise := math.Exp(f.mounting.A+f.mounting.B*wind) + f.mounting.FrontUp/1000
	s := panel.Sky{Normal: normal, Albedo: albedo}
	for j := range out {
		s.Sun, s.Light = to[j], fall[j]
		cos := f.plane.CosIncidence(to[j])
		var on panel.Light
		if f.flat {
			on = panel.Light{Beam: max(0, fall[j].Beam) * max(0, cos), Sky: fall[j].Diffuse}
		} else {
			s.AirMass = sun.QuickAirMass(to[j].Up)
			on = f.plane.Perez(&s)
		}
		out[j] = float32(f.keep * f.glass.Through(on, cos).Total())
		warm[j] = float32(air + on.Total()*rise)
	}
}
