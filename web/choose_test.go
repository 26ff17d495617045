package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"

	"ampstead/choose"
	"ampstead/fit"
	"ampstead/internal/choosesample"
	"ampstead/rig"
)

// marketAt stands in for choose: it counts runs and can hold them back.
type marketAt struct {
	runs, searches atomic.Int32
	hold           gate
	holdSearch     gate
	fail           error
	asked          atomic.Pointer[choose.Options] // by the last search
}

func (m *marketAt) run(ctx context.Context, _ *rig.Rig, o choose.Options) (*choose.Result, error) {
	hold, res := m.hold, choosesample.Unsearched()
	if o.Search {
		m.searches.Add(1)
		m.asked.Store(&o)
		hold, res = m.holdSearch, choosesample.Result()
		if o.Save != nil {
			_ = o.Save([]byte("so far"))
		}
	} else {
		m.runs.Add(1)
	}
	if o.Progress != nil {
		o.Progress(3, 8)
	}
	if err := hold.pass(ctx); err != nil {
		return nil, err
	}
	return res, m.fail
}

// apply makes something of a design that can be told in the file.
func (m *marketAt) apply(file *rig.File, d *choose.Design) (*rig.File, error) {
	if d.Candidate == choosesample.Pouch {
		return nil, errors.New("it does not <fit>")
	}
	return file.SetAll(rig.Change{Path: "about.note", Value: "made of " + d.Candidate}, rig.Change{Path: "bank.mass", Value: "61 kg"})
}

func visitMarket(t testing.TB, m *marketAt) *visitor {
	return visit(t, "curlew", func(c *Config) { c.choosing = choosing{m.run, m.apply} })
}

func TestChoosePage(t *testing.T) {
	m := &marketAt{}
	v := visitMarket(t, m)
	_, body := v.get("/choose")
	contains(t, "choose", body, `aria-current="page">Choose`, "One large module: longest life", "compare-1040-title", "lives-390-title", "windows-1040-title", "two pouch modules &lt;from the coast&gt;",
		"must go", "seller:", "walk away at", "Local codes come first", "rigs to try", "Use this window in fit", `value="lower top" selected`)
	if strings.Contains(body, "front-1040") || strings.Contains(body, `id="design"`) {
		t.Error("a front without a search")
	}
	if m.runs.Load() != 1 || m.searches.Load() != 0 {
		t.Errorf("%d runs, %d searches", m.runs.Load(), m.searches.Load())
	}
	v.write(v.onDisk() + "\n# a comment\n")
	v.get("/choose")
	if m.runs.Load() != 2 {
		t.Errorf("%d runs: another content is compared anew", m.runs.Load())
	}
}

func search(v *visitor, change ...string) *http.Response {
	form := url.Values{"do": {"search"}, "designs": {"200"}, "budget": {"2500 EUR"}, "mass": {"60 kg"}}
	for i := 0; i+1 < len(change); i += 2 {
		form.Set(change[i], change[i+1])
	}
	return v.post("/choose/search", form)
}

func TestSearchFromThePage(t *testing.T) {
	m := &marketAt{holdSearch: make(chan struct{})}
	v := visitMarket(t, m)
	v.get("/choose")
	if res := search(v); res.StatusCode != http.StatusSeeOther || res.Header.Get("Location") != "/choose#search" {
		t.Fatal(res.Status, res.Header)
	}
	_, body := v.get("/choose")
	contains(t, "searching", body, "3 of 8 batteries and rigs tried.", "/static/progress.js", `action="/choose/search"`, `value="stop"`, "One large module: longest life")
	_, body = v.get("/choose/progress")
	contains(t, "progress", body, `"done":3,"total":8`, `"over":false`)
	if o := m.asked.Load(); o.Budget != 2500 || o.Mass != 60 || o.Designs != 200 || o.Resume != nil {
		t.Errorf("searched with %+v", o)
	}
	search(v, "do", "stop")
	_, body = v.get("/choose")
	contains(t, "stopped", body, "The search was stopped", "Go on, or search anew", `value="2500 EUR"`)
	close(m.holdSearch)
	search(v)
	_, body = v.get("/choose")
	if o := m.asked.Load(); string(o.Resume) != "so far" {
		t.Errorf("the search did not go on: %q", o.Resume)
	}
	contains(t, "front", body, "front-1040-title", "Searched: 1000 whole rigs", `href="/choose?across=price&amp;design=1`, "4. ")
	search(v, "mass", "70 kg")
	v.get("/choose")
	if o := m.asked.Load(); o.Resume != nil {
		t.Error("another search went on with the state of the first")
	}
	_, body = v.get("/book")
	contains(t, "book", body, "It has the batteries")
	_, body = v.get("/book/read")
	contains(t, "book", body, "Which battery", "front-860-title", "seller:")
}

