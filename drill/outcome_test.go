package drill

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

// The mended rig survives every single fault in every scene; the draft does not.
func TestSingleFaults(t *testing.T) {
	count := func(name string) (harmed []string) {
		p := prepared(t, name, nil)
		for k := range p.faults {
			for scene := range p.scenes {
				o, err := p.run(scene, k)
				if err != nil {
					t.Fatal(err)
				}
				if o.Outcome == Harm {
					harmed = append(harmed, o.Fault+" in "+o.Scene)
				}
				checkOutcome(t, p, o)
			}
		}
		return harmed
	}
	if harmed := count("curlew"); len(harmed) > 0 {
		t.Errorf("mended, and yet harmed by %s", strings.Join(harmed, "; "))
	}
	count("dipper")
	if harmed := count("curlew-draft"); len(harmed) < 20 {
		t.Errorf("the draft is harmed in %d runs only", len(harmed))
	}
}

// checkOutcome holds for every run; the books of bus and bank close in it.
func checkOutcome(t *testing.T, p *play, o Outcome) {
	t.Helper()
	bad := func(is bool, what string) {
		if is {
			t.Errorf("%s, %s: %s: %+v", o.Scene, o.Fault, what, o)
		}
	}
	w := &p.fit.Window
	bad(!(o.GapWh < 1e-6), "books do not close")
	bad((o.Outcome == Harm) != (o.Harm != "") || (o.Harm != "") != (o.HarmAt >= 0), "harm without a kind or time")
	bad(o.Harm == "" && (o.HighV > w.CellHighV+1e-4 || o.LowV < w.CellLowV-1e-4), "left the window unharmed")
	bad(o.MarginMV > 1000*(w.CellHighV-o.HighV)+1e-6 || o.MarginMV > 1000*(o.LowV-w.CellLowV)+1e-6, "margin is not to the nearest limit")
	bad((o.FirstLayer == "") != (o.FirstAt < 0), "first layer without a time")
	bad(o.ReactS >= 0 && (o.HarmAt < 0 || o.AlarmAt < 0), "time to react to nothing")
	bad(o.Outcome == Nuisance && !o.LostPower, "a nuisance that cost nothing")
	bad(o.Outcome == Caught && o.FirstLayer == "", "caught by nothing")
	bad(!p.scenes[p.scene(o.Scene)].Home && o.AlarmAt >= 0, "heard with nobody at home")
	bad(!slices.IsSortedFunc(o.Acts, func(a, b Act) int { return cmp.Compare(inVainLast(a.At), inVainLast(b.At)) }), "acts out of order")
}

// The relay that opens is the layer; with nobody at home no alarm is heard.
func TestStuckSourceIsCaught(t *testing.T) {
	p := prepared(t, "curlew", nil)
	o := runOf(t, p, "full sun", "roof solar: stuck at full output")
	if o.Outcome != Caught || o.FirstLayer != "disconnect high" || !o.Silent || o.AlarmAt >= 0 || o.Side != "high" {
		t.Errorf("%+v", o)
	}
	if a := o.Acts[0]; a.Device != "guard relay" || a.Did != "opened main contactor" {
		t.Errorf("%+v", a)
	}
	// 50.0 V over 12 with a group 6 mV above: 4.200 − 4.1667 − 0.006, less what
	// two seconds and the group's own rise at 4.1 V add.
	near.Equal(t, "margin", o.MarginMV, 26, 2)
	road := runOf(t, p, "driving", "roof solar: stuck at full output")
	if road.FirstLayer != "alarm high" || road.AlarmAt != road.FirstAt || road.Silent {
		t.Errorf("somebody is there: %+v", road)
	}
}

// A relay that trips in vain is not the first layer.
func TestActingInVain(t *testing.T) {
	p := prepared(t, "curlew", nil)
	o := runOf(t, p, "full sun", "roof solar: stuck at full output", "main contactor: contacts welded")
	if o.Outcome != Harm || o.Harm != "cell high" || o.FirstLayer != "" || !o.Silent {
		t.Errorf("%+v", o)
	}
	if len(o.Acts) != 1 || o.Acts[0].At >= 0 || o.Acts[0].Did != "acted, and nothing obeyed" {
		t.Errorf("%+v", o.Acts)
	}
	road := runOf(t, p, "driving", "roof solar: stuck at full output", "main contactor: contacts welded")
	near.Equal(t, "time to react", road.ReactS, road.HarmAt-road.AlarmAt, 1e-9)
	if road.ReactS < 600 || road.Silent {
		t.Errorf("%+v", road)
	}
}

