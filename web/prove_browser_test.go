package web

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
)

// A kept log and its plan stay within a phone's width with all details open, and
// a log that is dropped on the page is read.
func TestProveOnAPhone(t *testing.T) {
	v := visitBench(t, nil)
	dir := filepath.Join(filepath.Dir(v.file), "bench")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "a-log-with-a-rather-long-name-from-the-workshop.csv"), []byte(benchLog()), 0o644); err != nil {
		t.Fatal(err)
	}
	at := v.serve()
	ctx := browse(t)
	for _, path := range []string{"/prove", "/prove/plan?load=inverter+250+W", "/prove?test=none"} {
		run(t, ctx, chromedp.Navigate(at+path))
		run(t, ctx, chromedp.Poll[bool](`document.getElementById("progress") === null`))
		run(t, ctx, chromedp.Evaluate[int](`document.querySelectorAll("details").forEach(d => d.open = true), 0`))
		if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
			who := run(t, ctx, chromedp.Evaluate[string](`[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > 391).slice(0, 5).map(e => e.tagName + "." + e.className).join(" ")`))
			t.Errorf("%s is %d px wide: %s", path, wide, who)
		}
	}
	run(t, ctx, chromedp.Navigate(at+"/prove"))
	run(t, ctx, chromedp.Evaluate[bool](`(() => { const d = new DataTransfer(); d.items.add(new File([`+"`"+benchLog()+"`"+`], "dropped.csv"));
		return document.dispatchEvent(new DragEvent("drop", { dataTransfer: d, bubbles: true, cancelable: true })); })()`))
	for ctx.Err() == nil { // the page that is asked goes away while it is asked
		if ok, err := chromedp.Run(ctx, chromedp.Poll[bool](`location.search.startsWith("?test=") && document.querySelector(".layout-line") !== null && document.querySelector(".layout-line").textContent.startsWith("dropped.csv")`)); err == nil && ok {
			return
		}
	}
	t.Error("the dropped log was not read")
}
