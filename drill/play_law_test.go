package drill

import (
	"math"
	"testing"

	"ampstead/internal/near"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// bare leaves a rig with nothing that acts, at 20 °C all year.
func bare(r *rig.Rig) {
	r.Protection, r.Heater, r.Loads, r.Inverters, r.Converters = rig.Protection{}, nil, nil, nil, nil
	mild := q.Temperature(20)
	for k := range r.Route {
		r.Route[k].Coldest, r.Route[k].ColdestAir, r.Route[k].Hottest = &mild, &mild, &mild
	}
}

// socAt is the state of charge at which a curve stands at a voltage.
func socAt(c *cell.Cell, volts float64) float64 { return c.Curve.SoC(volts) }

// A charger that nothing stops, at constant current: the highest group comes to
// its limit V = OCV(soc) + I·R after the charge up to there over the current.
// The curve is that of Mohtat et al. 2020, whose values the library checks.
func TestHarmAtConstantCurrent(t *testing.T) {
	p := prepared(t, "curlew", func(r *rig.Rig) {
		bare(r)
		r.Charge = r.Charge[2:]
	})
	x := turnOf(t, p, "driving", "alternator charger: stuck at full output")
	o := x.outcome()
	const amps, hours = 30.0, 3600.0
	c := p.fit.Kind
	fresh, err := p.assemble(p.scene("driving"))
	if err != nil {
		t.Fatal(err)
	}
	soc := fresh.Bank.SoCs()[3]
	fast, slow := fresh.Bank.Resistance(3)
	ohm := (fast + slow) * c.ResistanceFactor(20)
	want := (socAt(c, 4.20-amps*ohm) - soc) * fresh.Bank.CapacityAh(3) / amps * hours
	if o.Harm != "cell high" || o.Outcome != Harm || len(o.Acts) != 0 {
		t.Fatalf("%+v", o)
	}
	near.Relative(t, "time to harm", o.HarmAt, want, 0.005)
	// On the way the same group follows its curve.
	s, err := p.strip(p.scene("driving"), p.fault("alternator charger: stuck at full output"))
	if err != nil {
		t.Fatal(err)
	}
	for k := range s.Time {
		if s.Time[k] > 600 && s.HighV[k] < 4.2 { // five time constants of the slow branch are over
			v := c.Curve.Voltage(soc+amps*s.Time[k]/hours/168) + amps*ohm
			near.Equal(t, "highest group", s.HighV[k], v, 1.5e-3)
		}
	}
}

// A load that nothing cuts off: the lowest group comes to its limit when the
// energy between is gone.
func TestHarmAtConstantPower(t *testing.T) {
	p := prepared(t, "curlew", func(r *rig.Rig) {
		converters := r.Converters[:1]
		bare(r)
		low, watts := q.Voltage(20), q.Power(300)
		converters[0].InputLow = &low
		r.Converters = converters
		r.Converters[0].LowCut = rig.Setting[q.Voltage]{Given: true, Off: true}
		r.Loads = []rig.Load{{Name: "lamp", On: "12 V converter", Power: &watts}}
	})
	o := runOf(t, p, "evening peak")
	a, err := p.assemble(p.scene("evening peak"))
	if err != nil {
		t.Fatal(err)
	}
	d, c := a.Converters[0].Device, p.fit.Kind
	watts := d.IdleW + 300/d.Efficiency
	fast, slow := a.Bank.Resistance(6)
	ohm := (fast + slow) * c.ResistanceFactor(20)
	amps := watts / 37.5 // of the bank near the end
	socs := a.Bank.SoCs()
	gone := socs[6] - socAt(c, 3.0+amps*ohm)
	wh := 0.0
	for k, soc := range socs {
		wh += c.Curve.Energy(soc-gone, soc) * a.Bank.CapacityAh(k)
	}
	lost := amps * amps * ohm * 12
	if o.Harm != "cell low" {
		t.Fatalf("%+v", o)
	}
	near.Relative(t, "time to harm", o.HarmAt, wh/(watts+lost)*3600, 0.01)
}

// After the disconnect opens, what the slow branch held goes by e^(−t/τ).
func TestRelaxationAfterTheDisconnect(t *testing.T) {
	p := prepared(t, "curlew", nil)
	s, err := p.strip(sceneNo(t, p, "full sun"), faultNos(t, p, "roof solar: stuck at full output")...)
	if err != nil {
		t.Fatal(err)
	}
	tau := p.fit.Kind.SlowTauS.Value
	last := s.HighV[len(s.HighV)-1]
	first := -1
	for k := range s.Time {
		since := s.Time[k] - s.Out.FirstAt
		if since < 2 || since > 3*tau {
			continue
		}
		if first < 0 {
			first = k
			continue
		}
		want := (s.HighV[first] - last) * math.Exp(-(s.Time[k]-s.Time[first])/tau)
		near.Equal(t, "what is left", s.HighV[k]-last, want, 2e-5)
	}
	if first < 0 || s.HighV[first]-last < 2e-3 {
		t.Fatalf("no relaxation seen from sample %d", first)
	}
}

// The pad warms the frozen bank as the closed form of warm-up says.
func TestWarmUpInTheScene(t *testing.T) {
	p := prepared(t, "curlew", nil)
	s, err := p.strip(sceneNo(t, p, "frozen dawn"), faultNos(t, p, "frost switch: sensor open")...)
	if err != nil {
		t.Fatal(err)
	}
	a, err := p.assemble(0)
	if err != nil {
		t.Fatal(err)
	}
	for k := range s.Time {
		if s.ColdC[k] >= 10 {
			want := cell.WarmUpTime(a.HeatJPerK, 90, a.LossWPerK, -4, s.ColdC[k], -9)
			near.Relative(t, "time to 10 °C", s.Time[k], want, 0.01)
			return
		}
	}
	t.Fatal("it never gets to 10 °C")
}
