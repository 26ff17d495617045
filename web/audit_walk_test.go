package web

import (
	"context"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/examples"
	"ampstead/internal/choosesample"
	"ampstead/internal/drillsample"
	"ampstead/physics/cell"
	"ampstead/rig"
	"ampstead/travel"
)

// broken is a rig file that cannot be read as one.
const broken = "about:\n  name: Ouzel\nbank:\n  cell: nmc532\n  series: twelve\n"

// visitAudit makes a workshop of every kind of rig: the mended example in front, with
// a logbook and every stage reckoned, the draft, the small one, one with a bench log,
// and one whose file is damaged. Drills and searches are inventions; years are real,
// in long steps.
func visitAudit(t testing.TB) *visitor {
	t.Helper()
	folder := t.TempDir()
	put := func(slug, file, text string) {
		t.Helper()
		path := filepath.Join(folder, slug, file)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range examples.Names() {
		text, err := examples.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		put(name, "rig.yaml", string(text))
	}
	put("wren", "rig.yaml", wren)
	put("wren", "bench/first-test.csv", benchLog())
	put("ouzel", "rig.yaml", broken)

	v := &visitor{t: t, file: filepath.Join(folder, "curlew", "rig.yaml"), clock: time.Date(2026, 11, 20, 8, 0, 0, 0, time.UTC),
		host: "localhost:8000", from: "127.0.0.1:40000", header: map[string]string{"Sec-Fetch-Site": "same-origin"}}
	faults, market := &faultsAt{}, &marketAt{}
	handler, err := New(Config{
		Path: filepath.Dir(v.file), Workshop: folder, Version: "test", Figures: cell.Figures(), Now: func() time.Time { return v.clock },
		reckon:   brisk,
		drilling: drilling{faults.run, faults.play}, choosing: choosing{market.run, market.apply},
	})
	if err != nil {
		t.Fatal(err)
	}
	v.handler = handler
	t.Cleanup(v.close)
	table, ok := examples.Log("curlew")
	if !ok {
		t.Fatal("the example has no log")
	}
	if res := v.sendTable(string(table)); !strings.HasPrefix(res.Header.Get("Location"), "/keep?done=imported") {
		t.Fatalf("the log was not taken in: %s to %s", res.Status, res.Header.Get("Location"))
	}
	search(v)
	return v
}

// brisk reckons two years in steps of ten minutes: enough to draw.
func brisk(ctx context.Context, r *rig.Rig, o travel.Options) (*travel.Result, error) {
	o.Years, o.StepS = 2, 600
	return travel.Run(ctx, r, o)
}

// named are addresses that hold for patterns with a name in them, and pages that show
// something else when they are asked otherwise.
var named = []string{
	"/figures/rest-voltage?cell=nca&soc=50+%25", "/figures/rest-voltage?cell=nca&soc=50+kg",
	"/no-such-page", "/rigs/curlew-draft/", "/rigs/curlew-draft/fit", "/rigs/curlew-draft/wire", "/rigs/dipper/", "/rigs/dipper/travel",
	"/rigs/ouzel/", "/rigs/ouzel/rig/text", "/rigs/wren/prove?log=first-test.csv", "/rigs/wren/travel",
	"/prove/plan?charger=29.4+V+20+A&load=inverter+1500+W&temperature=12+%C2%B0C", "/prove/plan?load=blue",
	"/travel?from=05-01&days=31", "/travel?from=soon",
	"/drill?" + url.Values{"fault": {drillsample.Stuck}, "second": {drillsample.Welded}, "scene": {drillsample.Sun}}.Encode(),
	"/choose?" + url.Values{"design": {choosesample.Longest}}.Encode(),
}

// walk lists every page there is: each pattern that answers with a page, and the named
// ones. A page that waits for a stage is asked again until it has it.
func (v *visitor) walk() []string {
	v.t.Helper()
	var list []string
	for _, pattern := range v.handler.(*pages).hall.paths {
		path, ok := strings.CutPrefix(pattern, "GET ")
		path = strings.TrimSuffix(path, "{$}")
		if !ok || strings.Contains(path, "{") || strings.HasSuffix(path, "/events") {
			continue
		}
		list = append(list, path)
	}
	list = append(list, named...)
	list = slices.DeleteFunc(list, func(path string) bool {
		res := v.do(httptestGet(path))
		return !strings.HasPrefix(res.Header.Get("Content-Type"), "text/html") || res.StatusCode >= 300 && !slices.Contains(named, path) || res.Header.Get("Content-Disposition") != ""
	})
	slices.Sort(list)
	list = slices.Compact(list)
	for _, path := range list {
		v.settle(path)
	}
	return list
}

// settle asks for a page until nothing behind it is being reckoned.
func (v *visitor) settle(path string) string {
	v.t.Helper()
	for deadline := time.Now().Add(2 * time.Minute); ; time.Sleep(20 * time.Millisecond) {
		_, body := v.get(path)
		if !strings.Contains(body, `id="progress"`) {
			return body
		}
		if time.Now().After(deadline) {
			v.t.Fatalf("%s still waits", path)
		}
	}
}
