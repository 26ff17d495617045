package choose

import (
	"reflect"
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

func TestWith(t *testing.T) {
	r := load(t, "curlew")
	c := candidate(t, r, "new iron pack")
	out, err := with(r, c)
	if err != nil {
		t.Fatal(err)
	}
	if out.Bank.Cell != "lfp" || out.Bank.Series != 16 || out.Bank.Measured != nil || out.Protection.Meters[0].Watches != 16 {
		t.Errorf("bank %+v", out.Bank)
	}
	res, err := fit.Run(out)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range res.Settings {
		if s.Today != "not given" && s.Today != fit.Off {
			t.Errorf("%s is still %v", s.Path, s.Today)
		}
	}
	if !reflect.DeepEqual(r, load(t, "curlew")) {
		t.Error("the rig was changed")
	}
}

// A frost switch stays a frost switch, and lead-acid does without it.
func TestCutoutsKeepTheirSide(t *testing.T) {
	r := load(t, "curlew")
	for name, below := range map[string]any{"new iron pack": 5.0, "glass mat blocks": fit.Off} {
		out, err := with(r, candidate(t, r, name))
		if err != nil {
			t.Fatal(err)
		}
		res, err := fit.Run(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range res.Settings {
			if s.Path == "protection.cutouts.frost switch.below" && s.Value != below {
				t.Errorf("%s: frost switch at %v, want %v", name, s.Value, below)
			}
			if strings.HasPrefix(s.Path, "protection.cutouts.pad switch") && name == "glass mat blocks" {
				t.Errorf("%s: %s without a pad", name, s.Path)
			}
		}
	}
}

func TestBox(t *testing.T) {
	r := load(t, "curlew")
	for name, keeps := range map[string]bool{"one large module": true, "glass mat blocks": false, "new iron pack": false} {
		out, err := with(r, candidate(t, r, name))
		if err != nil {
			t.Fatal(err)
		}
		if got := out.Bank.Box == r.Bank.Box; got != keeps {
			t.Errorf("%s: in the old box %v", name, got)
		}
		if *out.Bank.Box.Insulation != *r.Bank.Box.Insulation {
			t.Errorf("%s: insulation was lost", name)
		}
	}
}

func TestPast(t *testing.T) {
	ah := q.Charge(101)
	for _, row := range []struct {
		about    string
		change   func(c *rig.Candidate)
		basis    string
		measured bool
		wide     bool
		assumes  int
	}{
		{"stated", func(*rig.Candidate) {}, "from 9 years and 104000 km, wide band", false, true, 0},
		{"measured", func(c *rig.Candidate) { c.State.Capacity = &ah }, "measured", true, false, 0},
		{"years alone", func(c *rig.Candidate) { c.State.Distance = nil }, "from 9 years, wide band", false, true, 0},
		{"distance alone", func(c *rig.Candidate) { c.State.Years = 0 }, "from 104000 km, wide band", false, true, 1},
		{"no range", func(c *rig.Candidate) { c.State.Range = nil }, "from 9 years and 104000 km, wide band", false, true, 1},
		{"nothing", func(c *rig.Candidate) { c.State = nil }, "nothing stated: as after 8 years in a vehicle, wide band", false, true, 1},
		{"new", func(c *rig.Candidate) { c.State, c.Kind = nil, "new pack" }, "rated", false, false, 0},
	} {
		r := load(t, "curlew")
		c := candidate(t, r, "two pouch modules")
		row.change(c)
		v := prepared(t, r, c)
		if v.basis != row.basis || (v.from.Capacity > 0) != row.measured || (v.share.High-v.share.Low > 0.01) != row.wide || len(v.assumed) != row.assumes {
			t.Errorf("%s: basis %q; past %+v, share %+v, assumed %q", row.about, v.basis, v.from, v.share, v.assumed)
		}
	}
}

// Price per kWh counts fetching, only in the same currency.
func TestBills(t *testing.T) {
	for _, row := range []struct {
		set, value   string
		price, fetch float64
		assumes      int
	}{
		{"note", "x", 560, 30, 0},
		{"fetch_cost", "30 USD", 560, 0, 1},
		{"fetch_cost", "", 560, 0, 1},
		{"price", "", 0, 0, 1},
	} {
		r := changed(t, "curlew", "candidates.two pouch modules."+row.set, row.value)
		b := billOf(r, candidate(t, r, "two pouch modules"))
		if b.price != row.price || b.fetch != row.fetch || len(b.assumed) != row.assumes {
			t.Errorf("%s %q: %+v", row.set, row.value, b)
		}
	}
	own := billOf(load(t, "curlew"), nil)
	near.Equal(t, "own price", own.price, 1240, 1e-9)
	near.Equal(t, "own volume", own.litres, 1000*0.80*0.42*0.22, 1e-9)
	for item, is := range map[string]bool{"salvaged module": true, "two packs": true, "module fuse": false, "cell meter": false, "": false} {
		if aboutBank(item) != is {
			t.Errorf("%q is a price of the bank: %v", item, !is)
		}
	}
}

func TestAsks(t *testing.T) {
	r := load(t, "curlew")
	for name, least := range map[string]int{"two pouch modules": 15, "one large module": 15, "new iron pack": 8, "glass mat blocks": 7} {
		v := prepared(t, r, candidate(t, r, name))
		list := asks(v)
		measured := 0
		for _, a := range list {
			if a.Ask == "" || a.Good == "" || a.Refuse == "" {
				t.Errorf("%s: not whole: %+v", name, a)
			}
			if strings.Contains(a.Good+a.Refuse, "NaN") || strings.Contains(a.Good+a.Refuse, "%!") || strings.Contains(a.Ask, "%!") {
				t.Errorf("%s: %+v", name, a)
			}
			if a.Measure {
				measured++
			}
		}
		if len(list) < least || measured < 3 {
			t.Errorf("%s: %d asks, %d measured", name, len(list), measured)
		}
	}
	if list := asks(prepared(t, r, nil)); len(list) != 0 {
		t.Errorf("nothing is to be asked of one's own: %v", list)
	}
}

// The numbers of a list are the battery's own.
func TestAskNumbers(t *testing.T) {
	r := load(t, "curlew")
	v := prepared(t, r, candidate(t, r, "one large module"))
	text := ""
	for _, a := range asks(v) {
		text += a.Ask + " | " + a.Good + " | " + a.Refuse + "\n"
	}
	k := v.res.Kind
	for _, want := range []string{
		volts(12*k.Curve.Voltage(0.2)) + " to " + volts(12*k.Curve.Voltage(0.8)), // rest voltage
		"under 31 A",       // a fifth of 156 Ah
		"141 Ah or more",   // as measured
		"less than 109 Ah", // 70 % of 156 Ah
		"about 33 kg all",
		"agree with the 4 years",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the list:\n%s", want, text)
		}
	}
}

func TestOpenLeavesHandsOff(t *testing.T) {
	r := load(t, "dipper")
	out := open(r)
	if out.Heater == r.Heater || out.Charge[0].Settings != (rig.ChargeSettings{}) || out.Heater.On.Given {
		t.Error("settings are still there")
	}
	if !r.Heater.On.On() || !r.Protection.Relays[0].High.On() {
		t.Error("the rig was changed")
	}
}
