package book_test

import (
	"strings"
	"testing"

	"ampstead/internal/choosesample"
	q "ampstead/quantity"
)

// The chapters of the batteries come with their pictures, and with a list for each
// seller; the front only when it was searched.
func TestWhichBattery(t *testing.T) {
	m := model(t, "curlew", q.Metric)
	text := write(t, m.WithChoice(choosesample.Result()))
	for _, want := range []string{"Which battery", "5 batteries, 6 designs", "compare-860-title", "lives-860-title", "front-860-title", "windows-860-title", "At the seller", "4 lists", "seller:", "walk away at",
		`those of the batteries compared in <a href="#batteries">`} {
		if !strings.Contains(text, want) {
			t.Errorf("the book lacks %q", want)
		}
	}
	hangsTogether(t, text)
	if text = write(t, m.WithChoice(choosesample.Unsearched())); strings.Contains(text, "The best whole rig") {
		t.Error("a front that was not searched for")
	}
	if strings.Contains(write(t, m), "Which battery") {
		t.Error("a book without a comparison has the chapter")
	}
}
