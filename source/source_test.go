package source_test

import (
	"testing"

	"ampstead/source"
)

func TestEverySourceIsWhole(t *testing.T) {
	known := map[source.Standing]bool{source.Read: true, source.SecondHand: true, source.Computed: true, source.Derived: true,
		source.Practice: true, source.Memory: true, source.Given: true}
	keys, texts := map[string]bool{}, map[string]bool{}
	for _, s := range source.All() {
		if s.Key == "" || s.Text == "" || !known[s.Standing] {
			t.Errorf("source %+v lacks key, text or standing", s)
		}
		if keys[s.Key] || texts[s.Text] {
			t.Errorf("source %q is there twice", s.Key)
		}
		keys[s.Key], texts[s.Text] = true, true
	}
	if len(keys) == 0 {
		t.Fatal("no sources")
	}
}

func TestWeak(t *testing.T) {
	if !(source.Source{Standing: source.Memory}).Weak() || (source.Source{Standing: source.Read}).Weak() {
		t.Error("weak standings are memory and practice")
	}
}
