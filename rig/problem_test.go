package rig

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

func TestProblemAsJSON(t *testing.T) {
	_, err := Parse("rig.yaml", []byte(edited(t, small, "94 Ah", "94")))
	var one *Problem
	if !errors.As(err, &one) {
		t.Fatalf("%v holds no Problem", err)
	}
	got, err := json.Marshal(one)
	want := `{"file":"rig.yaml","line":2,"column":49,"path":"bank.cell_capacity","message":"\"94\" has no unit","hint":"expected a charge; example: 94 Ah"}`
	if err != nil || string(got) != want {
		t.Errorf("got  %s %v\nwant %s", got, err, want)
	}
}

func TestPlacedAt(t *testing.T) {
	f := mustParse(t, sketch)
	for path, want := range map[string][2]int{
		"charge.roof solar.settings.float": {15, 14},
		"charge[0].settings.float":         {15, 14},
		"charge.roof solar.settings":       {14, 5}, // a block stands at its key
		"charge.roof solar.settings.tail":  {14, 5}, // nearest that is there
		"charge.1.settings.float":          {17, 71},
		"charge.9.limit":                   {8, 1},
		"loads.lamp":                       {1, 1},
		"":                                 {1, 1},
	} {
		p := f.Problem(path, "m", "", "")
		if p.Line != want[0] || p.Column != want[1] || f.Line(path) != want[0] {
			t.Errorf("%q stands at %d:%d, want %v", path, p.Line, p.Column, want)
		}
	}
}

func TestBounds(t *testing.T) {
	for want, text := range map[string]string{
		"has 1048577 bytes; expected a rig file of at most 1 MB": strings.Repeat("#", maxBytes+1),
		"more parts than a rig can have":                         strings.Repeat("a: 1\n", maxTokens),
		"has 501 items; expected at most 500":                    small + "prices: [" + strings.Repeat("{item: a, price: 1 EUR},", 501) + "]\n",
		"nested too deeply":                                      strings.Repeat("- ", 1000),
	} {
		if _, err := Parse("rig.yaml", []byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %.200v, want %s", err, want)
		}
	}
}

func TestAtMostSoManyProblems(t *testing.T) {
	_, err := Parse("rig.yaml", []byte(small+"loads: ["+strings.Repeat("{x: 1},", 400)+"]\n"))
	var problems Errors
	if !errors.As(err, &problems) || len(problems) != maxProblems {
		t.Errorf("%d problems", len(problems))
	}
}

func TestNearest(t *testing.T) {
	keys := []string{"series", "strings", "cell", "cell_capacity"}
	for text, want := range map[string]string{
		"sries": "series", "Series": "series", "string": "strings", "cel": "cell", "ecll": "cell",
		"cellcapacity": "cell_capacity", "voltage": "", "x": "", "": "",
	} {
		if got := nearest(text, keys); got != want {
			t.Errorf("nearest(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestSetMakesBlocksInBraces(t *testing.T) {
	text := least + "charge: [{name: sun, kind: solar, limit: 9 A}, {name: shore, kind: mains, limit: 9 A, settings: }]\n"
	f := mustParse(t, text)
	g, err := f.Set("charge.sun.settings.float", "none")
	if err != nil || string(g.Text) != edited(t, text, "limit: 9 A}", "limit: 9 A, settings: {float: none}}") {
		t.Errorf("a new block: %v", err)
	}
	g, err = f.addItem("charge.sun.panels", map[string]string{"name": "left, front"})
	if err != nil || string(g.Text) != edited(t, text, "limit: 9 A}",
		"limit: 9 A, panels: [{name: 'left, front', series: 2, power: 330 W, open_voltage: 40.5 V}]}") {
		t.Errorf("a new list: %v", err)
	}
	g, err = f.Set("charge.shore.settings.float", "none")
	if err != nil || !strings.Contains(string(g.Text), "settings: {float: none}") {
		t.Errorf("a block that is empty: %v", err)
	}
}
