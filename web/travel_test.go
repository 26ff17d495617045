package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"ampstead/fit"
	"ampstead/rig"
	"ampstead/travel"
)

// roads stands in for the reckoning: it counts runs, can hold them back, and
// notes when two run at once.
type roads struct {
	runs, now, most atomic.Int32
	hold            gate
	fail            error
}

func (f *roads) reckon(ctx context.Context, _ *rig.Rig, o travel.Options) (*travel.Result, error) {
	f.runs.Add(1)
	f.most.Store(max(f.most.Load(), f.now.Add(1)))
	defer f.now.Add(-1)
	if o.Progress != nil {
		o.Progress(3, 10)
	}
	if err := f.hold.pass(ctx); err != nil {
		return nil, err
	}
	if f.fail != nil {
		return nil, f.fail
	}
	return invented(o), nil
}

func invented(o travel.Options) *travel.Result {
	res := &travel.Result{Bands: travel.Bands{Years: 10, UnservedHours: travel.Range{Low: 12, High: 88}},
		Weather: travel.Weather{Source: "synthetic hours", Years: 10, StepS: 60}}
	for d := range 365 {
		res.Days = append(res.Days, travel.Day{Date: time.Date(2027, 1, 1+d, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), Place: "Salt marsh", SoCHigh: 1})
	}
	for m := range 12 {
		res.Months = append(res.Months, travel.Month{Month: m + 1, Energies: travel.Energies{Load: 1000, UnservedH: float64(12 - m)}})
	}
	if o.Span != nil {
		res.Span = &travel.Span{From: o.Span.From, StepS: 3600, SoC: make([]float64, 24*o.Span.Days)}
	}
	return res
}

func visitRoads(t testing.TB, f *roads) *visitor {
	return visit(t, "curlew", func(c *Config) { c.reckon = f.reckon })
}

func TestTravelPage(t *testing.T) {
	f := &roads{}
	v := visitRoads(t, f)
	_, body := v.get("/travel")
	contains(t, "travel", body, "runs short on 12 to 88 hours a year, mostly in January", "1 to 7 January", `href="/travel?from=02-01&amp;days=28#week"`, "Synthetic hours.")
	if f.runs.Load() != 2 { // the years, and the hardest week
		t.Errorf("%d runs, want 2", f.runs.Load())
	}
	_, body = v.get("/travel?from=02-10&days=3")
	contains(t, "span", body, "10 to 12 February", `value="02-10"`)
	v.get("/travel?from=02-10&days=3")
	if f.runs.Load() != 3 {
		t.Errorf("%d runs: the same days were reckoned again", f.runs.Load())
	}
	v.write(v.onDisk() + "\n# a comment\n")
	v.get("/travel")
	if f.runs.Load() != 5 {
		t.Errorf("%d runs: another content is reckoned anew", f.runs.Load())
	}
}

func TestTravelRefusesOddDays(t *testing.T) {
	v := visitRoads(t, &roads{})
	for _, query := range []string{"from=soon", "from=13-01", "from=01-15&days=0", "from=01-15&days=400", "from=01-15&days=x", "from=%22%3E%3Cscript%3E"} {
		status, body := v.get("/travel?" + query)
		if status != http.StatusOK || !strings.Contains(body, `aria-invalid="true"`) || strings.Contains(body, "<script>") {
			t.Errorf("%s: status %d", query, status)
		}
	}
}

func TestTravelShowsProgressAndStops(t *testing.T) {
	f := &roads{hold: make(chan struct{})}
	v := visitRoads(t, f)
	_, body := v.get("/travel")
	contains(t, "running", body, "3 of 10 years reckoned", "/static/progress.js", `<noscript><meta http-equiv="refresh" content="2"></noscript>`, `value="stop"`)
	_, body = v.get("/travel/progress")
	contains(t, "progress", body, `"done":3,"total":10`, `"over":false`)
	_, body = v.get("/book")
	contains(t, "book", body, "is being reckoned")
	if res := v.post("/travel", url.Values{"do": {"stop"}}); res.StatusCode != http.StatusSeeOther {
		t.Fatal(res.Status)
	}
	_, body = v.get("/travel")
	contains(t, "stopped", body, "The run was stopped", `value="run"`)
	close(f.hold)
	v.post("/travel", url.Values{"do": {"run"}})
	_, body = v.get("/travel")
	contains(t, "again", body, "runs short")
	_, body = v.get("/book")
	contains(t, "book", body, "It has the year on the road.")
	_, body = v.get("/book/read")
	contains(t, "book", body, "The year on the road")
}

func TestTravelSaysWhatIsLacking(t *testing.T) {
	f := &roads{fail: &fit.InputError{Path: "route", Message: "there is no route", Expected: "at least one stay", Example: "- {name: Moor}"}}
	v := visitRoads(t, f)
	_, body := v.get("/travel")
	contains(t, "lacking", body, "there is no route", "Expected: at least one stay", "latitude: 37.2 °N", `href="/rig/text"`, "- {name: Moor}")
	f = &roads{fail: errors.New("the tide came in")}
	_, body = visitRoads(t, f).get("/travel")
	contains(t, "trouble", body, "could not be reckoned: the tide came in")
}

// The stage itself must say what is missing, in the kind of error the page shows.
func TestTravelOfARigWithoutARoute(t *testing.T) {
	v := visitText(t, "about: {name: Wren}\nbank: {cell: nmc532, series: 12, cell_capacity: 94 Ah}\n")
	_, body := v.get("/travel")
	contains(t, "travel", body, "cannot be reckoned yet", "route:")
}

// A run for a content that is gone is stopped, and never do two run at once,
// whatever many visitors ask for.
func TestOneRunAtATime(t *testing.T) {
	f := &roads{}
	v := visitRoads(t, f)
	text := v.onDisk()
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			for _, path := range []string{"/travel", "/travel?from=03-0" + itoa(i%9+1), "/travel/progress", "/book"} {
				v.get(path)
			}
			if i == 4 {
				v.write(text + "# another\n")
			}
		})
	}
	all.Wait()
	if f.most.Load() > 1 {
		t.Errorf("%d runs at once", f.most.Load())
	}
	held := &roads{hold: make(chan struct{})}
	v = visitRoads(t, held)
	v.get("/travel")
	v.write(text + "# yet another\n")
	v.get("/travel")
	close(held.hold)
	_, body := v.get("/travel")
	contains(t, "after the change", body, "runs short")
}

func TestCloseEndsRuns(t *testing.T) {
	f := &roads{hold: make(chan struct{})}
	v := visitRoads(t, f)
	v.get("/travel")
	v.close()
	if f.now.Load() != 0 {
		t.Error("a run goes on")
	}
	_, body := v.get("/travel?from=01-15")
	contains(t, "closed", body, "The run was stopped")
	v.write(v.onDisk() + "# after\n")
	if status, _ := v.get("/travel"); status != http.StatusOK {
		t.Errorf("status %d", status)
	}
}

func TestOldSpansAreDropped(t *testing.T) {
	f := &roads{}
	s := newTrips(f.reckon, newQueue())
	now := &reading{stamp: "a", file: &rig.File{Rig: &rig.Rig{}}}
	for d := range keptSpans + 5 {
		<-s.span(now, travel.SpanWish{From: "01-01", Days: d + 1}).done
	}
	if jobs, order := len(s.spans.jobs), len(s.spans.keys); jobs != keptSpans || order != keptSpans {
		t.Errorf("%d spans and %d in order, want %d", jobs, order, keptSpans)
	}
}
