package rig

import (
	"strings"
	"testing"
)

func TestChanges(t *testing.T) {
	for _, c := range []struct{ about, old, new, want string }{
		{"a value", "45 A", "46 A", "charge.roof solar.limit | roof solar: limit | 45 A | 46 A"},
		{"in an inner block", "54.0 V", "none", "charge.roof solar.settings.float | roof solar: settings, float | 54.0 V | none"},
		{"of a block", "series: 12", "series: 14", "bank.series | bank: series | 12 | 14"},
		{"not given before", "series: 12", "series: 12\n  strings: 2", "bank.strings | bank: strings |  | 2"},
		{"no longer given", "    limit: 45 A   # its plate\n", "    limit: 45 A\n    step: 0.1 V\n", "charge.roof solar.step | roof solar: step |  | 0.1 V"},
		{"of protection", "opens: bank", "opens: loads", "protection.contactors.main contactor.opens | main contactor: opens | bank | loads"},
		{"a device more", "converters:", "  - {name: alternator, kind: alternator, limit: 9 A, settings: {float: off}}\nconverters:",
			"charge.alternator | alternator |  | kind alternator, limit 9 A, settings (float off) | whole"},
		{"another device", "name: mains charger", "name: shore charger",
			"charge.mains charger | mains charger | kind mains, limit 35 A, settings (float none) |  | whole\n" +
				"charge.shore charger | shore charger |  | kind mains, limit 35 A, settings (float none) | whole"},
		{"a block", "heater:\n", "heater: {name: pad, power: 90 W}\n", "heater | heater |  | power 90 W | whole"},
		{"a comment", "# head comment", "# another", ""},
		{"the same in other units", "45 A", "45000 mA", ""},
		{"the same said", "series: 12", "series: 12\n  measured: {}", ""},
		{"a text over lines", "name: 'Sketch'", "name: 'Sketch'\n  note: |\n    one\n    two", "about.note | about: note |  | one two"},
		{"what was measured", "94 Ah\n", "94 Ah\n  measured: {date: 2026-09-12, capacity: 90 Ah}\n",
			"bank.measured | bank: measured |  | date 2026-09-12, capacity 90 Ah | whole"},
		{"a stay", "bank:\n", "route: [{name: Marsh, from: 2026-11-01, to: 2027-02-20, near: Tromso}]\nbank:\n",
			"route.Marsh | Marsh |  | from 2026-11-01, to 2027-02-20, near Tromso | whole"},
	} {
		checkChanges(t, c.about, sketch, edited(t, sketch, c.old, c.new), c.want)
	}
}

func TestChangesWithinADevice(t *testing.T) {
	panels := "\nheater:\n"
	text := strings.Replace(sketch, "    settings:\n      float", "    panels:\n      - {name: left, series: 2, power: 300 W, open_voltage: 40 V}\n      - {series: 2, power: 300 W, open_voltage: 40 V}\n    settings:\n      float", 1)
	if text == sketch || !strings.Contains(text, panels) {
		t.Fatal("the sketch is another")
	}
	checkChanges(t, "unnamed beside named", text, edited(t, text, "- {series: 2, power: 300 W", "- {series: 3, power: 300 W"),
		"charge.roof solar.panels.1.series | roof solar: panels 2, series | 2 | 3")
	checkChanges(t, "named, by its number because the other has no name", text, edited(t, text, "{name: left, series: 2", "{name: left, series: 4"),
		"charge.roof solar.panels.left.series | roof solar: panels, left, series | 2 | 4")
}

func checkChanges(t *testing.T, about, from, to, want string) {
	t.Helper()
	var lines []string
	for _, c := range Changes(mustParse(t, from), mustParse(t, to)) {
		parts := []string{c.Path, c.Label, c.Was, c.Is}
		if c.Whole {
			parts = append(parts, "whole")
		}
		lines = append(lines, strings.Join(parts, " | "))
	}
	if got := strings.Join(lines, "\n"); got != want {
		t.Errorf("%s: got\n%s\nwant\n%s", about, got, want)
	}
}

// Changes finds a difference just where Diff does, both ways between the examples.
func TestChangesFindWhatDiffFinds(t *testing.T) {
	names := []string{"curlew-draft", "curlew", "dipper"}
	for _, a := range names {
		for _, b := range names {
			from, to := mustParse(t, string(example(t, a))), mustParse(t, string(example(t, b)))
			list, diff := Changes(from, to), Diff(from.Rig, to.Rig)
			if (len(list) == 0) != (len(diff) == 0) || len(list) > len(diff) {
				t.Errorf("%s to %s: %d changes, %d differences", a, b, len(list), len(diff))
			}
			for _, c := range list {
				if c.Label == "" || c.Was == c.Is {
					t.Errorf("%s to %s: %+v", a, b, c)
				}
			}
		}
	}
}
