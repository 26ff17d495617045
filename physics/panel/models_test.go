package panel

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/internal/near"
	"ampstead/internal/shared"
	"ampstead/physics/sun"
)

// worst keeps the largest error of a column: relative, absolute below 1.
type worst map[string]float64

func (w worst) add(name string, got, want float64) {
	err := math.Abs(got-want) / math.Max(1, math.Abs(want))
	if !(err <= w[name]) {
		w[name] = err
	}
}

func (w worst) within(t *testing.T, tol float64) {
	t.Helper()
	if len(w) == 0 {
		t.Error("nothing was compared")
	}
	t.Logf("worst errors: %v", w)
	for name, err := range w {
		near.Equal(t, "worst error of "+name, err, 0, tol)
	}
}

func TestPlaneTable(t *testing.T) {
	w := worst{}
	for _, r := range shared.Rows(t, "data/weather/reference-plane.csv") {
		n := func(column string) float64 { return number(t, r[column]) }
		if n("dni_w_m2") < 0 {
			continue // a sensor's noise, which counts as nothing here
		}
		p := NewPlane(n("tilt_deg"), n("surface_azimuth_deg"))
		s := Sky{Sun: sun.Toward(n("zenith_deg"), n("sun_azimuth_deg")), Light: sun.Irradiance{Global: n("ghi_w_m2"), Beam: n("dni_w_m2"), Diffuse: n("dhi_w_m2")},
			Normal: n("dni_extra_w_m2"), AirMass: sun.AirMass(n("zenith_deg")), Albedo: n("albedo")}
		w.add("incidence", math.Acos(p.CosIncidence(s.Sun))/degree, n("aoi_deg"))
		w.add("beam", p.Isotropic(&s).Beam, n("poa_beam_w_m2"))
		w.add("ground", p.Isotropic(&s).Ground, n("poa_ground_w_m2"))
		w.add("isotropic", p.Isotropic(&s).Sky, n("sky_isotropic_w_m2"))
		w.add("Hay & Davies", p.HayDavies(&s).Sky, n("sky_haydavies_w_m2"))
		w.add("Reindl", p.Reindl(&s).Sky, n("sky_reindl_w_m2"))
		if s.AirMass == 0 {
			w.add("Perez with the sun down", p.Perez(&s).Total(), n("poa_isotropic_w_m2"))
			continue
		}
		w.add("Perez", p.Perez(&s).Sky, n("sky_perez_w_m2"))
		w.add("Perez in all", p.Perez(&s).Total(), n("poa_perez_w_m2"))
	}
	w.within(t, 1e-6)
}

func TestGlassTable(t *testing.T) {
	w, diffuse := worst{}, worst{}
	for _, r := range shared.Rows(t, "data/weather/reference-iam.csv") {
		cos := math.Cos(number(t, r["aoi_deg"]) * degree)
		w.add("ASHRAE", ASHRAE(cos, 0.05), number(t, r["ashrae_b0_05"]))
		w.add("physical", CommonGlass.Physical(cos), number(t, r["physical_n1_526_k4_l2mm"]))
		w.add("Martin & Ruiz", MartinRuiz(cos, 0.16), number(t, r["martin_ruiz_ar0_16"]))
		tilt := number(t, r["tilt_deg"])
		m := NewModifier(tilt, CommonGlass.Physical)
		diffuse.add("table of beam", m.Beam(cos), number(t, r["physical_n1_526_k4_l2mm"]))
		diffuse.add("physical, sky", m.sky, number(t, r["diffuse_physical_sky"]))
		diffuse.add("physical, ground", m.ground, number(t, r["diffuse_physical_ground"]))
		if tilt >= 8 {
			near.Equal(t, "ground from 8° up", m.ground, number(t, r["diffuse_physical_ground"]), 1e-3)
		}
	}
	w.within(t, 1e-6)
	// Near 0° tilt only the lowest slant reaches the ground and the table is coarse:
	// finer steps move this result by less than 2e-4.
	diffuse.within(t, 0.013)
}

