package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"

	"ampstead/drill"
	"ampstead/fit"
	"ampstead/internal/drillsample"
	"ampstead/rig"
)

// faultsAt stands in for the drill: it counts runs and can hold them back.
type faultsAt struct {
	runs, plays atomic.Int32
	hold        gate
	fail        error
}

func (f *faultsAt) run(ctx context.Context, _ *rig.Rig, o drill.Options) (*drill.Result, error) {
	f.runs.Add(1)
	if o.Progress != nil {
		o.Progress(70, 168)
	}
	if err := f.hold.pass(ctx); err != nil {
		return nil, err
	}
	if f.fail != nil {
		return nil, f.fail
	}
	return drillsample.Result(), nil
}

func (f *faultsAt) play(_ *rig.Rig, scene string, faults ...string) (*drill.Strip, error) {
	f.plays.Add(1)
	s := drillsample.Strip()
	s.Fault, s.Second, s.Scene = "", "", scene
	for i, name := range faults {
		if strings.HasPrefix(name, "no such") {
			return nil, &fit.InputError{Path: "fault", Message: "there is no fault <" + name + ">", Expected: "such as " + drillsample.Stuck}
		}
		*[]*string{&s.Fault, &s.Second}[i] = name
	}
	return s, nil
}

func visitFaults(t testing.TB, f *faultsAt) *visitor {
	return visit(t, "curlew", func(c *Config) { c.drilling = drilling{f.run, f.play} })
}

func TestDrillPage(t *testing.T) {
	f := &faultsAt{}
	v := visitFaults(t, f)
	_, body := v.get("/drill")
	contains(t, "drill", body, "2 single faults reach harm in the 7 scenes tried", "matrix-1040-title", "matrix-390-title", "Mains charger: back on the lead-acid profile: mains overnight",
		"strip-1040-title", "a second contactor in series", "See the relay open", `aria-current="page">Drill`, "One fault &lt;by itself&gt;", "Expect:", "Never make a fault for real")
	_, body = v.get("/drill?" + url.Values{"fault": {drillsample.Stuck}, "second": {drillsample.Welded}, "scene": {drillsample.Sun}}.Encode())
	contains(t, "one run", body, "Roof solar: stuck at full output, with main contactor: contact welded: full sun, nobody home", "After 21 min: guard relay opened main contactor",
		`<option value="main contactor: contact welded" selected>`, `<option selected>full sun, nobody home`)
	if f.runs.Load() != 1 {
		t.Errorf("%d drills, want 1", f.runs.Load())
	}
	_, body = v.get("/")
	contains(t, "overview", body, "One fault &lt;by itself&gt; charges in frost")
	v.write(v.onDisk() + "\n# a comment\n")
	v.get("/drill")
	if f.runs.Load() != 2 {
		t.Errorf("%d drills: another content is drilled anew", f.runs.Load())
	}
}

func TestDrillRefusesOddRuns(t *testing.T) {
	v := visitFaults(t, &faultsAt{})
	for query, want := range map[string]string{
		"fault=no+such&scene=frozen+dawn": "there is no fault &lt;no such&gt;", "fault=x": "Choose a scene too", "scene=%22%3E%3Cscript%3E": "Nothing wrong",
	} {
		status, body := v.get("/drill?" + query)
		if status != http.StatusOK || strings.Contains(body, "<script>") {
			t.Errorf("%s: status %d", query, status)
		}
		contains(t, query, body, want)
	}
}

func TestDrillShowsProgressAndStops(t *testing.T) {
	f := &faultsAt{hold: make(chan struct{})}
	v := visitFaults(t, f)
	_, body := v.get("/drill")
	contains(t, "running", body, "70 of 168 runs played.", "/static/progress.js", `<noscript><meta http-equiv="refresh" content="2"></noscript>`, `value="stop"`)
	_, body = v.get("/drill/progress")
	contains(t, "progress", body, `"done":70,"total":168`, `"over":false`)
	_, body = v.get("/book")
	contains(t, "book", body, "The drill is being played", "70 of 168")
	if res := v.post("/drill", url.Values{"do": {"stop"}}); res.StatusCode != http.StatusSeeOther {
		t.Fatal(res.Status)
	}
	_, body = v.get("/drill")
	contains(t, "stopped", body, "The drill was stopped", `value="run"`)
	close(f.hold)
	v.post("/drill", url.Values{"do": {"run"}})
	_, body = v.get("/drill")
	contains(t, "again", body, "reach harm")
	_, body = v.get("/book")
	contains(t, "book", body, "It has the drill, with a strip of every fault")
	_, body = v.get("/book/read")
	contains(t, "book", body, "When something fails", "initials:")
}

func TestDrillSaysWhatIsLacking(t *testing.T) {
	f := &faultsAt{fail: &fit.InputError{Path: "bank.box", Message: "the box has no size", Expected: "three lengths"}}
	_, body := visitFaults(t, f).get("/drill")
	contains(t, "lacking", body, "the box has no size", "Expected: three lengths", "bank.box")
	f = &faultsAt{fail: errors.New("the tide came in")}
	_, body = visitFaults(t, f).get("/drill")
	contains(t, "trouble", body, "could not be played: the tide came in")
}

func TestCloseEndsADrill(t *testing.T) {
	f := &faultsAt{hold: make(chan struct{})}
	v := visitFaults(t, f)
	v.get("/drill")
	v.close()
	_, body := v.get("/drill")
	contains(t, "closed", body, "The drill was stopped")
}

// BenchmarkDrillPage is the page of a drill that was played before, without the
// run it shows. Target: under 150 ms.
func BenchmarkDrillPage(b *testing.B) {
	v := visitFaults(b, &faultsAt{})
	v.get("/drill")
	v.measure(b, "/drill")
}
