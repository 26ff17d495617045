package web

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// On a phone: the list of today, a finding that opens, and its link that leads to
// the field; the picture takes the place that was kept for it.
func TestHomeInABrowser(t *testing.T) {
	f := &roads{hold: make(chan struct{})}
	v := stirred(t, "curlew-draft", f, &faultsAt{})
	at := v.serve()
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/"))
	acts := run(t, ctx, chromedp.Evaluate[int](`document.querySelectorAll(".home-today li").length`))
	if acts < 3 || acts > 5 {
		t.Errorf("%d acts for today", acts)
	}
	run(t, ctx, chromedp.Poll[bool](`document.querySelector("#progress span").textContent.includes("being reckoned")`))
	const places = `JSON.stringify([...document.querySelectorAll(".home > section, .glance svg")].map(e => Math.round(e.getBoundingClientRect().top + scrollY)).slice(0, 4))`
	before := run(t, ctx, chromedp.Evaluate[string](places))
	close(f.hold)
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("reckoned") !== null`))
	if after := run(t, ctx, chromedp.Evaluate[string](places)); after != before {
		t.Errorf("the parts of the page stood at %s and stand at %s", before, after)
	}
	if !run(t, ctx, chromedp.Evaluate[bool](`document.querySelector("#home-year .for-phone svg title").textContent === "The year at a glance"`)) {
		t.Error("the year did not come")
	}
	contains(t, "line", run(t, ctx, chromedp.Evaluate[string](`document.getElementById("reckoned").textContent`)), "the list of findings changed", "Read the page anew")

	const first = `document.querySelector(".found.stop")`
	if run(t, ctx, chromedp.Evaluate[bool](first+`.querySelector("details").open`)) {
		t.Error("a finding is open before it is asked for")
	}
	run(t, ctx, chromedp.Evaluate[bool](first+`.querySelector("summary").click() === undefined`))
	if text := run(t, ctx, chromedp.Evaluate[string](first+`.querySelector(".more").innerText`)); text == "" {
		t.Error("an open finding says nothing")
	}
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("the page is %d px wide", wide)
	}
	run(t, ctx, chromedp.Evaluate[bool](first+`.querySelector("a.mend").click() === undefined`))
	for ctx.Err() == nil { // the page that is asked goes away while it is asked
		if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`location.pathname === "/rig" && document.querySelector("main :target")?.getBoundingClientRect().height > 0`)); err == nil {
			return
		}
	}
	t.Error("the finding does not lead to its field")
}

// The rigs of a workshop stand below each other on a phone.
func TestRigsInABrowser(t *testing.T) {
	v, _ := visitWorkshop(t, "curlew", "curlew", "dipper")
	v.rigsRead()
	at := v.serve()
	ctx := browse(t)
	run(t, ctx, chromedp.Navigate(at+"/rigs"))
	const sides = `[...document.querySelectorAll(".rig")].map(e => Math.round(e.getBoundingClientRect().left)).join(" ")`
	if left := run(t, ctx, chromedp.Evaluate[string](sides)); left != "16 16" {
		t.Errorf("on a phone the rigs begin at %s", left)
	}
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("the page is %d px wide", wide)
	}
	run(t, ctx, chromedp.EmulateViewport(1440, 900))
	const level = `(() => { const tops = [...document.querySelectorAll(".rig")].map(r => [...r.querySelectorAll("dl > div")].map(d => Math.round(d.getBoundingClientRect().top)).join()); return tops.length === 2 && tops[0] === tops[1]; })()`
	if !run(t, ctx, chromedp.Evaluate[bool](level)) {
		t.Error("side by side the rows of two rigs are not level")
	}
}
