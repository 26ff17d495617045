package web

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// The page opened during a drill must come to show its answer by itself, stay
// within a phone's width, and lead from a mark to its run.
func TestDrillInABrowser(t *testing.T) {
	f := &faultsAt{hold: make(chan struct{})}
	v := visitFaults(t, f)
	at := v.serve()
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/drill"))
	run(t, ctx, chromedp.Poll[bool](`document.querySelector("#progress span").textContent.startsWith("70 of 168")`))
	close(f.hold)
	for ctx.Err() == nil { // the page that is asked goes away while it is asked
		if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.getElementById("matrix") !== null`)); err == nil {
			break
		}
	}
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("the page is %d px wide", wide)
	}
	run(t, ctx, chromedp.Navigate(at+run(t, ctx, chromedp.Evaluate[string](`document.querySelector("#matrix .for-phone a[href*='fault=']").getAttribute("href")`))))
	if got := run(t, ctx, chromedp.Evaluate[string](`document.querySelector("#run h3").textContent`)); got != "Roof solar: stuck at full output: full sun, nobody home" {
		t.Errorf("the run shown is %q", got)
	}
	if got := run(t, ctx, chromedp.Evaluate[string](`document.getElementById("fault").value`)); got != "roof solar: stuck at full output" {
		t.Errorf("the form shows %q", got)
	}
	if f.runs.Load() != 1 {
		t.Errorf("%d drills, want one", f.runs.Load())
	}
}
