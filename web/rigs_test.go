package web

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ampstead/examples"
)

// rigsRead asks for the page of all rigs until every rig of it was read.
func (v *visitor) rigsRead() string {
	v.t.Helper()
	for range 2000 {
		status, body := v.get("/rigs")
		if status != http.StatusOK {
			v.t.Fatalf("status %d", status)
		}
		if !strings.Contains(body, "still being read") {
			return body
		}
		time.Sleep(5 * time.Millisecond)
	}
	v.t.Fatal("the rigs are never read")
	return ""
}

func TestRigsStandSideBySide(t *testing.T) {
	v, folder := visitWorkshop(t, "curlew", "curlew", "curlew-draft", "dipper")
	mustWrite(t, filepath.Join(folder, "ouzel", "rig.yaml"), []byte("about:\n  name: Ouzel\nbank:\n  cell: nmc532\n  series: twelve\n"))
	body := v.rigsRead()
	contains(t, "rigs", body, `href="/"`, `href="/rigs/dipper/"`, `href="/start"`, "retired mobile library", "two people",
		"19 to stop for", "Leave the bank disconnected", "12 groups of 2 cells", "40.8 V to 49.2 V", "6.689 kWh", "Not played yet", "No reading in the logbook yet",
		"in the folder ouzel", "Its file has", "bank.cell_capacity: is missing", "1 more in the same file", `href="/rigs/ouzel/"`)
	if strings.Contains(body, "being reckoned") {
		t.Error("the list begins a run")
	}
	if before, _, _ := strings.Cut(body, "Ouzel"); before != body {
		t.Error("a file that cannot be read gives a name")
	}
	// A change by hand shows on the next request.
	path := filepath.Join(folder, "dipper", "rig.yaml")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	mustWrite(t, path, []byte(strings.Replace(string(text), "name: Dipper", "name: Redshank", 1)))
	contains(t, "changed", v.rigsRead(), "Redshank")
}

func TestFirstActOfARigLeadsIntoThatRig(t *testing.T) {
	v, _ := visitWorkshop(t, "curlew", "curlew", "dipper")
	contains(t, "rigs", v.rigsRead(), `<a href="/rigs/dipper/keep#enter">`, `<a href="/keep#enter">`)
}

func TestEmptyWorkshopLeadsToTheStart(t *testing.T) {
	v, _ := visitWorkshop(t, "")
	_, body := v.get("/rigs")
	contains(t, "empty", body, "An empty workbench", `href="/start"`)
}

func TestRigServedAloneHasNoList(t *testing.T) {
	v := visit(t, "dipper")
	status, body := v.get("/rigs")
	contains(t, "alone", body, "One rig is served here", "ampstead serve FOLDER")
	if status != http.StatusNotFound {
		t.Errorf("status %d", status)
	}
	if _, home := v.get("/"); strings.Contains(home, `href="/rigs"`) {
		t.Error("the first page leads to a list that is not there")
	}
}

// manyRigs is a workshop of n rigs with a logbook table in none.
func manyRigs(t testing.TB, n int) *visitor {
	t.Helper()
	folder := t.TempDir()
	for i := range n {
		name := examples.Names()[i%3]
		text, err := examples.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		dir := filepath.Join(folder, fmt.Sprintf("rig-%02d", i))
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "rig.yaml"), []byte(strings.Replace(string(text), "name: ", fmt.Sprintf("name: %d ", i), 1)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	v := newVisitor(t, "")
	v.open(Config{Workshop: folder, Version: "test", Now: v.now, still: true})
	return v
}

// Fifty rigs that nobody read before do not hold the page up: those that are not
// read in time are named, and there the next time.
func TestManyRigsAreReadInTheBackground(t *testing.T) {
	v := manyRigs(t, 50)
	h := v.handler.(*pages).hall
	slugs, err := h.workshop.slugs()
	if err != nil || len(slugs) != 50 {
		t.Fatal(len(slugs), err)
	}
	read := h.workshop.readAll(slugs, 0)
	for slug, s := range read {
		if s != nil && s.desk.path == "" {
			t.Errorf("%s has no path", slug)
		}
	}
	body := v.rigsRead()
	contains(t, "rigs", body, `href="#rig-rig-49"`, `id="rig-rig-49"`, "49 ")
	if n := strings.Count(body, `<section class="rig"`); n != 50 {
		t.Errorf("%d rigs are shown", n)
	}
}

// BenchmarkRigs50 is the page of fifty rigs that were read before.
func BenchmarkRigs50(b *testing.B) {
	v := manyRigs(b, 50)
	v.rigsRead()
	v.measure(b, "/rigs")
}

// BenchmarkRigs50First is the same of a server that was just started, until every
// rig of it was read.
func BenchmarkRigs50First(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		v := manyRigs(b, 50)
		b.StartTimer()
		v.rigsRead()
		b.StopTimer()
		v.close()
		b.StartTimer()
	}
}