func TestSearchRefusesOddWishes(t *testing.T) {
	m := &marketAt{}
	v := visitMarket(t, m)
	for _, c := range []struct{ key, value, want string }{
		{"designs", "0", "Rigs to try: expected a number from 1 to 5000"}, {"designs", "<b>", "Rigs to try"}, {"budget", "9 USD", "Price at most: the prices in the file are in EUR"},
		{"mass", "60 V", "Mass at most"}, {"short", "-3", "more than nothing"}, {"life", "<script>", "Years at least"},
	} {
		status, body := v.read(search(v, c.key, c.value))
		if status != http.StatusUnprocessableEntity || strings.Contains(body, "<script>") {
			t.Errorf("%s=%s: status %d", c.key, c.value, status)
		}
		contains(t, c.key, body, c.want, `value="60`)
	}
	if m.searches.Load() != 0 {
		t.Error("an odd wish was searched for")
	}
}

func pick(name string, more ...string) string {
	query := url.Values{"design": {name}}
	for i := 0; i+1 < len(more); i += 2 {
		query.Set(more[i], more[i+1])
	}
	return "/choose?" + query.Encode()
}

func TestPickADesign(t *testing.T) {
	v := visitMarket(t, &marketAt{})
	v.get("/choose")
	search(v)
	_, body := v.get(pick(choosesample.Longest, "across", "mass", "up", "years"))
	contains(t, "picked", body, `id="design"`, "What it would change in rig.yaml: 2 values", "about.note", "made of new iron pack", "61 kg", "Make it the rig file", "Download it as a new rig file",
		`<option value="mass" selected>`, `<option value="years" selected>`)
	_, body = v.get(pick("1 × " + choosesample.Pouch + ", 660 W flat, no heater, 40 mm insulation"))
	contains(t, "refused", body, "It cannot be made a rig file: it does not &lt;fit&gt;.")
	_, body = v.get(pick("no such"))
	if strings.Contains(body, `id="design"`) {
		t.Error("a design that is not there")
	}
	res := v.do(httptestGet("/choose/rig.yaml?design=" + url.QueryEscape(choosesample.Longest)))
	status, text := v.read(res)
	if status != http.StatusOK || !strings.Contains(res.Header.Get("Content-Disposition"), `filename="curlew-design.yaml"`) || !strings.Contains(text, "made of new iron pack") {
		t.Errorf("download: %d %v", status, res.Header)
	}
	if status, _ := v.get("/choose/rig.yaml?design=nothing"); status != http.StatusNotFound {
		t.Errorf("an unknown design: %d", status)
	}
}

