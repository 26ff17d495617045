package web

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// The page opened during a run must come to show its answer by itself, and stay
// within a phone's width with all it has.
func TestTravelInABrowser(t *testing.T) {
	f := &roads{hold: make(chan struct{})}
	v := visitRoads(t, f)
	at := v.serve()
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/travel"))
	run(t, ctx, chromedp.Poll[bool](`document.querySelector("#progress span").textContent.startsWith("3 of 10")`))
	close(f.hold)
	for ctx.Err() == nil { // the page that is asked goes away while it is asked
		if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.getElementById("months") !== null`)); err == nil {
			break
		}
	}
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("the page is %d px wide", wide)
	}
	run(t, ctx, chromedp.Navigate(at+"/travel?from=05-01&days=31"))
	if got := run(t, ctx, chromedp.Evaluate[string](`document.querySelector("#week h3").textContent`)); got != "1 to 31 May" {
		t.Errorf("the days shown are %q", got)
	}
	if f.runs.Load() != 3 {
		t.Errorf("%d runs, want the years and two spans", f.runs.Load())
	}
}
