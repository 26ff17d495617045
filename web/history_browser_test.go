package web

import (
	"context"
	"net/url"
	"testing"

	"github.com/chromedp/chromedp"
)

// On a phone: a value is edited, the edit undone and done again, in the page and
// from the list of versions, and the page fits.
func TestUndoOnAPhone(t *testing.T) {
	v := visit(t, "curlew-draft")
	first := v.onDisk()
	at := v.serve()
	ctx := browse(t)
	id := elementID(equalise)
	input := `document.getElementById("` + id + `")`
	run(t, ctx, chromedp.Navigate(at+"/rig?at="+url.QueryEscape(equalise)+"#"+id))
	run(t, ctx, chromedp.Poll[bool](`document.documentElement.classList.contains("live") && document.activeElement === `+input))

	fill(t, ctx, input, "off")
	run(t, ctx, chromedp.Poll[bool](`document.querySelector(".steps [value=undo]") !== null`))
	contains(t, "file", v.onDisk(), "equalise: off")
	edited := v.onDisk()
	if high := run(t, ctx, chromedp.Evaluate[float64](`document.querySelector(".steps [value=undo]").getBoundingClientRect().height`)); high < 43.5 {
		t.Errorf("the button is %.0f px high", high)
	}

	press(t, ctx, "undo")
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("say").textContent.startsWith("Undone.") && `+input+`.value === "62.0 V" && document.querySelector(".steps [value=redo]") !== null`))
	if v.onDisk() != first {
		t.Error("the undone file is not what it was")
	}
	press(t, ctx, "redo")
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("say").textContent.startsWith("Done again.") && `+input+`.value === "off"`))
	if v.onDisk() != edited {
		t.Error("what was done again is not what was edited")
	}

	// The page knows the file as it is now: the next edit is no conflict.
	fill(t, ctx, input, "61 V")
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("say").textContent.startsWith("Saved.")`))
	contains(t, "file", v.onDisk(), "equalise: 61 V")

	run(t, ctx, chromedp.Navigate(at+"/rig/history"))
	fitsNarrow(t, ctx, "/rig/history")
	run(t, ctx, chromedp.Evaluate[bool](`document.querySelector("button[aria-label='Put version 1 back']").click() === undefined`))
	landsOn(t, ctx, `document.querySelector(".done")?.textContent === "Version 1 is put back."`)
	if v.onDisk() != first {
		t.Error("version 1 is not what the file was")
	}
	run(t, ctx, chromedp.Evaluate[bool](`document.querySelector("#version-2 a[href*='compare']").click() === undefined`))
	landsOn(t, ctx, `document.querySelector("h1")?.textContent === "What changed, and what it did"`)
	fitsNarrow(t, ctx, "/rig/compare")
}

func press(t *testing.T, ctx context.Context, step string) {
	t.Helper()
	run(t, ctx, chromedp.Evaluate[bool](`document.querySelector(".steps [value=`+step+`]").click() === undefined`))
}

func fitsNarrow(t *testing.T, ctx context.Context, page string) {
	t.Helper()
	run(t, ctx, chromedp.Evaluate[bool](`document.querySelectorAll("details").forEach(d => d.open = true) === undefined`))
	if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
		t.Errorf("%s is %d px wide", page, wide)
	}
}

// landsOn waits for what another page shows; the one that is asked goes away
// while it is asked.
func landsOn(t *testing.T, ctx context.Context, there string) {
	t.Helper()
	for ctx.Err() == nil {
		if ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool](there)); err == nil && ok {
			return
		}
	}
	t.Fatalf("never: %s", there)
}
