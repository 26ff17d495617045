package panel

import "math"

// Glass is the pane before the cells.
type Glass struct {
	Index     float64 // of refraction
	Absorbs   float64 // 1/m
	Thickness float64 // m
}

// CommonGlass is 2 mm of low-iron glass without coating (De Soto et al. 2006).
var CommonGlass = Glass{Index: 1.526, Absorbs: 4, Thickness: 0.002}

// Physical returns the share of light the pane passes, against light that comes
// straight, from the cosine of the angle of incidence: Snell's law, the mean of
// both polarisations, and absorption on the way (De Soto et al. 2006).
func (g Glass) Physical(cos float64) float64 {
	if cos <= 0 {
		return 0
	}
	inside := math.Sqrt(1 - (1-cos*cos)/(g.Index*g.Index))
	across := (cos - g.Index*inside) / (cos + g.Index*inside)
	along := (inside - g.Index*cos) / (inside + g.Index*cos)
	straight := (1 - g.Index) / (1 + g.Index)
	passed := 1 - (across*across+along*along)/2
	return passed / (1 - straight*straight) * math.Exp(g.Absorbs*g.Thickness*(1-1/inside))
}

// ASHRAE returns the same by 1 - b·(1/cos - 1); b is 0.05 for plain glass.
func ASHRAE(cos, b float64) float64 {
	if cos <= 0 {
		return 0
	}
	return max(0, 1-b*(1/cos-1))
}

// MartinRuiz returns the same by one coefficient of the pane and its dirt, 0.16
// for a clean one (Martin & Ruiz 2001).
func MartinRuiz(cos, ar float64) float64 {
	if cos <= 0 {
		return 0
	}
	return math.Expm1(-cos/ar) / math.Expm1(-1/ar)
}

// grid is the number of steps of a table over the cosine of incidence.
const grid = 128

// Modifier is what the pane of a tilted plane passes of each kind of light, as a
// table for many suns.
type Modifier struct {
	beam        [grid + 2]float64
	sky, ground float64
}

// NewModifier tabulates a pane on a plane tilted by degrees. share is one of the
// models above: what passes at a cosine of incidence. Sky and ground count as
// equally bright, every direction weighted by what it brings (Marion 2017).
func NewModifier(tilt float64, share func(cos float64) float64) Modifier {
	var m Modifier
	for k := range m.beam {
		m.beam[k] = share(float64(min(k, grid)) / grid)
	}
	m.sky, m.ground = diffuseShares(tilt*degree, share)
	return m
}

// Beam returns the share of beam that passes at a cosine of incidence.
func (m *Modifier) Beam(cos float64) float64 {
	if !(cos > 0) {
		return 0
	}
	x := min(cos, 1) * grid
	k := int(x)
	return m.beam[k] + (x-float64(k))*(m.beam[k+1]-m.beam[k])
}

// Through returns what passes the pane, at a cosine of incidence.
func (m *Modifier) Through(l Light, cos float64) Light {
	return Light{Beam: l.Beam * m.Beam(cos), Sky: l.Sky * m.sky, Ground: l.Ground * m.ground}
}

// diffuseShares integrates over the circles of equal incidence: the part of each
// above the horizon looks at the sky, the rest at the ground.
func diffuseShares(tilt float64, share func(float64) float64) (sky, ground float64) {
	const steps = 2000
	sinTilt, cosTilt := math.Sincos(tilt)
	var passed, all [2]float64
	for k := range steps {
		cos := (float64(k) + 0.5) / steps
		up := 0.0
		if limit := -cosTilt * cos; math.Abs(limit) < sinTilt*math.Sqrt(1-cos*cos) {
			up = math.Acos(limit/(sinTilt*math.Sqrt(1-cos*cos))) / math.Pi
		} else if limit < 0 {
			up = 1
		}
		s := share(cos)
		for side, part := range [2]float64{up, 1 - up} {
			passed[side] += part * cos * s
			all[side] += part * cos
		}
	}
	return ratio(passed[0], all[0]), ratio(passed[1], all[1])
}

// ratio is 0 where there is nothing to see.
func ratio(a, b float64) float64 {
	if b <= 0 {
		return 0
	}
	return a / b
}
