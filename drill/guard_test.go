package drill

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func guardNamed(t *testing.T, p *play, name string) *Guard {
	t.Helper()
	k := slices.IndexFunc(p.guards, func(g Guard) bool { return g.Name == name })
	if k < 0 {
		t.Fatalf("no guard %q among %v", name, names(p.guards, func(g Guard) string { return g.Name }))
	}
	return &p.guards[k]
}

func shares(g *Guard, with string) string {
	for _, s := range g.SharesBy {
		if strings.HasSuffix(s, " with "+with) {
			return strings.TrimSuffix(s, " with "+with)
		}
	}
	return ""
}

// Two functions of one device are one layer (CCPS criteria for independent
// layers of protection): they share what the device has.
func TestWhatGuardsShare(t *testing.T) {
	p := prepared(t, "curlew", nil)
	cases := []struct{ guard, with, want string }{
		{"guard relay: high, opens main contactor", "guard relay: low, opens main contactor", "sensor, logic, switch"},
		{"cell meter: alarm high, sounds", "cell meter: alarm low, sounds", "sensor, logic"},
		{"cell meter: alarm high, sounds", "cell meter: heat, sounds", "logic"},
		{"frost switch: cold, stops roof solar", "roof solar: frost lock", "switch"},
		{"frost switch: cold, stops roof solar", "heat switch: hot, stops roof solar", "switch"},
		{"frost switch: cold, stops roof solar", "frost switch: cold, stops mains charger", "sensor, logic"},
		{"frost switch: cold, stops mains charger", "roof solar: frost lock", ""},
		{"guard relay: high, opens main contactor", "cell meter: alarm high, sounds", ""},
		{"guard relay: high, opens main contactor", "roof solar: end of charge", ""},
	}
	for _, c := range cases {
		a, b := guardNamed(t, p, c.guard), guardNamed(t, p, c.with)
		if got := shares(a, b.Name); got != c.want {
			t.Errorf("%s shares %q with %s, want %q", c.guard, got, c.with, c.want)
		}
		if got := shares(b, a.Name); got != c.want {
			t.Errorf("%s shares %q with %s, want %q", c.with, got, c.guard, c.want)
		}
	}
}

func TestGuardsNameTheirLayer(t *testing.T) {
	p := prepared(t, "curlew", nil)
	for name, layer := range map[string]string{
		"guard relay: low, opens main contactor": "disconnect low", "pad switch: hot, stops heater pad": "heat",
		"mains inverter: low cut-off": "daily low", "alternator charger: end of charge": "daily high",
		"cell meter: spread, sounds": "spread",
	} {
		g := guardNamed(t, p, name)
		if g.Layer != layer || g.Logic != g.Device || g.Sensor == "" {
			t.Errorf("%+v", g)
		}
	}
	draft := prepared(t, "curlew-draft", nil)
	for _, g := range draft.guards {
		if g.Layer == "frost" {
			t.Errorf("the draft has no frost lock: %+v", g)
		}
	}
}

// lame is a fault for each guard, after which it does nothing.
var lame = []string{"guard relay: dead", "cell meter: dead", "frost switch: sensor stuck", "heat switch: sensor stuck",
	"pad switch: sensor stuck", "roof solar: sensor stuck", "12 V converter: low cut-off defeated", "mains inverter: low cut-off defeated"}

// Fewer guards never leave a larger margin: a set of guards is taken away, then
// one more, over a sample of faults and scenes.
func TestFewerGuardsNoMoreMargin(t *testing.T) {
	p := prepared(t, "curlew", nil)
	guards := faultNos(t, p, lame...)
	draw := rand.New(rand.NewPCG(5, 7))
	smaller := 0
	for range 150 {
		scene := draw.IntN(len(p.scenes))
		faults := []int{draw.IntN(len(p.faults))}
		for _, g := range guards {
			if draw.IntN(3) == 0 && g != faults[0] {
				faults = append(faults, g)
			}
		}
		more := guards[draw.IntN(len(guards))]
		if slices.Contains(faults, more) {
			continue
		}
		if fewer(t, p, scene, faults, more) {
			smaller++
		}
	}
	if smaller == 0 {
		t.Error("no guard of the sample made any difference")
	}
}

func fewer(t *testing.T, p *play, scene int, faults []int, more int) bool {
	t.Helper()
	a, err := p.run(scene, faults...)
	if err != nil {
		t.Fatal(err)
	}
	b, err := p.run(scene, append(slices.Clone(faults), more)...)
	if err != nil {
		t.Fatal(err)
	}
	const rounding = 1.5 // mV, by which steps may fall otherwise
	harmed := a.Outcome == Harm && b.Outcome == Harm
	if !harmed && (b.MarginMV > a.MarginMV+rounding || a.Outcome == Harm) {
		t.Errorf("%s, %s: %.1f mV; without %s: %.1f mV", a.Scene, a.Fault, a.MarginMV, p.faults[more].Name, b.MarginMV)
	}
	return math.Abs(a.MarginMV-b.MarginMV) > rounding || a.Outcome != b.Outcome
}
