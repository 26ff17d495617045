package drill

import (
	"slices"
	"testing"

	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

func sceneNames(p *play) []string { return names(p.scenes, func(s Scene) string { return s.Name }) }

// A rig has the scenes it can have.
func TestScenesOfTheRig(t *testing.T) {
	all := []string{"full sun", "frozen dawn", "evening peak", "driving", "mains overnight", "three months' storage", "hottest afternoon"}
	cases := []struct {
		what   string
		change func(*rig.Rig)
		lost   []string
	}{
		{"as it is", func(*rig.Rig) {}, nil},
		{"no panels", func(r *rig.Rig) { r.Charge = r.Charge[1:] }, []string{"full sun", "frozen dawn"}},
		{"no alternator", func(r *rig.Rig) { r.Charge = r.Charge[:2] }, []string{"driving"}},
		{"no hook-up", func(r *rig.Rig) {
			for k := range r.Route {
				r.Route[k].Hookup = false
			}
		}, []string{"mains overnight"}},
		{"no loads", func(r *rig.Rig) { r.Loads, r.Converters, r.Inverters = nil, nil, nil }, []string{"evening peak"}},
		{"no frost", func(r *rig.Rig) { r.Route = r.Route[3:4]; c := q.Temperature(8); r.Route[0].Coldest = &c }, []string{"frozen dawn", "mains overnight"}},
		{"no route", func(r *rig.Rig) { r.Route = nil }, nil},
	}
	for _, c := range cases {
		got := sceneNames(prepared(t, "curlew", c.change))
		want := slices.DeleteFunc(slices.Clone(all), func(s string) bool { return slices.Contains(c.lost, s) })
		if !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", c.what, got, want)
		}
	}
}

// Scenes are set where the route is extreme.
func TestScenesAreExtreme(t *testing.T) {
	p := prepared(t, "curlew", nil)
	dawn := p.scenes[p.scene("frozen dawn")]
	if dawn.Where != "Meseta" || dawn.BankC != -4 || dawn.AirC != -9 || !dawn.Home {
		t.Errorf("%+v", dawn)
	}
	hot := p.scenes[p.scene("hottest afternoon")]
	if hot.Where != "Beech wood" || hot.BankC != 28 {
		t.Errorf("%+v", hot)
	}
	road := p.scenes[p.scene("driving")]
	if road.BankC != 9 || road.AirC != -4 || !road.Drives { // the heater holds it at 9 °C
		t.Errorf("%+v", road)
	}
	if s := p.scenes[p.scene("full sun")]; s.Home || !s.Sun {
		t.Errorf("%+v", s)
	}
}

// The sun of a scene: none before sunrise; at noon on the 21st of June at 50.1°,
// 1098·cos z·e^(−0.059/cos z) W/m² with z = 50.1 − 23.45° (Haurwitz 1945, Cooper
// 1969) is 919 W/m² on level ground.
func TestSunlight(t *testing.T) {
	near.Equal(t, "noon", clearSky(50.1, 172, 12), 918.7, 1)
	rise := sunrise(50.1, 172)
	near.Equal(t, "before sunrise", clearSky(50.1, 172, rise-0.1), 0, 0)
	if clearSky(50.1, 172, rise+0.5) <= 0 {
		t.Error("dark after sunrise")
	}
	p := prepared(t, "curlew", nil)
	st := p.stages[p.scene("frozen dawn")]
	near.Equal(t, "at sunrise", along(st.sun[0], 0), 0, 1)
	if w := along(st.sun[0], 6*3600); w < 600 || w > 1320 {
		t.Errorf("before noon the panels give %g W", w)
	}
}

// What the file leaves open is said.
func TestAssumedOfTheRoute(t *testing.T) {
	p := prepared(t, "curlew", func(r *rig.Rig) { r.Route[0].Hottest = nil })
	if !slices.Contains(p.assumed, "route.Salt marsh.hottest is not given: 35 °C") {
		t.Errorf("%q", p.assumed)
	}
}

func TestAlong(t *testing.T) {
	knots := []float64{0, 10, 30}
	for at, want := range map[float64]float64{-5: 0, 0: 0, 300: 5, 600: 10, 900: 20, 1200: 30, 9000: 30} {
		near.Equal(t, "knots", along(knots, at), want, 1e-12)
	}
	near.Equal(t, "none", along(nil, 5), 0, 0)
}
