package sun

import (
	"errors"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

var (
	apparentZenith = figure.Input{Name: "zenith", Dim: quantity.Degrees, Doc: "angle of the sun from straight up as seen, with refraction"}
	threeLights    = []figure.Output{
		{Key: "ghi_w_m2", Dim: quantity.WattsPerM2, Doc: "on a level surface"},
		{Key: "dni_w_m2", Dim: quantity.WattsPerM2, Doc: "on a surface that faces the sun, from the sun alone"},
		{Key: "dhi_w_m2", Dim: quantity.WattsPerM2, Doc: "on a level surface, from the sky alone"},
	}
)

// AirMassAt answers through how much air the light comes.
var AirMassAt = &figure.Figure{
	Name:    "air-mass",
	Answers: "Through how much air does the sunlight come?",
	Inputs:  []figure.Input{apparentZenith, height},
	Outputs: []figure.Output{
		{Key: "relative", Dim: quantity.Plain, Doc: "against the sun overhead; 0 for a sun below the horizon"},
		{Key: "absolute", Dim: quantity.Plain, Doc: "against the sun overhead at sea level"},
	},
	Equation: "relative = 1/(cos z + 0.50572·(96.07995 - z)^-1.6364); absolute = relative · p/101,325 Pa, p = 100·((44331.514 - elevation)/11880.516)^(1/0.1902632)",
	Source:   source.KastenYoung,
	Range:    "zenith 0 to 90°; standard atmosphere up to 9000 m",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := errors.Join(inside(a, "zenith", 0, 180), inside(a, "elevation", -500, 9000)); err != nil {
			return nil, err
		}
		m := AirMass(a.Num("zenith"))
		return figure.Results{"relative": m, "absolute": m * Pressure(a.Num("elevation")) / seaLevel}, nil
	},
	Checks: []figure.Check{
		check(source.SunTables, "overhead", "relative", 0.99971199, 1e-7, "zenith=0 °"),
		check(source.SunTables, "10° high", "relative", 5.5860359, 1e-6, "zenith=80 °"),
		check(source.SunTables, "10° high at 510 m", "absolute", 5.256443, 1e-6, "zenith=80 °", "elevation=510 m"),
	},
}

const ineichen = "ghi = cg1·E·cos z·exp(-cg2·AM·(fh1 + fh2·(turbidity - 1))); dni = (0.664 + 0.163/fh1)·E·exp(-0.09·AM·(turbidity - 1)), at most " +
	"ghi·(1 - (0.1 - 0.2·e^-turbidity)/(0.1 + 0.882/fh1))/cos z; dhi = ghi - dni·cos z; fh1 = exp(-h/8000), fh2 = exp(-h/1250), " +
	"cg1 = 5.09e-5·h + 0.868, cg2 = 3.92e-5·h + 0.0387; E by Spencer with 1366.1 W/m², AM absolute by Kasten & Young"

// ClearSky answers how strong the sun is without clouds, at a place and time.
var ClearSky = &figure.Figure{
	Name:     "clear-sky",
	Answers:  "How strong is the sun at this place and time without clouds?",
	Inputs:   []figure.Input{latitude, longitude, when, height, turbidity},
	Outputs:  threeLights,
	Equation: ineichen + "; z by the figure sun-position in standard air",
	Source:   source.IneichenPerez,
	Range:    "cloudless; the values of turbidity are remembered, and one step of it moves dni by about a tenth",
	Compute: func(a figure.Args) (figure.Results, error) {
		at, t, err := scene(a)
		if err != nil {
			return nil, err
		}
		return clearSky(a, 90-Find(t, DeltaT(t), at, StandardAir(at.Elevation)).Elevation, t.DayOfYear())
	},
	Checks: []figure.Check{
		check(source.Equation, "place and time of the worked example of Reda & Andreas, zenith 50.11162°", "ghi_w_m2", 713.05338, 0.01, colorado...),
		check(source.Equation, "the same", "dni_w_m2", 954.98589, 0.01, colorado...),
		check(source.Equation, "the same", "dhi_w_m2", 100.62663, 0.01, colorado...),
	},
}

var colorado = []string{"latitude=39.742476", "longitude=-105.1786", "time=2003-10-17T12:30:30-07:00", "elevation=1830.14 m", "turbidity=3"}

// ClearSkyAt is ClearSky for a zenith angle, with a second, simpler model.
var ClearSkyAt = &figure.Figure{
	Name:     "clear-sky-at",
	Answers:  "How strong is the sun at this height above the horizon without clouds?",
	Inputs:   []figure.Input{apparentZenith, ofYear, height, turbidity, constant},
	Outputs:  append(threeLights[:3:3], figure.Output{Key: "haurwitz_w_m2", Dim: quantity.WattsPerM2, Doc: "on a level surface by the zenith angle alone"}),
	Equation: ineichen + "; Haurwitz: 1098·cos z·exp(-0.059/cos z)",
	Source:   source.IneichenPerez,
	Range:    "cloudless; the values of turbidity are remembered",
	Compute: func(a figure.Args) (figure.Results, error) {
		day, err := readDay(a)
		if err := errors.Join(err, inside(a, "zenith", 0, 180), inside(a, "elevation", -500, 9000)); err != nil {
			return nil, err
		}
		out, err := clearSky(a, a.Num("zenith"), day)
		if err == nil {
			out["haurwitz_w_m2"] = Haurwitz(a.Num("zenith"))
		}
		return out, err
	},
	Checks: []figure.Check{
		check(source.SunTables, "overhead, hazy", "ghi_w_m2", 1006.6067, 1e-3, hazy...),
		check(source.SunTables, "the same", "dni_w_m2", 806.48842, 1e-3, hazy...),
		check(source.SunTables, "the same", "dhi_w_m2", 200.11824, 1e-3, hazy...),
		check(source.SunTables, "30° high", "dni_w_m2", 456.17929, 1e-3, "zenith=60 °", "day=36", "elevation=379 m", "turbidity=6.51"),
		check(source.Haurwitz1945, "overhead", "haurwitz_w_m2", 1035.09, 0.005, hazy...),
	},
}

var hazy = []string{"zenith=0 °", "day=58", "elevation=489 m", "turbidity=5.35"}

func clearSky(a figure.Args, zenith float64, day int) (figure.Results, error) {
	if err := inside(a, "turbidity", 1, 15); err != nil {
		return nil, err
	}
	gsc := SolarConstant
	if v := a.Num("constant"); v > 0 {
		gsc = v
	}
	got := Ineichen(Clear{Zenith: zenith, AirMass: AirMass(zenith) * Pressure(a.Num("elevation")) / seaLevel,
		Normal: Extraterrestrial(day, gsc), Elevation: a.Num("elevation"), Turbidity: a.Num("turbidity")})
	return figure.Results{"ghi_w_m2": got.Global, "dni_w_m2": got.Beam, "dhi_w_m2": got.Diffuse}, nil
}