func TestCellTemperatureTable(t *testing.T) {
	w := worst{}
	for _, r := range shared.Rows(t, "data/weather/reference-cell-temperature.csv") {
		n := func(column string) float64 { return number(t, r[column]) }
		g, ta, v := n("poa_w_m2"), n("ambient_c"), n("wind_m_s")
		faiman := Faiman(g, ta, v, FaimanU0, FaimanU1)
		w.add("Faiman", faiman, n("faiman_25_6_84_c"))
		w.add("heat balance, free", HeatBalance(g, ta, v, 29, 0, 0.1), n("heat_balance_29_0_c"))
		w.add("heat balance, insulated", HeatBalance(g, ta, v, 15, 0, 0.1), n("heat_balance_15_0_c"))
		w.add("King, open glass", OpenGlass.CellTemperature(g, ta, v), n("king_open_rack_glass_glass_c"))
		w.add("King, close glass", CloseGlass.CellTemperature(g, ta, v), n("king_close_mount_glass_glass_c"))
		w.add("King, open polymer", OpenPolymer.CellTemperature(g, ta, v), n("king_open_rack_glass_polymer_c"))
		w.add("King, insulated", InsulatedBack.CellTemperature(g, ta, v), n("king_insulated_back_glass_polymer_c"))
		w.add("Ross", Ross(g, ta, 45), n("ross_noct45_c"))
		w.add("NOCT with wind", NOCTWind(g, ta, v, 45, 0.2), n("noct_wind_45_0_2_c"))
		w.add("power", Power(g, faiman, 100, -0.0035), n("pvwatts_dc_w_per_100w_gamma_m0_0035"))
	}
	w.within(t, 1e-6)
}

func TestQuickArcCosine(t *testing.T) {
	for x := 0.0; x <= 1; x += 1e-4 {
		near.Equal(t, "acos", acos(x), math.Acos(x), 3e-8)
	}
	near.Equal(t, "acos", acos(1+1e-12), 0, 0)
}

// A flat plane sees the level light whatever the model, and no plane gets less
// than nothing.
func TestFlatPlane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zenith, azimuth := rapid.Float64Range(0, 84).Draw(t, "zenith"), rapid.Float64Range(0, 360).Draw(t, "azimuth")
		beam, diffuse := rapid.Float64Range(0, 1000).Draw(t, "beam"), rapid.Float64Range(0, 500).Draw(t, "diffuse")
		s := Sky{Sun: sun.Toward(zenith, azimuth), Normal: 1366, AirMass: sun.AirMass(zenith), Albedo: 0.2}
		s.Light = sun.Irradiance{Global: beam*s.Sun.Up + diffuse, Beam: beam, Diffuse: diffuse}
		flat := NewPlane(0, rapid.Float64Range(0, 360).Draw(t, "facing"))
		for name, l := range map[string]Light{"isotropic": flat.Isotropic(&s), "Hay & Davies": flat.HayDavies(&s), "Reindl": flat.Reindl(&s), "Perez": flat.Perez(&s)} {
			same(t, name, l.Total(), s.Light.Global, 1e-6*(1+s.Light.Global))
		}
		p := NewPlane(rapid.Float64Range(0, 90).Draw(t, "tilt"), rapid.Float64Range(0, 360).Draw(t, "facing"))
		if l := p.Perez(&s); l.Beam < 0 || l.Sky < 0 || l.Ground < 0 {
			t.Fatalf("%+v", l)
		}
	})
}

// Slanting light never passes better, and what passes is a share.
func TestGlassFallsWithSlant(t *testing.T) {
	m := NewModifier(30, CommonGlass.Physical)
	for name, share := range map[string]func(float64) float64{"physical": CommonGlass.Physical, "ASHRAE": func(c float64) float64 { return ASHRAE(c, 0.05) },
		"Martin & Ruiz": func(c float64) float64 { return MartinRuiz(c, 0.16) }, "table": m.Beam} {
		before := 0.0
		for cos := -0.1; cos <= 1; cos += 1e-3 {
			s := share(cos)
			if s < before-1e-12 || s > 1+1e-12 || cos <= 0 && s != 0 {
				t.Fatalf("%s passes %g at %g after %g", name, s, cos, before)
			}
			before = s
		}
		near.Equal(t, name+" straight on", share(1), 1, 1e-12)
	}
}

func TestThrough(t *testing.T) {
	m := NewModifier(0, func(cos float64) float64 { return ASHRAE(cos, 0.05) })
	got := m.Through(Light{Beam: 100, Sky: 50, Ground: 10}, 0.5)
	near.Equal(t, "beam at 60°", got.Beam, 95, 0.01)
	near.Equal(t, "sky", got.Sky/50, 0.95, 0.02)
	near.Equal(t, "ground, which a flat panel does not see", got.Ground, 0, 0)
}

func TestColdFactor(t *testing.T) {
	for coldest, want := range map[float64]float64{-5: 1.12, -6: 1.14, -36: 1.25, 22: 1.02, 20: 1.02, -20: 1.18, 19.5: 1.04, -5.5: 1.14, 24.9: 1.02, 25: 1, 40: 1, -40: 1.25} {
		got, err := ColdFactor(coldest)
		if err != nil || got != want {
			t.Errorf("%g °C: %g, %v; want %g", coldest, got, err, want)
		}
	}
	for _, coldest := range []float64{-40.1, math.NaN()} {
		if f, err := ColdFactor(coldest); err == nil {
			t.Errorf("%g °C: %g", coldest, f)
		}
	}
}
