package weather

import (
	"math"
	"math/rand/v2"

	"ampstead/physics/sun"
)

// Fine turns hours into shorter steps.
//
// Inside an hour that is a mean, light follows the height of the sun, and the
// beam comes and goes: under broken cloud it is either nearly that of a clear
// sky or nearly nothing, and the share of sunny time is the hour's beam over the
// clear beam. Sunny and dull spells are drawn at random and forgotten within
// some minutes; nothing is drawn where the beam is nearly clear or nearly none.
// The mean over the steps of global and diffuse light is that of the hour. The
// method is our own (source weather-within-hour).
//
// Hours of samples are joined by straight lines.
//
// Equal seeds give equal steps, in whatever order the hours are asked for.
type Fine struct {
	hours *Hours
	seed  uint64
	sky   sun.Clear
	air   float64 // absolute over relative air mass

	// Memory is the time in minutes within which the sky forgets whether it was
	// sunny; 0 keeps the beam steady. NewFine sets 6.
	Memory float64
}

// NewFine prepares the steps of h.
func NewFine(h *Hours, seed uint64) *Fine {
	elevation := h.Place.Elevation
	return &Fine{
		hours: h, seed: seed, Memory: 6,
		sky: sun.Clear{Elevation: elevation, Turbidity: 3},
		air: sun.Pressure(elevation) / 101325,
	}
}

// Hour fills the steps of one hour, as many as there are places in out. up is
// the upward part of the direction of the sun at the middle of each step, equal
// in number; normal is the extraterrestrial irradiance in W/m².
func (f *Fine) Hour(hour int, up []float64, normal float64, out []sun.Irradiance) {
	if f.hours.Sampled {
		f.between(hour, up, out)
		return
	}
	global, diffuse := f.hours.GHI[hour], f.hours.DHI[hour]
	height, lit := lit(up)
	if !(height > 0) {
		dull(global, out)
		return
	}
	n := float64(len(up))
	diffuse = min(diffuse, global)
	share := diffuse * n / height // diffuse light per height of the sun
	for j, u := range up {
		out[j] = sun.Irradiance{Diffuse: share * max(u, 0)}
	}
	clear := f.clearBeam(height/lit, normal)
	f.beam(hour, (global-diffuse)*n, clear, up, out)
	settle(up, out, normal)
}

// lit sums the heights of the sun over the steps and counts those it is up in.
func lit(up []float64) (height, steps float64) {
	for _, u := range up {
		if u > 0 {
			height, steps = height+u, steps+1
		}
	}
	return height, steps
}

// dull spreads what little light an hour without sun has.
func dull(global float64, out []sun.Irradiance) {
	for j := range out {
		out[j] = sun.Irradiance{Global: global, Diffuse: global}
	}
}

// clearBeam returns the beam of a clear sky in W/m² for a height of the sun.
func (f *Fine) clearBeam(up, normal float64) float64 {
	sky := f.sky
	sky.Zenith = math.Acos(min(up, 1)) * 180 / math.Pi
	sky.AirMass = f.air * sun.QuickAirMass(up)
	sky.Normal = normal
	return sun.Ineichen(sky).Beam
}

// beam spreads the beam of the hour over its steps: total is the sum over the
// steps of what it gives a level surface, W/m².
func (f *Fine) beam(hour int, total, clear float64, up []float64, out []sun.Irradiance) {
	const nearlyNone, nearlyClear = 0.05, 0.95
	height, _ := lit(up)
	steady := total / height
	sunny := steady / clear
	if !(total > 0) {
		return
	}
	if f.Memory <= 0 || !(clear > 0) || sunny < nearlyNone || sunny > nearlyClear {
		for j := range out {
			out[j].Beam = steady
		}
		return
	}
	f.spells(hour, sunny, out)
	f.share(total, clear, up, out)
}

// spells marks the sunny steps with a beam of 1.
func (f *Fine) spells(hour int, sunny float64, out []sun.Irradiance) {
	var draw rand.PCG
	draw.Seed(f.seed, uint64(hour))
	forget := 1 - math.Exp(-60/float64(len(out))/f.Memory)
	on := unit(&draw) < sunny
	for j := range out {
		if unit(&draw) < forget {
			on = unit(&draw) < sunny
		}
		if on {
			out[j].Beam = 1
		}
	}
}

// share gives sunny steps the clear beam at most and the rest to the dull ones.
func (f *Fine) share(total, clear float64, up []float64, out []sun.Irradiance) {
	var sunny, cloudy float64
	for j, u := range up {
		if u = max(u, 0); out[j].Beam > 0 {
			sunny += u
		} else {
			cloudy += u
		}
	}
	on := min(clear, total/sunny)
	off := (total - on*sunny) / cloudy
	if sunny == 0 || cloudy == 0 {
		on, off = total/(sunny+cloudy), total/(sunny+cloudy)
	}
	for j := range out {
		if out[j].Beam > 0 {
			out[j].Beam = on
		} else {
			out[j].Beam = off
		}
	}
}

// settle sums up, and counts as diffuse what beam there is beyond that of space:
// a low sun makes much of little.
func settle(up []float64, out []sun.Irradiance, normal float64) {
	for j, u := range up {
		o := &out[j]
		if u <= 0 {
			o.Beam = 0
		}
		if o.Beam > normal {
			o.Diffuse += (o.Beam - normal) * u
			o.Beam = normal
		}
		o.Global = o.Beam*max(u, 0) + o.Diffuse
	}
}

// between joins samples by straight lines.
func (f *Fine) between(hour int, up []float64, out []sun.Irradiance) {
	h := f.hours
	for j, u := range up {
		x := float64(hour) + (float64(j)+0.5)/float64(len(up)) - h.LightAt
		whole := math.Floor(x)
		a, b, part := h.wrap(int(whole)), h.wrap(int(whole)+1), x-whole
		o := sun.Irradiance{Diffuse: h.DHI[a] + part*(h.DHI[b]-h.DHI[a])}
		if u > 0 {
			o.Beam = h.DNI[a] + part*(h.DNI[b]-h.DNI[a])
		}
		o.Global = o.Beam*max(u, 0) + o.Diffuse
		out[j] = o
	}
}

// unit draws from 0 up to but not including 1.
func unit(p *rand.PCG) float64 { return float64(p.Uint64()>>11) / (1 << 53) }
