package fit_test

import (
	"strings"
	"testing"

	"ampstead/finding"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// A guard that is there and was never set is what the finding leads to.
func TestFindingsLeadToTheGuardThatIsNotSet(t *testing.T) {
	for _, c := range []struct {
		name, id, where, found, mend string
		change                       func(*rig.Rig)
	}{
		{"frost switch", "no-frost-lock", "protection.cutouts.frost switch.below", "nothing stops roof solar, mains charger, alternator charger in frost", "set frost switch to open below 5 °C",
			func(r *rig.Rig) { frost(r).Below = rig.Setting[q.Temperature]{} }},
		{"guard relay", "no-disconnect", "protection.relays.guard relay.high", "nothing disconnects roof solar, mains charger, alternator charger", "set high and low of guard relay",
			func(r *rig.Rig) { relay(r).High, relay(r).Low = rig.Setting[q.Voltage]{}, rig.Setting[q.Voltage]{} }},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := load(t, "curlew")
			r.Charge[0].Settings.FrostLock = rig.Setting[q.Temperature]{}
			for k := range r.Charge {
				r.Charge[k].StopInput = true
			}
			c.change(r)
			res, err := fit.Run(r)
			if err != nil {
				t.Fatal(err)
			}
			var hits []finding.Finding
			for _, f := range res.Findings {
				if f.ID == c.id {
					hits = append(hits, f)
				}
			}
			if len(hits) != 1 || hits[0].Severity != finding.Stop || hits[0].Where != c.where || !strings.Contains(hits[0].Found, c.found) || !strings.HasPrefix(hits[0].Mend, c.mend) {
				t.Errorf("%+v", hits)
			}
			advised := false
			for _, s := range res.Settings {
				advised = advised || s.Path == c.where && s.Differs
			}
			if !advised {
				t.Errorf("no value is advised for %s", c.where)
			}
		})
	}
}
