package drill

import (
	"slices"
	"strings"
	"testing"

	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

// The faults come from what the rig has.
func TestFaultsOfTheRig(t *testing.T) {
	p := prepared(t, "curlew", nil)
	faultNos(t, p, "roof solar: stuck at full output", "mains charger: back on its lead-acid profile", "alternator charger: voltage sense reads low",
		"roof solar: voltage sense reads high", "roof solar: sensor open", "guard relay: contact welded", "guard relay: coil or contact open",
		"guard relay: dead", "guard relay: delay lost", "guard relay: thresholds drifted up", "main contactor: contacts welded", "main contactor: coil open",
		"cell meter: dead", "cell meter: wire of group 4 open", "frost switch: sensor stuck", "frost switch: sensor open", "heat switch: sensor short",
		"heater pad: stuck on", "heater pad: stuck off", "mains inverter: low cut-off defeated", "12 V converter: fed from before the disconnect",
		"12 V converter: input shorted", "alternator charger: bank comes off while charging", "main fuse: open", "module fuse: open",
		"group 7: leaks", "group 4: lost capacity", "group 4: link to one cell open", "surroundings: far colder", "surroundings: far hotter")
	seen := map[string]bool{}
	for _, f := range p.faults {
		if seen[f.Name] || f.Kind == "" || f.How == "" || !strings.HasPrefix(f.Name, f.Device+": ") {
			t.Errorf("%+v", f)
		}
		seen[f.Name] = true
	}
	for _, name := range []string{"mains charger: sensor stuck", "pad switch: sensor open", "cooling: stands still"} {
		if p.fault(name) >= 0 {
			t.Errorf("the rig cannot have %q", name)
		}
	}
	bare := prepared(t, "curlew", bare)
	for _, f := range bare.faults {
		if strings.Contains(f.Name, "relay") || strings.Contains(f.Name, "heater") || strings.Contains(f.Name, "disconnect") {
			t.Errorf("a rig without it has %q", f.Name)
		}
	}
	cooled := prepared(t, "curlew", func(r *rig.Rig) { r.Bank.Cooling = "fan" })
	faultNos(t, cooled, "cooling: stands still")
}

// The draft, left on its lead-acid profile, cannot fall back onto it; what its
// fuse cannot interrupt is harm.
func TestFaultsOfTheDraft(t *testing.T) {
	p := prepared(t, "curlew-draft", nil)
	if p.fault("roof solar: back on its lead-acid profile") >= 0 {
		t.Error("it is on that profile already")
	}
	o := runOf(t, p, "mains overnight", "12 V converter: input shorted")
	if o.Outcome != Harm || o.Harm != "current" || o.HarmAt != 0 || !o.Silent && o.AlarmAt < 0 {
		t.Errorf("short that nothing clears: %+v", o)
	}
	mended := prepared(t, "curlew", nil)
	o = runOf(t, mended, "mains overnight", "12 V converter: input shorted")
	if o.Outcome != Nuisance || !o.LostPower || o.AlarmAt != 0 {
		t.Errorf("short that its fuse clears: %+v", o)
	}
}

// A cell of two strings of single cells that comes off takes its string along,
// and the other carries twice its share; of 60 cells side by side the others
// carry 60/59.
func TestOpenedLinkShares(t *testing.T) {
	p := prepared(t, "curlew", nil)
	x := turnOf(t, p, "full sun", "group 4: link to one cell open")
	near.Equal(t, "capacity", x.a.Bank.CapacityAh(0), 84, 1e-9)
	near.Equal(t, "share", x.outcome().PeakShare, 2, 1e-9)
	d := prepared(t, "dipper", nil)
	k := slices.IndexFunc(d.faults, func(f Fault) bool { return f.Kind == "opened link" })
	x = turnOf(t, d, "full sun", d.faults[k].Name)
	near.Equal(t, "share", x.outcome().PeakShare, 60.0/59, 1e-9)
	sound := turnOf(t, d, "full sun")
	weak := slices.IndexFunc([]int{0, 1, 2, 3, 4, 5, 6}, func(g int) bool { return x.a.Bank.CapacityAh(g) < sound.a.Bank.CapacityAh(g)-1 })
	near.Equal(t, "capacity", x.a.Bank.CapacityAh(weak), 158*59.0/60, 1e-9)
	fast, _ := x.a.Bank.Resistance(weak)
	was, _ := sound.a.Bank.Resistance(weak)
	near.Equal(t, "resistance", fast, was*60/59, 1e-12)
}

// More than a cell bears, for longer than a minute, is harm: 45 A into one of two
// strings is 0.54 of its capacity an hour; the cells' table ends at 0.5.
func TestCurrentHarm(t *testing.T) {
	p := prepared(t, "curlew", func(r *rig.Rig) {
		r.Charge = r.Charge[2:]
		limit := q.Current(45)
		r.Charge[0].Limit = &limit
	})
	o := runOf(t, p, "driving", "alternator charger: stuck at full output", "group 4: link to one cell open")
	if o.Harm != "current" || o.HarmAt < carriesS || o.HarmAt > 2*carriesS {
		t.Errorf("%+v", o)
	}
	if o = runOf(t, p, "driving", "alternator charger: stuck at full output"); o.Harm == "current" {
		t.Errorf("both strings: %+v", o)
	}
}

// Faults of one device add up: a relay that has drifted and lost its delay.
func TestFaultsCompose(t *testing.T) {
	p := prepared(t, "curlew", nil)
	x := turnOf(t, p, "full sun", "guard relay: thresholds drifted up", "guard relay: delay lost")
	r := x.a.Relays[0].Device
	near.Equal(t, "gain", r.Gain, 3*0.005, 1e-12)
	near.Equal(t, "delay", r.HighDelayS, 0, 0)
	both := runOf(t, p, "full sun", "roof solar: stuck at full output", "roof solar: sensor open")
	one := runOf(t, p, "full sun", "roof solar: stuck at full output")
	near.Equal(t, "a stuck source heeds no thermometer", both.MarginMV, one.MarginMV, 0.1)
	if both.Fault != "roof solar: stuck at full output" || both.Second != "roof solar: sensor open" {
		t.Errorf("named %q and %q", both.Fault, both.Second)
	}
}

// A drifted relay acts where its drift says: 50.0 V by three times 0.5 %.
func TestDriftedRelay(t *testing.T) {
	p := prepared(t, "curlew", nil)
	s, err := p.strip(sceneNo(t, p, "full sun"), faultNos(t, p, "roof solar: stuck at full output", "guard relay: thresholds drifted down")...)
	if err != nil {
		t.Fatal(err)
	}
	top := slices.Max(s.HighV)
	near.Equal(t, "highest group", top, 50.0*0.985/12+0.008, 3e-3)
}

// The dump strikes half an hour into charging, not before, and only on the road.
func TestLoadDump(t *testing.T) {
	p := prepared(t, "curlew", nil)
	const name = "alternator charger: bank comes off while charging"
	s, err := p.strip(sceneNo(t, p, "driving"), faultNos(t, p, name)...)
	if err != nil {
		t.Fatal(err)
	}
	for k := range s.Time {
		if charging := s.BankA[k] > 1; charging != (s.Time[k] <= strikeS) && s.Time[k] > 60 && s.Time[k] != s.Time[0] {
			if s.Time[k]-strikeS > 128 || s.Time[k] <= strikeS {
				t.Fatalf("%g A at %g s", s.BankA[k], s.Time[k])
			}
		}
	}
	if s.Out.AlarmAt < strikeS || s.Out.Outcome == Harm {
		t.Errorf("%+v", s.Out)
	}
	o := runOf(t, p, "full sun", name)
	if o.LostPower {
		t.Errorf("not on the road: %+v", o)
	}
}
