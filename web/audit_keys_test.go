package web

import (
	"fmt"

	"github.com/chromedp/chromedp"
)

// mostStops is how many times the tab key is pressed on one page; a long page repeats
// itself below.
const mostStops = 45

// allKeys: the tab key alone reaches what can be pressed, in the order of the page (2.1.1,
// 2.4.3), shows where it is (2.4.7), and is never hidden below something that sticks
// (2.4.11). The first press offers to skip the head (2.4.1).
func (a *auditor) allKeys() {
	for _, c := range []struct {
		path  string
		width int64
	}{
		{"/", 390}, {"/rig", 390}, {"/rig", 1440}, {"/fit", 390}, {"/choose", 1440}, {"/drill", 820}, {"/travel", 390}, {"/keep", 390}, {"/prove", 1440}, {"/figures/rest-voltage", 390}, {"/rigs", 390},
	} {
		a.open(c.path, c.width)
		a.keys(c.path, c.width)
	}
}

func (a *auditor) keys(path string, width int64) {
	a.t.Helper()
	const mark = `(() => { const s = audit.stops(); globalThis.met = new Set(); return s.length; })()`
	stops := run(a.t, a.ctx, chromedp.Evaluate[int](mark))
	run(a.t, a.ctx, chromedp.KeyEvent("\t"))
	if !run(a.t, a.ctx, chromedp.Evaluate[bool](`document.activeElement.matches(".skip") && document.activeElement.getBoundingClientRect().left >= 0`)) {
		a.t.Errorf("%s: the first press of the tab key offers no way past the head", path)
	}
	run(a.t, a.ctx, chromedp.KeyEvent("\r"))
	if !run(a.t, a.ctx, chromedp.Evaluate[bool](`document.activeElement.tagName === "MAIN" || location.hash === "#main"`)) {
		a.t.Errorf("%s: the way past the head does not lead to the page", path)
	}
	run(a.t, a.ctx, chromedp.Evaluate[bool](`(document.activeElement.blur(), getSelection().removeAllRanges(), location.hash = "", scrollTo(0, 0), document.querySelector(".skip").focus(), true)`))
	told := 0
	for n := 1; n < min(stops, mostStops); n++ {
		run(a.t, a.ctx, chromedp.KeyEvent("\t"))
		faults := run(a.t, a.ctx, chromedp.Evaluate[[]string](`(met.add(document.activeElement), audit.focus())`))
		for _, fault := range faults {
			if told++; told <= 4 {
				a.t.Errorf("%s at %d px, after %d tabs: %s", path, width, n, fault)
			}
		}
	}
	missed := run(a.t, a.ctx, chromedp.Evaluate[[]string](fmt.Sprintf(`audit.stops().slice(1, %d).filter((e) => !met.has(e)).map((e) => e.outerHTML.slice(0, 120))`, min(stops, mostStops)-3)))
	for i, e := range missed {
		if i < 4 {
			a.t.Errorf("%s at %d px: the tab key does not reach %s", path, width, e)
		}
	}
}
