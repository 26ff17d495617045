package panel

import "math"

// brightness are the coefficients of one class of sky: around the sun (f1) and at
// the horizon (f2).
type brightness struct{ from, f11, f12, f13, f21, f22, f23 float64 }

// skies are the classes from overcast to clear (Perez et al. 1990, table 6, all
// sites).
var skies = [...]brightness{
	{1, -0.008, 0.588, -0.062, -0.060, 0.072, -0.022},
	{1.065, 0.130, 0.683, -0.151, -0.019, 0.066, -0.029},
	{1.23, 0.330, 0.487, -0.221, 0.055, -0.064, -0.026},
	{1.5, 0.568, 0.187, -0.295, 0.109, -0.152, -0.014},
	{1.95, 0.873, -0.392, -0.362, 0.226, -0.462, 0.001},
	{2.8, 1.132, -1.237, -0.412, 0.288, -0.823, 0.056},
	{4.5, 1.060, -1.600, -0.359, 0.264, -1.127, 0.131},
	{6.2, 0.678, -0.327, -0.250, 0.156, -1.377, 0.251},
}

// cos85 is the least height of the sun in the term around it.
const cos85 = 0.08715574274765817

// Perez takes the sky as bright around the sun and at the horizon, by classes of
// clearness (Perez et al., Solar Energy 44, 1990). With the sun down, where air
// mass has no meaning, the sky counts as equally bright.
func (p *Plane) Perez(s *Sky) Light {
	cos, diffuse := p.CosIncidence(s.Sun), s.Light.Diffuse
	if diffuse <= 0 {
		return p.with(s, cos, 0)
	}
	if s.Sun.Up <= 0 {
		return p.with(s, cos, diffuse*p.sky)
	}
	z := acos(s.Sun.Up)
	b := &skies[class(1+s.Light.Beam/diffuse/(1+1.041*z*z*z))]
	delta := diffuse * s.AirMass / s.Normal
	f1 := max(0, b.f11+b.f12*delta+b.f13*z)
	f2 := b.f21 + b.f22*delta + b.f23*z
	around := max(0, cos) / max(cos85, s.Sun.Up)
	return p.with(s, cos, diffuse*max(0, (1-f1)*p.sky+f1*around+f2*p.sinTilt))
}

// class returns the row of a clearness.
func class(clearness float64) int {
	k := len(skies) - 1
	for k > 0 && clearness < skies[k].from {
		k--
	}
	return k
}

// acos returns the arc cosine in rad of 0 to 1 within 3e-8 (Abramowitz & Stegun,
// 4.4.46), several times faster than the library's.
func acos(x float64) float64 {
	if x >= 1 {
		return 0
	}
	return math.Sqrt(1-x) * (1.5707963050 + x*(-0.2145988016+x*(0.0889789874+x*(-0.0501743046+
		x*(0.0308918810+x*(-0.0170881256+x*(0.0066700901-x*0.0012624911)))))))
}