func TestMakeADesignTheRig(t *testing.T) {
	v := visitMarket(t, &marketAt{})
	v.get("/choose")
	search(v)
	v.get("/choose")
	before := v.onDisk()
	form := url.Values{"design": {choosesample.Longest}, "seen": {stampOf([]byte(before))}}
	stale := url.Values{"design": form["design"], "seen": {"other"}}
	if status, body := v.read(v.post("/choose/make", stale)); status != http.StatusConflict || !strings.Contains(body, "changed meanwhile") || v.onDisk() != before {
		t.Errorf("a stale page wrote: %d", status)
	}
	if status, _ := v.read(v.post("/choose/make", url.Values{"design": {"nothing"}, "seen": form["seen"]})); status != http.StatusConflict || v.onDisk() != before {
		t.Errorf("an unknown design wrote: %d", status)
	}
	res := v.post("/choose/make", form)
	if res.StatusCode != http.StatusSeeOther || !strings.Contains(v.onDisk(), "made of new iron pack") || !strings.Contains(v.onDisk(), "# Other batteries") {
		t.Fatalf("%s: %.200s", res.Status, v.onDisk())
	}
	_, body := v.get(res.Header.Get("Location"))
	contains(t, "made", body, "The design is now the rig file", "Take it back")
	res = v.post("/choose/back", nil)
	if res.StatusCode != http.StatusSeeOther || v.onDisk() != before {
		t.Errorf("not taken back: %s", res.Status)
	}
	v.write(before + "# someone else\n")
	if res := v.post("/choose/back", nil); res.StatusCode != http.StatusConflict || v.onDisk() != before+"# someone else\n" {
		t.Errorf("someone else's change was overwritten: %s", res.Status)
	}
	if status, _ := v.read(v.post("/choose/make", url.Values{"design": {choosesample.Longest}, "seen": {stampOf([]byte(v.onDisk()))}})); status != http.StatusConflict {
		t.Errorf("a design of another content was made: %d", status)
	}
}

func TestUseAWindow(t *testing.T) {
	v := visitMarket(t, &marketAt{})
	v.get("/choose")
	seen := stampOf([]byte(v.onDisk()))
	if status, _ := v.read(v.post("/choose/window", url.Values{"window": {"no such"}, "seen": {seen}})); status != http.StatusUnprocessableEntity {
		t.Errorf("an unknown window: %d", status)
	}
	res := v.post("/choose/window", url.Values{"window": {"lower top"}, "seen": {seen}})
	if res.StatusCode != http.StatusSeeOther {
		t.Fatal(res.Status)
	}
	contains(t, "file", v.onDisk(), "high: 3.950 V", "low: 3.400 V")
	_, body := v.get(res.Header.Get("Location"))
	contains(t, "window", body, "The window is written into the rig file")
}

func TestChooseShowsProgressAndStops(t *testing.T) {
	m := &marketAt{hold: make(chan struct{})}
	v := visitMarket(t, m)
	_, body := v.get("/choose")
	contains(t, "running", body, "3 of 8 batteries compared.", "/static/progress.js", `<noscript><meta http-equiv="refresh" content="2"></noscript>`, `value="stop"`)
	_, body = v.get("/book")
	contains(t, "book", body, "The batteries are being compared")
	v.post("/choose", url.Values{"do": {"stop"}})
	_, body = v.get("/choose")
	contains(t, "stopped", body, "The comparison was stopped", `value="run"`)
	close(m.hold)
	v.post("/choose", url.Values{"do": {"run"}})
	_, body = v.get("/choose")
	contains(t, "again", body, "One large module")
}

func TestChooseSaysWhatIsLacking(t *testing.T) {
	_, body := visitMarket(t, &marketAt{fail: &fit.InputError{Path: "route", Message: "there is no route", Expected: "stays"}}).get("/choose")
	contains(t, "lacking", body, "there is no route", "Expected: stays")
	_, body = visitMarket(t, &marketAt{fail: errors.New("the tide came in")}).get("/choose")
	contains(t, "trouble", body, "could not be compared: the tide came in")
}

func TestCloseEndsASearch(t *testing.T) {
	v := visitMarket(t, &marketAt{holdSearch: make(chan struct{})})
	v.get("/choose")
	search(v)
	v.close()
	_, body := v.get("/choose")
	contains(t, "closed", body, "was stopped")
}

func BenchmarkChoosePage(b *testing.B) {
	v := visitMarket(b, &marketAt{})
	v.get("/choose")
	v.measure(b, "/choose")
}
