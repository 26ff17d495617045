package working_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ampstead/finding"
	"ampstead/handbook"
	"ampstead/physics/setpoint"
	"ampstead/quantity"
	"ampstead/source"
	"ampstead/working"

	"ampstead/figure"
)

// What is said of accuracy must be what the pages of docs say, which are written
// or held to account by tests of their own.
func TestAccuracyIsWhatTheDocsSay(t *testing.T) {
	for _, c := range working.Chains() {
		for _, a := range c.Found {
			text, err := os.ReadFile(filepath.Join("..", "docs", a.Doc))
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range a.Quotes {
				if !strings.Contains(string(text), q) {
					t.Errorf("%s: docs/%s does not say %q", c.Key, a.Doc, q)
				}
			}
		}
	}
}

func TestFiguresOfChainsAreInTheHandbook(t *testing.T) {
	keys := map[string]bool{}
	for _, c := range working.Chains() {
		if keys[c.Key] || c.Title == "" || len(c.Assumed) == 0 || len(c.Found) == 0 {
			t.Errorf("%s is there twice or not whole", c.Key)
		}
		keys[c.Key] = true
		for _, name := range c.Figures() {
			if _, err := handbook.Find(name); err != nil {
				t.Errorf("%s: %v", c.Key, err)
			}
		}
	}
}

func TestUseTellsWhatWentInAndCameOut(t *testing.T) {
	u, err := setpoint.TailCurrent.Use(figure.N("capacity", 280.0), figure.N("current", 100.0))
	if err != nil {
		t.Fatal(err)
	}
	w := working.Use(u)
	want := finding.Value{Name: "capacity", Value: 280.0, Unit: "Ah"}
	if w.Figure != "tail-current" || w.Inputs[0] != want || w.Outputs[0].Value != 14.0 || w.Outputs[0].Unit != "A" {
		t.Errorf("%+v", w)
	}
	if list := working.Uses(figure.Use{}, u); len(list) != 1 {
		t.Errorf("an empty use gave %d workings", len(list)-1)
	}
}

func TestRowTakesUnitsFromKeys(t *testing.T) {
	row := struct {
		Current float64  `json:"current_a"`
		Worn    float64  `json:"left_fraction"`
		None    *float64 `json:"spread_v,omitempty"`
		Name    string   `json:"name"`
	}{12, 0.5, nil, "x"}
	w := working.Row("a row", &row, "current_a", "left_fraction", "spread_v", "name", "absent")
	want := []finding.Value{{Name: "current", Value: 12.0, Unit: "A"}, {Name: "left", Value: 0.5, Unit: working.Share}, {Name: "spread", Value: "none", Unit: "V"}, {Name: "name", Value: "x"}}
	if len(w.Outputs) != len(want) {
		t.Fatalf("%+v", w.Outputs)
	}
	for k := range want {
		if w.Outputs[k] != want[k] {
			t.Errorf("got %+v, want %+v", w.Outputs[k], want[k])
		}
	}
}

func TestNoNumberIsWords(t *testing.T) {
	if v := working.Of("x", math.NaN(), quantity.Volts); v.Value != "no number" {
		t.Errorf("%+v", v)
	}
	if w := working.Taken("x", 1, quantity.Volts, source.SpreadHabit); w.Standing != string(source.Practice) || w.Source == "" {
		t.Errorf("%+v", w)
	}
}
