package web

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"ampstead/internal/choosesample"
)

// The page opened during a search must come to show its front by itself, stay
// within a phone's width, and lead from a point to its design.
func TestChooseInABrowser(t *testing.T) {
	m := &marketAt{holdSearch: make(chan struct{})}
	v := visitMarket(t, m)
	v.get("/choose")
	search(v)
	at := v.serve()
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/choose"))
	run(t, ctx, chromedp.Poll[bool](`document.querySelector("#progress span").textContent.startsWith("3 of 8")`))
	close(m.holdSearch)
	for ctx.Err() == nil { // the page that is asked goes away while it is asked
		if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.querySelector("#search svg") !== null`)); err == nil {
			break
		}
	}
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("the page is %d px wide", wide)
	}
	run(t, ctx, chromedp.Navigate(at+run(t, ctx, chromedp.Evaluate[string](`document.querySelectorAll("#search .for-phone a")[3].getAttribute("href")`))))
	if got := run(t, ctx, chromedp.Evaluate[string](`document.querySelector("#design h3").textContent`)); got != "4. "+choosesample.Longest {
		t.Errorf("the design shown is %q", got)
	}
	run(t, ctx, chromedp.Evaluate[bool](`document.querySelector("#design details").open = true`))
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("the page with a design is %d px wide", wide)
	}
	run(t, ctx, chromedp.Evaluate[bool](`(document.querySelector("#design form button").click(), true)`))
	for ctx.Err() == nil {
		if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.querySelector(".done") !== null`)); err == nil {
			break
		}
	}
	if !strings.Contains(v.onDisk(), "made of new iron pack") {
		t.Errorf("not written; the page is %s", run(t, ctx, chromedp.Evaluate[string]("location.href")))
	}
}
