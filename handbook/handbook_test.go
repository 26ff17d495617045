package handbook_test

import (
	"strings"
	"testing"

	"ampstead/handbook"
	"ampstead/source"
)

// promised are names that scripts of others rely on and that are built so far.
var promised = []string{"ageing", "conductor", "conductor-for-drop", "cycle-count", "panel-cold-voltage", "pre-charge", "rest-voltage", "short-circuit", "soc-from-rest", "voltage-drop", "warm-up"}

func TestEveryFigureIsWhole(t *testing.T) {
	names := map[string]bool{}
	known := map[string]bool{}
	for _, s := range source.All() {
		known[s.Key] = true
	}
	for _, f := range handbook.All() {
		if names[f.Name] {
			t.Errorf("%s is registered twice", f.Name)
		}
		names[f.Name] = true
		if f.Answers == "" || f.Equation == "" || f.Range == "" || len(f.Outputs) == 0 {
			t.Errorf("%s lacks question, equation, range or outputs", f.Name)
		}
		if !known[f.Source.Key] {
			t.Errorf("%s: source %q is not in the bibliography", f.Name, f.Source.Key)
		}
		if len(f.Checks) == 0 {
			t.Errorf("%s has no check", f.Name)
		}
	}
	for _, name := range promised {
		if !names[name] {
			t.Errorf("%s is missing", name)
		}
	}
}

func TestEveryPublishedCheckPasses(t *testing.T) {
	for _, f := range handbook.All() {
		for _, o := range f.Verify() {
			if !o.Pass {
				t.Errorf("%s: got %v, want %v within %g (%s; %s)", o.Figure, o.Got, o.Expected, o.Tolerance, o.Source, o.Note)
			}
		}
	}
}

func TestFindSuggests(t *testing.T) {
	if _, err := handbook.Find("rest-voltage"); err != nil {
		t.Error(err)
	}
	_, err := handbook.Find("rest")
	if err == nil || !strings.Contains(err.Error(), "did you mean") || !strings.Contains(err.Error(), "rest-voltage") {
		t.Errorf("error %v", err)
	}
}