// A switch that acts on a temperature that is not there is no layer, and what it
// costs is a nuisance.
func TestNuisance(t *testing.T) {
	p := prepared(t, "curlew", nil)
	o := runOf(t, p, "full sun", "frost switch: sensor open")
	if o.Outcome != Nuisance || o.FirstLayer != "" || !o.LostPower || !strings.Contains(o.Acts[0].Did, "though nothing asked for it") {
		t.Errorf("%+v", o)
	}
	o = runOf(t, p, "evening peak", "main fuse: open")
	if o.Outcome != Nuisance || o.Silent || o.AlarmAt != 0 {
		t.Errorf("%+v", o)
	}
	if o = runOf(t, p, "evening peak"); o.LostPower || o.FirstLayer != "daily low" {
		t.Errorf("a low cut-off that is due is no nuisance: %+v", o)
	}
}

// Frost: with the heater off too, a source that heeds nothing charges in frost.
func TestFrostCharge(t *testing.T) {
	p := prepared(t, "curlew", nil)
	if o := runOf(t, p, "frozen dawn"); o.FrostAh != 0 || o.FirstLayer != "frost" || o.Outcome != Caught {
		t.Errorf("%+v", o)
	}
	o := runOf(t, p, "frozen dawn", "roof solar: stuck at full output", "heater pad: stuck off")
	if o.Harm != "frost charge" || o.FrostAh <= p.limits.traceAh {
		t.Errorf("%+v", o)
	}
}

// Near is less room than the last layer may be off: that of the relay, 0.5 % of
// 50.0 V over 12 groups, 20.8 mV, and of 38.2 V, 15.9 mV.
func TestNear(t *testing.T) {
	p := prepared(t, "curlew", nil)
	near.Equal(t, "high", p.limits.nearHigh, 0.005*50.0/12, 1e-6)
	near.Equal(t, "low", p.limits.nearLow, 0.005*38.2/12, 1e-6)
	closer := prepared(t, "curlew", func(r *rig.Rig) {
		r.Protection.Relays[0].High = rig.Setting[q.Voltage]{Given: true, Value: 50.1}
	})
	if o := runOf(t, closer, "full sun", "roof solar: stuck at full output"); o.Outcome != Near {
		t.Errorf("%+v", o)
	}
}

// A strip is short enough to draw and keeps the peak.
func TestStrip(t *testing.T) {
	p := prepared(t, "curlew", nil)
	s, err := p.strip(sceneNo(t, p, "driving"), faultNos(t, p, "roof solar: stuck at full output")...)
	if err != nil {
		t.Fatal(err)
	}
	n := len(s.Time)
	if n < 100 || n > mostSamples+3 {
		t.Errorf("%d samples", n)
	}
	for _, list := range s.lists() {
		if len(list) != n {
			t.Fatalf("lists of %d and %d", n, len(list))
		}
	}
	near.Equal(t, "peak", slices.Max(s.HighV), s.Out.HighV, 1e-9)
	near.Equal(t, "end", s.Time[n-1], 8*3600, 1e-6)
	if !slices.IsSorted(s.Time) || s.HarmHi != 4.2 || s.FrostC != 0 || s.HotMax != 60 {
		t.Errorf("strip %+v", s.Out)
	}
}

func TestThin(t *testing.T) {
	s := Strip{}
	for k := range 5000 {
		v := float64(k % 7)
		if k == 3333 {
			v = 99
		}
		for _, list := range []*[]float64{&s.HighV, &s.LowV, &s.BankA, &s.BusV, &s.ColdC, &s.HotC, &s.SoC} {
			*list = append(*list, v)
		}
		s.Time = append(s.Time, float64(k))
	}
	s.thin()
	if len(s.Time) > mostSamples+3 || slices.Max(s.HighV) != 99 || s.Time[0] != 0 || s.Time[len(s.Time)-1] != 4999 || !slices.IsSorted(s.Time) {
		t.Errorf("%d samples to %g, peak %g", len(s.Time), s.Time[len(s.Time)-1], slices.Max(s.HighV))
	}
}
