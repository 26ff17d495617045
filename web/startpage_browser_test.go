package web

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"ampstead/rig"
)

// startStep is an answer as a person gives it on a phone: what is typed, which
// buttons are pressed, which boxes are ticked or unticked.
type startStep struct {
	key, typed, press string
	tick              []string
}

var startSteps = []startStep{
	{key: "name", typed: "Night heron"},
	{key: "units", press: "metric"},
	{key: "winter", typed: "Athens"},
	{key: "winter", press: "LGAV"},
	{key: "summer", press: "same"},
	{key: "coldest", typed: "-4 °C"},
	{key: "battery", press: "module-flat"},
	{key: "groups", press: "12"},
	{key: "capacity", press: "?"},
	{key: "modules", press: "2"},
	{key: "charge", tick: []string{"alternator"}},
	{key: "panels", typed: "4 x 330 W"},
	{key: "chargers", press: "?"},
	{key: "inverter", press: "3000 W"},
	{key: "loads", typed: "sewing machine 90 W 2 h", tick: []string{"phones", "kettle"}},
	{key: "guards", press: "?"},
	{key: "fuse", press: "?"},
}

func TestStartInABrowser(t *testing.T) {
	v, folder := visitWorkshop(t, "", "dipper")
	at := v.serve()
	ctx := browse(t)
	t.Run("with scripts", func(t *testing.T) { startsARig(t, ctx, at, folder, "night-heron") })
	t.Run("back by the browser", func(t *testing.T) { backByTheBrowser(t, ctx, at) })
	t.Run("the picture grows", func(t *testing.T) { pictureGrows(t, ctx, at) })
	if _, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	t.Run("without scripts", func(t *testing.T) { startsARig(t, ctx, at, folder, "night-heron-2") })
}

// startsARig answers everything, goes back once, and ends on the new rig's page.
func startsARig(t *testing.T, ctx context.Context, at, folder, slug string) {
	run(t, ctx, chromedp.Navigate(at+"/start"))
	for _, step := range startSteps {
		run(t, ctx, chromedp.WaitReady(chromedp.CSS(step.shown())))
		if wide := run(t, ctx, chromedp.Evaluate[int]("document.documentElement.scrollWidth")); wide > 390 {
			t.Errorf("%s is %d px wide", step.key, wide)
		}
		if low := run(t, ctx, chromedp.Evaluate[float64](`Math.min(...[...document.querySelectorAll(".begin-ask button, .begin-many label")].map(b => b.offsetHeight || 99))`)); low < 44 {
			t.Errorf("%s has a button %v px high", step.key, low)
		}
		if step.key == "summer" { // back to the question before, and the same answer again
			run(t, ctx, chromedp.Click(chromedp.CSS(`.begin-back a`)))
			run(t, ctx, chromedp.WaitReady(chromedp.CSS(startStep{key: "winter"}.shown())))
			run(t, ctx, chromedp.Click(chromedp.CSS(`#begin-type button.main`)))
			run(t, ctx, chromedp.WaitReady(chromedp.CSS(step.shown())))
		}
		step.give(t, ctx)
	}
	run(t, ctx, chromedp.WaitReady(chromedp.CSS(`button[name="write"]`)))
	list := run(t, ctx, chromedp.Evaluate[string](`document.querySelector(".begin-list").textContent`))
	contains(t, "the list of answers", list, "Night heron", "near Athens Eleftherios", "down to -4 °C", "solar and alternator", "1320 W in all", "sewing machine", "I do not know.")
	if strings.Contains(list, "phones") { // offered, and unticked
		t.Error("the box for phones was not unticked")
	}
	run(t, ctx, chromedp.Click(chromedp.CSS(`button[name="write"]`)))
	run(t, ctx, chromedp.WaitReady(chromedp.CSS(`body:not(.on-start) .title h1`)))
	if path := run(t, ctx, chromedp.Evaluate[string](`location.pathname`)); path != "/rigs/"+slug+"/" {
		t.Errorf("it ends at %s", path)
	}
	f, err := rig.Open(filepath.Join(folder, slug))
	if err != nil {
		t.Fatal(err)
	}
	if b := f.Rig.Bank; f.Rig.About.Name != "Night heron" || b.Series != 12 || b.Strings != 2 || len(f.Rig.Charge) != 2 {
		t.Errorf("%+v", b)
	}
}

// shown is there when the step's question is.
func (s startStep) shown() string {
	question := `.begin-ask:has(input[name="ask"][value="` + s.key + `"])`
	if s.press != "" {
		return question + ` button[name="answer"][value="` + s.press + `"]`
	}
	return question
}

// give types, ticks and presses; what was typed or ticked is sent with Next.
func (s startStep) give(t *testing.T, ctx context.Context) {
	t.Helper()
	for _, box := range s.tick {
		run(t, ctx, chromedp.Click(chromedp.CSS(`.begin-many [value="`+box+`"]`)))
	}
	if s.typed != "" {
		run(t, ctx, chromedp.Evaluate[string](`document.getElementById("typed").value = ""`))
		run(t, ctx, chromedp.SendKeys(chromedp.CSS("#typed"), s.typed))
	}
	button := `#begin-type button.main`
	if s.press != "" {
		button = `.begin-ask button[name="answer"][value="` + s.press + `"]`
	}
	run(t, ctx, chromedp.Click(chromedp.CSS(button)))
}

// backByTheBrowser goes back with the browser's own button: the answers are in
// the address, so the question before stands there with its answer.
func backByTheBrowser(t *testing.T, ctx context.Context, at string) {
	run(t, ctx, chromedp.Navigate(at+"/start?name=Heron&units=us"))
	run(t, ctx, chromedp.Click(chromedp.CSS(`button[value="far-north"]`)))
	run(t, ctx, chromedp.WaitReady(chromedp.CSS(startStep{key: "summer"}.shown())))
	run(t, ctx, chromedp.Evaluate[bool](`history.back() === undefined`))
	run(t, ctx, chromedp.WaitReady(chromedp.CSS(startStep{key: "winter"}.shown())))
	if query := run(t, ctx, chromedp.Evaluate[string](`location.search`)); query != "?name=Heron&units=us" {
		t.Errorf("back at %s", query)
	}
}

func pictureGrows(t *testing.T, ctx context.Context, at string) {
	run(t, ctx, chromedp.Navigate(at+"/start?at=groups"))
	fill(t, ctx, `document.getElementById("typed")`, "14")
	run(t, ctx, chromedp.Poll[bool](`document.getElementById("sketch").textContent.includes("14 groups")`))
	fill(t, ctx, `document.getElementById("typed")`, "many")
	run(t, ctx, chromedp.Poll[bool](`!document.getElementById("sketch").textContent.includes("14 groups")`))
}
