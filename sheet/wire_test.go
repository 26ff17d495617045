package sheet

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"ampstead/examples"
	"ampstead/finding"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/travel"
	"ampstead/wire"
)

func wiredModel(t *testing.T, name string, sys q.System) *Model {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	wired, err := wire.Run(file.Rig, res, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return New(file, res, sys).WithWire(wired)
}

func wireParts(t *testing.T, m *Model) string {
	t.Helper()
	var out bytes.Buffer
	for _, name := range Parts {
		if strings.HasPrefix(name, "wire-") {
			if err := Templates().ExecuteTemplate(&out, name, m); err != nil {
				t.Fatal(err)
			}
		}
	}
	return out.String()
}

func TestWireParts(t *testing.T) {
	draft := wireParts(t, wiredModel(t, "curlew-draft", q.Metric))
	for _, want := range []string{"One-line diagram", "too small", "over it", "to buy", "Before main contactor closes", "stop: do not connect", `data-label="must interrupt"`,
		`data-label="range"`, "id=\"finding-1-wire-interrupt-rating\"", "class=\"figure-name\">conductor<"} {
		if !strings.Contains(draft, want) {
			t.Errorf("the draft's wiring lacks %q", want)
		}
	}
	mended := wireParts(t, wiredModel(t, "curlew", q.Metric))
	for _, unwanted := range []string{"too small", "over it", "stop: do not connect"} {
		if strings.Contains(mended, unwanted) {
			t.Errorf("the mended wiring says %q", unwanted)
		}
	}
	if us := wireParts(t, wiredModel(t, "dipper", q.US)); !strings.Contains(us, "AWG") || !strings.Contains(us, " ft") {
		t.Error("the small van's wiring is not in US units")
	}
}

func TestWirePartsOnPaperHaveRoomForThePen(t *testing.T) {
	m := wiredModel(t, "curlew", q.Metric)
	if strings.Contains(wireParts(t, m), "reading / by") {
		t.Error("a column for the pen on screen")
	}
	m.Paper = true
	if paper := wireParts(t, m); !strings.Contains(paper, "reading / by") || strings.Contains(paper, "for-phone") {
		t.Error("paper lacks the column for the pen or has the phone's drawing")
	}
}

func TestWithoutWiringThePartsAreEmpty(t *testing.T) {
	m := wiredModel(t, "curlew", q.Metric).WithWire(nil)
	m.Wiring = nil
	if text := strings.TrimSpace(wireParts(t, m)); text != "" {
		t.Errorf("parts of no wiring: %.100q", text)
	}
}

// One rule at one place counts once, however many stages found it.
func TestFindingsOfAllStagesTogether(t *testing.T) {
	m := wiredModel(t, "curlew-draft", q.Metric)
	all := m.Together()
	type key struct{ id, where string }
	seen := map[key]int{}
	for _, f := range all {
		seen[key{f.ID, f.Where}]++
	}
	for k, n := range seen {
		if n > 1 {
			t.Errorf("%v stands %d times", k, n)
		}
	}
	for _, f := range slices.Concat(m.Findings, m.Wiring.Findings) {
		if seen[key{f.ID, f.Where}] == 0 {
			t.Errorf("%s at %s is missing", f.ID, f.Where)
		}
	}
	if shared := len(m.Findings) + len(m.Wiring.Findings) - len(all); shared == 0 {
		t.Error("the draft's main fuse is found by both stages and should count once")
	}
	for i := 1; i < len(all); i++ {
		if urgency(all[i]) < urgency(all[i-1]) {
			t.Errorf("%s after %s", all[i].Severity, all[i-1].Severity)
		}
	}
	twice := m.WithTravel(&travel.Result{Findings: []finding.Finding{m.Findings[0].Finding, {ID: "new", Severity: finding.Stop, Where: "route"}}})
	if n := len(twice.Together()); n != len(all)+1 {
		t.Errorf("with the year %d findings, want %d", n, len(all)+1)
	}
	if got, want := twice.Stops(), m.Stops()+1; got != want {
		t.Errorf("with the year %d stops, want %d", got, want)
	}
	if len(twice.Standing()) != len(all) {
		t.Error("the year counts among the findings of the standing rig")
	}
}

func TestReadings(t *testing.T) {
	w := &wireRows{}
	for _, c := range []struct {
		step        wire.Step
		expected    bool
		rangeOfStep string
	}{
		{wire.Step{Low: 36, High: 50.4, Unit: "V"}, false, "36 to 50.4 V"},
		{wire.Step{Low: 0.022, High: 0.038, Unit: "V"}, true, "22 to 38 mV"},
		{wire.Step{Low: 49.8, High: 50.2, Unit: "V"}, true, "49.8 to 50.2 V"},
		{wire.Step{Low: -0.208, High: 0.208, Unit: "V"}, false, "-208 to 208 mV"},
		{wire.Step{Low: 0.45, High: 0.45, AtLeast: true, Unit: "Ω"}, false, "0.45 Ω or more"},
	} {
		if got := w.between(c.step); got != c.rangeOfStep {
			t.Errorf("range %q, want %q", got, c.rangeOfStep)
		}
		if got := aimed(c.step); got != c.expected {
			t.Errorf("%s has a value to expect: %t", c.rangeOfStep, got)
		}
	}
}
