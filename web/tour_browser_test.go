package web

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"ampstead/finding"
	"ampstead/fit"
	"ampstead/rig"
	"ampstead/wire"
)

// tourSteps are the answers of docs/tutorial.md.
var tourSteps = []startStep{
	{key: "name", typed: "Night heron"},
	{key: "units", press: "metric"},
	{key: "winter", typed: "LGAV"},
	{key: "summer", press: "same"},
	{key: "coldest", typed: "-4 °C"},
	{key: "battery", press: "module-flat"},
	{key: "groups", press: "12"},
	{key: "capacity", typed: "94 Ah"},
	{key: "modules", press: "2"},
	{key: "charge", tick: nil},
	{key: "panels", typed: "4 x 330 W"},
	{key: "chargers", press: "own"},
	{key: "inverter", press: "3000 W"},
	{key: "loads", tick: nil},
	{key: "guards", tick: []string{"meter", "relay", "frost"}},
	{key: "fuse", typed: "150 A"},
}

// The tutorial, walked on a phone: from the tour's first page to a rig of one's
// own, its findings mended, a reading entered, and the book printed.
func TestTourOnAPhone(t *testing.T) {
	v, folder := visitWorkshop(t, "curlew-draft", "curlew-draft", "curlew", "dipper")
	v.clock = time.Now() // the browser dates the reading by its own clock
	at := v.serve()
	ctx := browse(t)
	walker := &walker{t, ctx}
	walker.open(at+"/", `main a[href="/rigs"]`)
	walker.follow(`main a[href="/rigs"]`, `a[href="/start"]`)
	walker.follow(`main a[href="/start"]`, `.begin-ask`)
	for _, step := range tourSteps {
		walker.waitFor(step.shown())
		step.give(t, ctx)
	}
	walker.follow(`button[name="write"]`, `.home-between`)
	file := filepath.Join(folder, "night-heron", "rig.yaml")
	before := stopsOf(t, file)
	if len(before) == 0 {
		t.Fatal("the new rig has nothing to stop for; the tutorial says otherwise")
	}
	walker.mend(at+"/rigs/night-heron", len(before))
	if left := stopsOf(t, file); len(left) > 0 {
		t.Errorf("of %d to stop for there are left %v", len(before), left)
	}
	walker.open(at+"/rigs/night-heron/keep", `#entry`)
	walker.reading(12, "3.91")
	walker.follow(`#store`, `.reading-list li`)
	if _, err := os.Stat(filepath.Join(folder, "night-heron", "logbook.sqlite")); err != nil {
		t.Error(err)
	}
	walker.open(at+"/rigs/night-heron/book", `a[href$="/book/read"]`)
	walker.follow(`a[href$="/book/read"]`, `h1`)
	paper := run(t, ctx, chromedp.PrintToPDF())
	if text := string(paper); !strings.HasPrefix(text, "%PDF") || strings.Count(text, "/Type /Page\n")+strings.Count(text, "/Type /Page ") < 8 {
		t.Errorf("the book prints as %d bytes", len(paper))
	}
}

func stopsOf(t *testing.T, path string) []string {
	t.Helper()
	f, err := rig.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	fitted, err := fit.Run(f.Rig)
	if err != nil {
		t.Fatal(err)
	}
	wired, err := wire.Run(f.Rig, fitted, wire.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, one := range finding.Merge(fitted.Findings, wired.Findings) {
		if one.Severity == finding.Stop {
			list = append(list, one.ID+" at "+one.Where)
		}
	}
	return list
}

// walker goes through the pages as a person with a phone does.
type walker struct {
	t   *testing.T
	ctx context.Context
}

func (w *walker) waitFor(css string) {
	w.t.Helper()
	run(w.t, w.ctx, chromedp.WaitReady(chromedp.CSS(css)))
}

func (w *walker) open(address, css string) {
	w.t.Helper()
	w.t.Log("opens", address)
	run(w.t, w.ctx, chromedp.Navigate(address))
	w.waitFor(css)
}

// follow presses what css finds and waits for the page that comes.
func (w *walker) follow(css, then string) {
	w.t.Helper()
	run(w.t, w.ctx, chromedp.Click(chromedp.CSS(css)))
	w.waitFor(then)
}

func (w *walker) count(css string) int {
	return run(w.t, w.ctx, chromedp.Evaluate[int](`document.querySelectorAll(`+quoted(css)+`).length`))
}

// mend goes to the place of the first thing to stop for and presses every button
// there that writes an advised value, until the home page has nothing to stop for.
func (w *walker) mend(rig string, rounds int) {
	for range rounds + 4 {
		w.open(rig+"/", `.home-between`)
		if w.count(`.found.stop`) == 0 {
			return
		}
		to := run(w.t, w.ctx, chromedp.Evaluate[string](`document.querySelector(".found.stop a.mend").href`))
		w.t.Log("mends at", to)
		w.open(to, `html.live #sections`)
		run(w.t, w.ctx, chromedp.Poll[bool](`document.querySelector("button.take[name=take]") !== null`))
		for w.count(`button.take[name="take"]`) > 0 {
			name := run(w.t, w.ctx, chromedp.Evaluate[string](`document.querySelector('button.take[name="take"]').value`))
			w.t.Log("takes", name)
			run(w.t, w.ctx, chromedp.Evaluate[bool](`document.querySelector('button.take[name="take"]').click() === undefined`))
			run(w.t, w.ctx, chromedp.Poll[bool](`[...document.querySelectorAll('button.take[name="take"]')].every(b => b.value !== `+quoted(name)+`)`))
		}
	}
}

// reading types the voltage of each group.
func (w *walker) reading(groups int, volts string) {
	for n := 1; n <= groups; n++ {
		fill(w.t, w.ctx, `document.getElementById("group.`+itoa(n)+`")`, volts)
	}
	run(w.t, w.ctx, chromedp.Evaluate[bool](`document.querySelector('input[name=rested]:last-of-type').click() === undefined`))
}

func quoted(text string) string { return "`" + text + "`" }
