package book_test

import (
	"strings"
	"testing"

	"ampstead/examples"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/wire"
)

// The chapters to build from stand before figures and sources, the cover counts
// what both stages found once, and every link stays inside.
func TestWiringChapters(t *testing.T) {
	for _, name := range examples.Names() {
		text, err := examples.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		file, err := rig.Parse("rig.yaml", text)
		if err != nil {
			t.Fatal(err)
		}
		res, err := fit.Run(file.Rig)
		if err != nil {
			t.Fatal(err)
		}
		wired, err := wire.Run(file.Rig, res, wire.Options{})
		if err != nil {
			t.Fatal(err)
		}
		m := model(t, name, q.Metric).WithWire(wired)
		got := write(t, m)
		at := 0
		for _, title := range []string{`id="one-line"`, `id="schedule"`, `id="parts"`, `id="commissioning"`, `id="figures"`, `id="sources"`} {
			i := strings.Index(got, title)
			if i < at {
				t.Errorf("%s: %s is missing or out of order", name, title)
			}
			at = i
		}
		for _, want := range []string{"oneline-860-title", "reading / by", "Findings: " + m.TallyTogether()} {
			if !strings.Contains(got, want) {
				t.Errorf("%s: the book lacks %q", name, want)
			}
		}
		checkLinks(t, name, got)
	}
}

func checkLinks(t *testing.T, name, text string) {
	t.Helper()
	hangsTogether(t, text)
}
