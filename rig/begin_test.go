package rig

import (
	"fmt"
	"testing"
)

// A list that is not there, or is shorter, is written item by item in one go.
func TestSetAllBeginsItems(t *testing.T) {
	const bank = "about: {name: Wren}\nbank: # the best of three\n  cell: nmc532\n  series: 3\n  cell_capacity: 94 Ah\n"
	var all []Change
	for k := range 3 {
		all = append(all, Change{fmt.Sprintf("bank.measured.groups.%d.capacity", k), fmt.Sprintf("9%d Ah", k)}, Change{fmt.Sprintf("bank.measured.groups.%d.resistance", k), "1.1 mΩ"})
	}
	const written = bank + "  measured:\n    groups:\n" +
		"      - capacity: 90 Ah\n        resistance: 1.1 mΩ\n      - capacity: 91 Ah\n        resistance: 1.1 mΩ\n      - capacity: 92 Ah\n        resistance: 1.1 mΩ\n"
	check(t, mustParse(t, bank), all, written)

	// one reading for three groups is no rig: it comes as the text of an edit
	text := []byte(bank + "  measured:\n    groups:\n      - capacity: 80 Ah\n")
	tree, p := grow("rig.yaml", text)
	if p != nil {
		t.Fatal(p)
	}
	check(t, &File{Path: "rig.yaml", Text: text, tree: tree}, all, written)
}

func check(t *testing.T, f *File, all []Change, want string) {
	t.Helper()
	g, err := f.SetAll(all...)
	if err != nil {
		t.Fatal(err)
	}
	if string(g.Text) != want {
		t.Errorf("got\n%s\nwant\n%s", g.Text, want)
	}
}

func TestBeginRefuses(t *testing.T) {
	f := mustParse(t, "about: {name: Wren}\nbank: {cell: nmc532, series: 3, cell_capacity: 94 Ah}\n")
	for _, c := range []Change{{"bank.measured.groups.1.capacity", "90 Ah"}, {"bank.measured.groups.0.weight", "3 kg"}, {"bank.measured.groups.0", "3 kg"}, {"bank.own.curve.0.soc.x", "1"},
		{"bank.measured.groups.first.capacity", "90 Ah"}, {"charge.0.settings", "x"}} {
		if g, err := f.SetAll(c); err == nil {
			t.Errorf("%+v was taken:\n%s", c, g.Text)
		}
	}
	if g, err := f.SetAll(Change{"bank.measured.groups.0.capacity", ""}); err == nil {
		t.Errorf("removing what is not there made\n%s", g.Text)
	}
}
