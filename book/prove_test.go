package book_test

import (
	"strings"
	"testing"

	"ampstead/benchlog"
	"ampstead/finding"
	"ampstead/prove"
	q "ampstead/quantity"
)

// The chapters of the test come with their pictures and boxes to tick, and the
// whole book stays one file with every link at its place.
func TestProofOfTheModule(t *testing.T) {
	res := &prove.Result{Layout: benchlog.Layout{Line: "time in s, pack V"}, Grade: "derate", DerateAh: 80, CapacityAh: 82, CapacityErr: 0.4, Low: 3, High: 4.2, Limiting: 2, Series: 2,
		Groups:   []prove.Group{{Number: 1, CapacityAh: 90, Ohm: 1e-3, OhmErr: 1e-5}, {Number: 2, CapacityAh: 85, Recoverable: 3, OffsetErr: 0.5, LostAh: 5, LostErr: 1, Ohm: 1e-3, LowEnd: true}},
		NotTold:  []prove.Step{{Step: "insulation", Told: "no", Note: "measure it"}},
		Findings: []finding.Finding{{ID: "weak-group", Severity: finding.Care, Where: "group 2", Found: "it is behind"}},
		Chart:    prove.Chart{Time: []float64{0, 10, 20}, Volts: []float64{8, 7, 6}, Ah: []float64{0, -1, -2}, Amps: []float64{-1, -1, -1}, Groups: [][]float64{{4, 3.5, 3.2}, {4, 3.5, 3}}},
		Cycles:   []prove.Cycle{{Kind: "discharge", To: 20, ChargeAh: 2, Full: true}}}
	plan := &prove.Plan{Title: "Test of 12 groups", Possible: true, Cautions: []string{"Wear glasses."}, Stops: []string{"smoke"}, Steps: []prove.PlanStep{{Number: 1, Title: "Rest", Do: "nothing", Until: "the kettle sings"}}}
	m := model(t, "curlew", q.Metric)
	text := write(t, m.WithProof("test.csv", res).WithPlan(plan))
	for _, want := range []string{"The proof of the module", "discharge-860-title", "losses-860-title", "Derate: count on 80 Ah", "Group 2 ends the discharge", "tick-box", "Test plan", "Wear glasses.", "Smoke", "from / to / by",
		"finding-1-prove-weak-group", `href="#proof"`} {
		if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
			t.Errorf("the book lacks %q", want)
		}
	}
	if strings.Index(text, "Wear glasses.") > strings.Index(text, "The kettle sings") {
		t.Error("the steps come before the cautions")
	}
	hangsTogether(t, text)
	if text = write(t, m.WithPlan(plan)); !strings.Contains(text, "No log of a bench test is kept") {
		t.Error("it does not say that no log is kept")
	}
	if strings.Contains(write(t, m), "The proof of the module") {
		t.Error("a book without a test has the chapter")
	}
}
