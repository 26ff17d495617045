package book_test

import (
	"strings"
	"testing"

	"ampstead/internal/drillsample"
	q "ampstead/quantity"
)

// The chapters of the drill come with matrix, strips and the sheet to rehearse by
// when there is a drill, and every link of the book keeps its place.
func TestWhenSomethingFails(t *testing.T) {
	m := model(t, "curlew", q.Metric)
	text := write(t, m.WithDrill(drillsample.Result(), *drillsample.Frost(), *drillsample.Strip()))
	for _, want := range []string{"When something fails", "24 faults in 7 scenes", "matrix-860-title", "strip1-860-title", "strip2-860-title", "The runs", "Rehearsal", "1 test", "initials:",
		"a second contactor in series", "Do not connect this battery", `those of the drill in <a href="#drill">`} {
		if !strings.Contains(text, want) {
			t.Errorf("the book lacks %q", want)
		}
	}
	hangsTogether(t, text)
	if strings.Contains(write(t, m), "When something fails") {
		t.Error("a book without a drill has the chapter")
	}
}
