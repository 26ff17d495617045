package drill

import (
	"slices"
	"strings"
	"testing"

	"ampstead/examples"
)

// Everything that acts or warns is tried, and every test says how to begin, what
// to see, when to stop and what to set back.
func TestEveryGuardHasARehearsal(t *testing.T) {
	for _, name := range examples.Names() {
		p := prepared(t, name, nil)
		var tried []string
		for _, r := range newStudy(p, Options{}).rehearsal() {
			tried = append(tried, strings.Split(r.Tests, both)...)
			if r.Name == "" || len(r.Before) == 0 || len(r.Steps) == 0 || r.Expect == "" || r.Stop == "" || len(r.After) == 0 {
				t.Errorf("%s: not whole: %+v", name, r)
			}
		}
		for _, g := range p.guards {
			if !slices.Contains(tried, g.Name) {
				t.Errorf("%s: nothing tries %s", name, g.Name)
			}
		}
	}
}

// The values are those of the rig, in its units.
func TestRehearsalHasTheRigsValues(t *testing.T) {
	for _, tt := range []struct{ rig, test, says string }{
		{"curlew", "guard relay: high trip", "high back to 50.00 V"},
		{"curlew", "guard relay: high trip", "opens with a click"},
		{"curlew", "guard relay: low trip", "20 s after low"},
		{"curlew", "frost switch: cold", "between 7 °C and 3 °C"},
		{"dipper", "frost switch: cold", "between 44 °F and 38 °F"},
		{"dipper", "heat switch: heat", "the main contactor opens"},
		{"curlew-draft", "guard relay: high trip", "fill the capacitors behind it through a resistor"},
	} {
		p := prepared(t, tt.rig, nil)
		found := false
		for _, r := range newStudy(p, Options{}).rehearsal() {
			all := strings.Join(slices.Concat(r.Before, r.Steps, r.After), "\n") + r.Expect + r.Stop
			found = found || r.Name == tt.test && strings.Contains(all, tt.says)
		}
		if !found {
			t.Errorf("%s: %q does not say %q", tt.rig, tt.test, tt.says)
		}
	}
}
