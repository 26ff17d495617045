package panel

import (
	"math"

	"ampstead/physics/sun"
)

const degree = math.Pi / 180 // rad

// Plane is a flat surface outdoors, ready for many suns.
type Plane struct {
	normal      sun.Direction
	sky, ground float64 // shares of its view
	sinTilt     float64
	sinHalf3    float64 // sin³(tilt/2)
}

// NewPlane returns the plane of a tilt and a facing in degrees.
func NewPlane(tilt, facing float64) Plane {
	sin, cos := math.Sincos(tilt * degree)
	half := math.Sin(tilt / 2 * degree)
	return Plane{normal: sun.Toward(tilt, facing), sky: (1 + cos) / 2, ground: (1 - cos) / 2, sinTilt: sin, sinHalf3: half * half * half}
}

// CosIncidence returns the cosine of the angle at which the sun strikes the
// plane, negative from behind.
func (p *Plane) CosIncidence(s sun.Direction) float64 {
	return p.normal.East*s.East + p.normal.North*s.North + p.normal.Up*s.Up
}

// Sky is the light at a place and a moment.
type Sky struct {
	Sun     sun.Direction
	Light   sun.Irradiance
	Normal  float64 // extraterrestrial, W/m²
	AirMass float64 // relative
	Albedo  float64 // share the ground reflects: 0.2, fresh snow 0.65 and more
}

// Light is what falls on a plane in W/m², by where it comes from.
type Light struct{ Beam, Sky, Ground float64 }

// Total returns the sum in W/m².
func (l Light) Total() float64 { return l.Beam + l.Sky + l.Ground }

func (p *Plane) with(s *Sky, cos, sky float64) Light {
	return Light{Beam: max(0, s.Light.Beam) * max(0, cos), Sky: sky, Ground: s.Light.Global * s.Albedo * p.ground}
}

// Isotropic takes the sky as equally bright all over (Liu & Jordan 1963).
func (p *Plane) Isotropic(s *Sky) Light {
	return p.with(s, p.CosIncidence(s.Sun), s.Light.Diffuse*p.sky)
}

// HayDavies lets as much of the diffuse light come from around the sun as passes
// the air unscattered (Hay & Davies 1980).
func (p *Plane) HayDavies(s *Sky) Light {
	cos := p.CosIncidence(s.Sun)
	around, even := hayDavies(s, cos)
	return p.with(s, cos, s.Light.Diffuse*(around+even*p.sky))
}

// Reindl adds a brighter horizon to HayDavies (Reindl, Beckman & Duffie 1990).
func (p *Plane) Reindl(s *Sky) Light {
	cos := p.CosIncidence(s.Sun)
	around, even := hayDavies(s, cos)
	bright := 1.0
	if s.Light.Global > 0 {
		bright += math.Sqrt(max(0, s.Light.Beam*s.Sun.Up)/s.Light.Global) * p.sinHalf3
	}
	return p.with(s, cos, s.Light.Diffuse*(around+even*p.sky*bright))
}

// hayDavies returns the diffuse light from around the sun, as a factor, and the
// share left for the whole sky.
func hayDavies(s *Sky, cos float64) (around, even float64) {
	const lowest = 0.01745
	clear := max(0, s.Light.Beam) / s.Normal
	return clear * max(0, cos) / max(lowest, s.Sun.Up), 1 - clear
}
