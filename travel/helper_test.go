package travel

import (
	"context"
	"testing"

	"ampstead/internal/example"
	"ampstead/physics/sun"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/weather"
)

func open(t testing.TB, name string) *rig.Rig {
	t.Helper()
	return example.File(t, name).Rig
}

func ready(t testing.TB, r *rig.Rig, o Options) *study {
	t.Helper()
	s, err := prepare(r, o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// oneYear is the first year of a rig.
func oneYear(t testing.TB, s *study) *yearTally {
	t.Helper()
	sky := s.skies.year(0)
	l := newLight()
	l.fill(s.route, sky)
	y, err := s.world.run(context.Background(), sky, l, 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// steady is a year of one weather: an overcast sky of some W/m² in the four hours
// around noon, dark else.
func steady(overcast, tempC float64) *weather.Hours {
	h := weather.New(8760)
	h.Place = sun.Place{Latitude: 40, Longitude: 0}
	h.Start = sun.At(2027, 1, 1, 0)
	for i := range h.GHI {
		h.TempC[i] = tempC
		if i%24 >= 10 && i%24 < 14 {
			h.GHI[i], h.DHI[i] = overcast, overcast
		}
	}
	h.Basis.Name = "steady.csv"
	return h
}

// bare is curlew with its sun and bank and nothing else: no loads, no heater, no
// other source, free to be as cold as the air.
func bare(t testing.TB) *rig.Rig {
	r := open(t, "curlew")
	r.Charge = r.Charge[:1]
	r.Loads, r.Inverters, r.Converters, r.Heater, r.Cables = nil, nil, nil, nil, r.Cables[:1]
	r.Protection = rig.Protection{}
	r.Route = r.Route[:1]
	r.Route[0].Coldest, r.Route[0].Hottest, r.Route[0].Driving, r.Route[0].Shade = nil, nil, nil, nil
	return r
}

func quantityOf[Q ~float64](v float64) *Q { x := Q(v); return &x }

func load(name string, watts, duty float64) rig.Load {
	return rig.Load{Name: name, On: "bank", Power: quantityOf[q.Power](watts), Duty: quantityOf[q.Ratio](duty)}
}
