package rig

import (
	"errors"
	"strings"
	"testing"
)

// edits are made to sketch: the text old becomes new, all else stays.
var edits = []struct{ about, path, value, old, new string }{
	{"a value with a comment behind it", "charge.roof solar.settings.float", "none", "54.0 V ", "none "},
	{"by number", "charge.0.limit", "46 A", "45 A ", "46 A "},
	{"in brackets", "charge[0].limit", "46 A", "45 A ", "46 A "},
	{"by name in brackets", "charge[mains charger].limit", "36 A", "35 A", "36 A"},
	{"single quotes stay", "about.name", "It's", "'Sketch'", "'It''s'"},
	{"double quotes stay", "bank.cell", `nca "x"`, `"nmc532"`, `"nca \"x\""`},
	{"a value that needs quotes", "charge.0.name", "sun: roof #1", "roof solar", "'sun: roof #1'"},
	{"a line break", "about.note", "a\nb", "'Sketch'\n", "'Sketch'\n  note: \"a\\nb\"\n"},
	{"a value in braces", "charge.1.name", "mains, 230 V", "mains charger", "'mains, 230 V'"},
	{"a new key in the order of the type", "bank.strings", "2", "12\n", "12\n  strings: 2\n"},
	{"a new key at the end", "bank.cooling", "fan", "94 Ah\n", "94 Ah\n  cooling: fan\n"},
	{"a new key beside comments", "charge.0.settings.restart", "47 V",
		"# held\n", "# held\n      restart: 47 V\n"},
	{"a new key in a list item", "charge.0.step", "0.1 V", "# its plate\n", "# its plate\n    step: 0.1 V\n"},
	{"a new key in braces", "charge.1.step", "0.1 V", "limit: 35 A", "limit: 35 A, step: 0.1 V"},
	{"a new key in inner braces", "charge.1.settings.equalise", "off", "float: none", "float: none, equalise: off"},
	{"a new key in a list without indent", "converters.0.output", "12 V", "360 W\n", "360 W\n  output: 12 V\n"},
	{"a new block", "bank.limits.max_voltage", "4.1 V", "94 Ah\n", "94 Ah\n  limits:\n    max_voltage: 4.1 V\n"},
	{"the first key goes", "charge.0.settings.float", "", "    settings:\n      float: 54.0 V          # held\n", ""},
	{"the last key in braces goes", "charge.1.settings.float", "", ", settings: {float: none}", ""},
}

func TestSet(t *testing.T) {
	for _, e := range edits {
		f := mustParse(t, sketch)
		g, err := f.Set(e.path, e.value)
		if err != nil {
			t.Errorf("%s: %v", e.about, err)
			continue
		}
		if want := edited(t, sketch, e.old, e.new); string(g.Text) != want {
			t.Errorf("%s: got\n%s\nwant\n%s", e.about, g.Text, want)
		}
		if string(f.Text) != sketch {
			t.Fatalf("%s: the old file changed", e.about)
		}
	}
}

func TestSetMatchesTheRig(t *testing.T) {
	g, err := mustParse(t, sketch).SetAll(Change{"heater.name", "pad"}, Change{"heater.power", "90 W"},
		Change{"converters.12 V converter.low_cut", "40 V"}, Change{"converters.0.restart", "42 V"})
	if err != nil {
		t.Fatal(err)
	}
	if h := g.Rig.Heater; h == nil || h.Name != "pad" || *h.Power != 90 {
		t.Errorf("heater = %+v", h)
	}
	if c := g.Rig.Converters[0]; c.LowCut.Value != 40 || c.Restart.Value != 42 {
		t.Errorf("converter = %+v", c)
	}
	if !strings.Contains(string(g.Text), "heater:\n  name: pad\n  power: 90 W\n") {
		t.Errorf("text:\n%s", g.Text)
	}
}

func TestSetKeepsLineBreaks(t *testing.T) {
	text := strings.ReplaceAll(least, "\n", "\r\n")
	g, err := mustParse(t, text).Set("heater.name", "pad")
	if err == nil {
		t.Fatalf("a heater without power passed: %s", g.Text)
	}
	g, err = mustParse(t, text+"prices: []").addItem("loads", map[string]string{"name": "lamp", "on": "bank", "power": "1 W"})
	if err != nil {
		t.Fatal(err)
	}
	if want := text + "loads:\r\n  - name: lamp\r\n    on: bank\r\n    power: 1 W\r\nprices: []"; string(g.Text) != want {
		t.Errorf("got %q\nwant %q", g.Text, want)
	}
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ path, value, want string }{
		{"", "1", `path "" has an empty part`},
		{"charge..limit", "1", "has an empty part"},
		{"chrage", "1", `there is no key "chrage" here, did you mean "charge"?`},
		{"charge.roof solra.limit", "1 A", `nothing named "roof solra" is there in charge; expected one of roof solar, mains charger`},
		{"loads.lamp.power", "1 W", "there is no loads in this file"},
		{"charge", "1", "charge holds more than one value"},
		{"bank.series.x", "1", "series has no keys below it"},
		{"bank.series", "", "bank.series: is missing"},
		{"bank.series", "x", `"x" is not a whole number`},
		{"bank.cell_capacity", "94", `rig.yaml:7:18: bank.cell_capacity: "94" has no unit; expected a charge; example: 94 Ah`},
		{"converters.0.input_high", "31 V", "31 V is not above input_low"},
		{"about.name", "a\xff", "changed by hand"},
	} {
		f := mustParse(t, sketch)
		g, err := f.Set(c.path, c.value)
		var problems Errors
		if !errors.As(err, &problems) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("Set(%q, %q) = %v, want %q", c.path, c.value, err, c.want)
		}
		if g != nil || string(f.Text) != sketch {
			t.Errorf("Set(%q, %q) changed something", c.path, c.value)
		}
	}
}

func TestSetFirstKeyOfItem(t *testing.T) {
	text := least + "charge:\n  - name: sun\n    kind: solar\n    limit: 9 A\n    panels:\n      - name: left   # port\n        series: 1\n        power: 9 W\n        open_voltage: 9 V\n"
	g, err := mustParse(t, text).Set("charge.sun.panels.left.name", "")
	if err != nil {
		t.Fatal(err)
	}
	if want := edited(t, text, "- name: left   # port\n        series", "- series"); string(g.Text) != want {
		t.Errorf("got\n%s", g.Text)
	}
}

func TestSetLiteralText(t *testing.T) {
	text := "about:\n  name: x\n  note: |\n    one\n\n    two\n  units: us\nbank: {cell: nca, series: 7, cell_capacity: 2 Ah}\n"
	f := mustParse(t, text)
	if f.Rig.About.Note != "one\n\ntwo\n" {
		t.Errorf("note = %q", f.Rig.About.Note)
	}
	g, err := f.Set("about.note", "short")
	if err != nil {
		t.Fatal(err)
	}
	if want := edited(t, text, "|\n    one\n\n    two\n", "short\n"); string(g.Text) != want {
		t.Errorf("got\n%s", g.Text)
	}
}

func TestSetBehindCommentsOfWhatEnds(t *testing.T) {
	text := about + "bank:\n  cell: nca\n  series: 7\n  cell_capacity: 2 Ah\n  measured:\n    capacity: 9 Ah\n    # resistance:\n  # cooling:"
	g, err := mustParse(t, text).Set("bank.mass", "9 kg")
	if err != nil {
		t.Fatal(err)
	}
	if want := edited(t, text, "# resistance:\n", "# resistance:\n  mass: 9 kg\n"); string(g.Text) != want {
		t.Errorf("got\n%s", g.Text)
	}
}
