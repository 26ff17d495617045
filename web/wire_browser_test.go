package web

import (
	"testing"

	"github.com/chromedp/chromedp"

	"ampstead/examples"
)

// The page stays within a phone's width, with every working open.
func TestWireOnAPhone(t *testing.T) {
	for _, name := range examples.Names() {
		at := visit(t, name).serve()
		ctx := browse(t)
		run(t, ctx, chromedp.Navigate(at+"/wire"))
		if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
			t.Errorf("%s: the page is %d px wide", name, wide)
		}
		run(t, ctx, chromedp.Evaluate[int](`document.querySelectorAll("details").forEach(d => d.open = true), 0`))
		if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
			t.Errorf("%s: with every working open the page is %d px wide", name, wide)
		}
	}
}
