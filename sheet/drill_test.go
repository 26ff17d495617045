package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/drill"
	"ampstead/internal/drillsample"
	q "ampstead/quantity"
	"ampstead/sheet"
)

func drilled(t testing.TB, sys q.System, paper bool) *sheet.Model {
	m := model(t, sys)
	m.Paper = paper
	return m.WithDrill(drillsample.Result(), *drillsample.Frost(), *drillsample.Strip())
}

func TestDrillAnswer(t *testing.T) {
	said := strings.Join(sheet.DrillAnswer(drillsample.Result()), " ")
	for _, want := range []string{"2 single faults reach harm in the 7 scenes tried: mains charger: back on the lead-acid profile (mains overnight, a cell above its limit); frost switch",
		"2 come near harm, nearest roof solar: stuck at full output (full sun, nobody home, 4 mV left)", "in 44 of 5670 runs, for 2 common causes",
		"a second contactor in series, 31 of 44 runs", "3 faults are silent", "Tried: 24 faults in 7 scenes."} {
		if !strings.Contains(said, want) {
			t.Errorf("the answer %q does not say %q", said, want)
		}
	}
	if verdict.MatchString(said) {
		t.Errorf("a verdict was given: %q", said)
	}
	mended := drillsample.Result()
	for i := range mended.Single {
		mended.Single[i].Outcome, mended.Single[i].Silent = drill.Caught, false
	}
	mended.Pairs, mended.Additions = drill.Pairs{}, nil
	said = strings.Join(sheet.DrillAnswer(mended), " ")
	for _, want := range []string{"No single fault drives a cell out of its window or charges it in frost in the 7 scenes tried.", "Pairs of faults were not played."} {
		if !strings.Contains(said, want) {
			t.Errorf("the answer %q does not say %q", said, want)
		}
	}
	draft := drillsample.Result()
	draft.Without[4].Outcome, draft.Without[4].Harm = drill.Harm, "cell high"
	said = strings.Join(sheet.DrillAnswer(draft), " ")
	for _, want := range []string{"With nothing wrong at all, 1 of the 7 scenes tried reaches harm: mains overnight (a cell above its limit).", "One single fault reaches harm in a scene that by itself does not: frost switch: stuck closed"} {
		if !strings.Contains(said, want) {
			t.Errorf("the answer %q does not say %q", said, want)
		}
	}
	if said := sheet.DrillAnswer(&drill.Result{})[0]; !strings.Contains(said, "No fault was played") {
		t.Errorf("without faults: %q", said)
	}
}

func TestDrillParts(t *testing.T) {
	for _, paper := range []bool{false, true} {
		m := drilled(t, q.US, paper).PickedAt("/drill").WithRun(drillsample.Strip())
		text := all(t, m)
		if err := wellFormed(text); err != nil {
			t.Error(err)
		}
		for _, want := range []string{"one fault &lt;by itself&gt;", "finding-1-drill-single-fault-harm", "/drill?fault=roof+solar%3A+stuck+at+full+output&amp;scene=full+sun%2C+nobody+home",
			"After 21 min: guard relay opened main contactor (disconnect high).", "second=main&#43;contactor%3A&#43;contact&#43;welded", "more than 1.5 V", "120 mV", "48.2 °F", "only warns", "seen: <span", "Expect:",
			"The first sign a person would notice came after 15 min."} {
			if want == "seen: <span" && !paper {
				continue
			}
			if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
				t.Errorf("paper %t: the parts do not say %q", paper, want)
			}
		}
		for _, h := range heading.FindAllStringSubmatch(text, -1) {
			if h[1] != "3" {
				t.Errorf("a part has a heading of level %s", h[1])
			}
		}
		if tables, captions := strings.Count(text, "<table"), strings.Count(text, "<caption"); tables != captions {
			t.Errorf("%d tables but %d captions", tables, captions)
		}
	}
}

// On paper no drawing may be taller than a page, and each stands there once.
func TestDrillOnPaper(t *testing.T) {
	res := drillsample.Result()
	for i := range 60 {
		name := res.Faults[i%24].Device + fmt.Sprintf(": further %02d", i)
		res.Faults = append(res.Faults, drill.Fault{Name: name, Device: res.Faults[i%24].Device})
		res.Single = append(res.Single, drill.Outcome{Fault: name, Scene: drillsample.Sun, Outcome: drill.None, MarginMV: 300})
	}
	m := model(t, q.Metric)
	m.Paper = true
	m = m.WithDrill(res, *drillsample.Frost(), *drillsample.Strip(), drill.Strip{}, *drillsample.Strip())
	parts := m.MatrixPictures()
	if len(parts) < 2 {
		t.Fatalf("%d drawings for 84 faults", len(parts))
	}
	faults := 0
	for _, p := range parts {
		faults += strings.Count(string(p.Desk), `class="hair"`)
		var height float64
		if _, rest, ok := strings.Cut(string(p.Desk), `viewBox="0 0 860 `); ok {
			height = number(rest)
		}
		if height <= 0 || height > 1150 {
			t.Errorf("a drawing of the matrix is %g px tall", height)
		}
	}
	if full, small := len(m.PaperRuns()), len(m.Glimpses()); full != 2 || small != 2 {
		t.Errorf("%d runs in full and %d small, want 2 and 2", full, small)
	}
	text, ids := all(t, m), map[string]bool{}
	for _, id := range idAttr.FindAllStringSubmatch(text, -1) {
		if ids[id[1]] {
			t.Errorf("id %q stands twice", id[1])
		}
		ids[id[1]] = true
	}
}

func number(text string) float64 {
	v := 0.0
	for _, c := range text {
		if c < '0' || c > '9' {
			break
		}
		v = 10*v + float64(c-'0')
	}
	return v
}

func TestTightestFirst(t *testing.T) {
	list := sheet.TightestFirst([]drill.Margin{
		{Setting: "never", Range: 2, Tol: 0.1}, {Setting: "wide", Up: 1, UpTo: "x", Range: 2, Tol: 0.1}, {Setting: "tight", Down: 0.05, DownTo: "x", Up: 2, Range: 2, Tol: 0.1},
	})
	got := list[0].Setting + " " + list[1].Setting + " " + list[2].Setting
	if got != "tight wide never" {
		t.Errorf("order %q", got)
	}
}

// The model that was given stays as it was, for the next page uses it too.
func TestWithDrillLeavesTheModel(t *testing.T) {
	m := model(t, q.Metric)
	with := m.WithDrill(drillsample.Result())
	picked := with.PickedAt("/drill").WithRun(drillsample.Strip())
	if m.Drill != nil || with.Drill.Pick != "" || with.Drill.Run != nil || with.Drill.Devices[0].Faults[0].To != "" || with.Drill.Groups[0].To != "" {
		t.Error("the model was changed")
	}
	if picked.Drill.Run == nil || m.WithDrill(nil).Drill != nil {
		t.Error("the run is missing, or no drill made one")
	}
	if got := len(with.Together()) - len(m.Together()); got != 1 {
		t.Errorf("%d findings more, want 1", got)
	}
}
