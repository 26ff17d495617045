package choose

import (
	"reflect"
	"strings"
	"testing"

	"ampstead/finding"
	"ampstead/life"
	"ampstead/rig"
)

// found are the devices of a list of misfits, those to be exchanged with a !.
func found(list []Misfit) []string {
	out := []string{}
	for _, m := range list {
		name := m.Device
		if m.Exchange {
			name += "!"
		}
		out = append(out, name)
	}
	return out
}

func TestMisfits(t *testing.T) {
	draft := []string{"roof solar", "mains charger", "alternator charger!"} // nothing stops them in frost
	for _, row := range []struct {
		rig, name string
		want      []string
	}{
		{"curlew", "", []string{}},
		{"curlew", "one large module", []string{"cell meter"}},
		{"curlew", "two pouch modules", []string{"cell meter", "the box"}},
		{"curlew", "new iron pack", []string{"cell meter", "the box"}},
		{"curlew", "glass mat blocks", []string{"12 V converter", "cell meter", "guard relay", "heater pad", "the box"}},
		{"curlew-draft", "", draft},
		{"curlew-draft", "sixteen in a row", append([]string{"12 V converter!", "mains inverter!"}, append(draft, "cell meter")...)},
		{"dipper", "", []string{}},
	} {
		r := load(t, row.rig)
		var c *rig.Candidate
		if row.name != "" {
			c = candidate(t, r, row.name)
		}
		v := prepared(t, r, c)
		if got := found(v.misfits); !reflect.DeepEqual(got, row.want) {
			t.Errorf("%s, %s: %q, want %q", row.rig, v.name, got, row.want)
		}
		if exchange := strings.Contains(strings.Join(row.want, ""), "!"); v.fits == exchange {
			t.Errorf("%s, %s: fits %v", row.rig, v.name, v.fits)
		}
	}
}

// One thing of dipper's that does not suit its own bank.
func TestMisfitsOfDevices(t *testing.T) {
	for _, row := range []struct {
		path, value string
		want        string
		says        string
	}{
		{"converters.12 V converter.input_high", "29 V", "12 V converter!", "it bears 29.0 V; this battery can reach 29.4 V"},
		{"inverters.small inverter.input_low", "24 V", "small inverter!", "it works from 24.0 V"},
		{"charge.alternator charger.highest", "28.5 V", "alternator charger!", "would never be full"},
		{"charge.roof panel.panels.roof.series", "1", "roof panel", "its panels give"},
		{"protection.meters.cell meter.watches", "6", "cell meter", "it is wired to 6 groups; this battery has 7"},
	} {
		v := prepared(t, changed(t, "dipper", row.path, row.value), nil)
		if got := found(v.misfits); len(got) != 1 || got[0] != row.want || !strings.Contains(v.misfits[0].Found, row.says) {
			t.Errorf("%s %s: %v, want %s", row.path, row.value, v.misfits, row.want)
		}
	}
}

func TestChargerThatCannotGoSoLow(t *testing.T) {
	r := load(t, "dipper")
	low := *r.Charge[0].Highest
	r.Charge[0].Lowest, r.Charge[0].Settings = &low, rig.ChargeSettings{}
	v := prepared(t, r, nil)
	if got := found(v.misfits); len(got) == 0 || got[0] != "roof panel!" || v.fits {
		t.Errorf("misfits %v", v.misfits)
	}
	if v.rig.Charge[0].Lowest != nil {
		t.Error("it is judged with the charger that must go")
	}
}

// Too high a battery is a finding to stop at; compensation alone is not.
func TestTooHigh(t *testing.T) {
	r := load(t, "curlew-draft")
	for name, want := range map[string]int{"sixteen in a row": 1, "glass mat blocks": 0, "new iron pack": 0} {
		v := prepared(t, r, candidate(t, r, name))
		list := byID(v.findings(&Candidate{Life: &life.Result{ByCapacity: life.Band{Low: 1}}}), "candidate-too-high")
		if len(list) != want {
			t.Fatalf("%s: %v", name, list)
		}
		if want == 1 && (list[0].Severity != finding.Stop || list[0].Where != "candidates."+name || !strings.Contains(list[0].Found, "67.2 V")) {
			t.Errorf("%s: %+v", name, list[0])
		}
	}
}

// The judged rig has devices over the whole window, and cold locked out.
func TestExchanged(t *testing.T) {
	r := load(t, "curlew-draft")
	v := prepared(t, r, candidate(t, r, "sixteen in a row"))
	for _, x := range v.rig.Inverters {
		if float64(*x.InputHigh) < v.res.Window.BankHighV {
			t.Errorf("%s bears %g V", x.Name, float64(*x.InputHigh))
		}
	}
	for _, c := range v.rig.Charge {
		if c.Thermometer != "bank" {
			t.Errorf("nothing stops %s in frost", c.Name)
		}
	}
	if float64(*r.Inverters[0].InputHigh) != 66 || r.Charge[1].Thermometer != "none" {
		t.Error("the rig itself was changed")
	}
}
