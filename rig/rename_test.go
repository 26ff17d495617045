package rig

import (
	"strings"
	"testing"
)

func TestRename(t *testing.T) {
	text := string(example(t, "curlew-draft"))
	g, err := mustParse(t, text).Rename("inverters.mains inverter", "big inverter")
	if err != nil {
		t.Fatal(err)
	}
	if want := strings.ReplaceAll(text, "mains inverter", "big inverter"); string(g.Text) != want {
		t.Errorf("got\n%s", g.Text)
	}
	if _, err := g.Rename("inverters.big inverter", "bank"); err == nil {
		t.Error("a reserved name passed")
	}
	if _, err := g.Rename("inverters.nothing", "x"); err == nil {
		t.Error("a path to nothing passed")
	}
	h, err := g.Rename("route.Meseta", "High plain")
	if err != nil || string(h.Text) != strings.Replace(string(g.Text), "name: Meseta", "name: High plain", 1) {
		t.Errorf("a stay: %v", err)
	}
}
