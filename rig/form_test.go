package rig

import (
	"slices"
	"testing"

	"ampstead/examples"
)

func fieldAt(t *testing.T, fields []Field, path string) Field {
	t.Helper()
	for _, f := range fields {
		if f.Path == path {
			return f
		}
	}
	t.Fatalf("no field %s", path)
	return Field{}
}

func TestFields(t *testing.T) {
	fields := Fields(mustParse(t, sketch))
	for _, want := range []Field{
		{Path: "about.name", Section: "about", Label: "name", Doc: "name of the rig", Example: "Curlew", Written: "Sketch", Given: true, Need: true, Kind: "text"},
		{Path: "about.units", Section: "about", Label: "units", Doc: "units to show", Example: "metric", Choices: []string{"metric", "us"}, Kind: "word"},
		{Path: "bank.measured.capacity", Section: "bank", Label: "measured: capacity", Doc: "capacity of the whole bank", Example: "171 Ah", Kind: "charge"},
		{Path: "charge.roof solar.settings.float", Section: "charge.roof solar", Label: "settings: float",
			Doc: "voltage held afterwards, or none", Example: "none", Written: "54.0 V", Given: true, Kind: "voltage", Off: true},
		{Path: "charge.mains charger.stop_input", Section: "charge.mains charger", Label: "stop input",
			Doc: "can another device tell it to stop", Example: "yes", Choices: []string{"yes", "no"}, Kind: "yes or no"},
	} {
		got := fieldAt(t, fields, want.Path)
		if !slices.Equal(got.Choices, want.Choices) {
			t.Errorf("%s: choices %q, want %q", want.Path, got.Choices, want.Choices)
		}
		got.Choices, want.Choices = nil, nil
		if !sameField(got, want) {
			t.Errorf("got  %+v\nwant %+v", got, want)
		}
	}
}

func sameField(a, b Field) bool {
	return a.Path == b.Path && a.Section == b.Section && a.Label == b.Label && a.Doc == b.Doc && a.Example == b.Example &&
		a.Written == b.Written && a.Given == b.Given && a.Need == b.Need && a.Kind == b.Kind && a.Off == b.Off
}

func TestFieldsOfReferencesOfferNames(t *testing.T) {
	fields := Fields(mustParse(t, string(example(t, "curlew-draft"))))
	if got := fieldAt(t, fields, "loads.lights.on").Choices; !slices.Equal(got, []string{"bank", "12 V converter", "mains inverter"}) {
		t.Errorf("on: %q", got)
	}
	if got := fieldAt(t, fields, "charge.roof solar.panels.left side.series"); got.Label != "panels, left side: series" || got.Section != "charge.roof solar" {
		t.Errorf("panel: %+v", got)
	}
}

func TestFieldsLeaveOutOtherKinds(t *testing.T) {
	for _, f := range Fields(mustParse(t, string(example(t, "curlew-draft")))) {
		if f.Path == "charge.roof solar.starter_battery" || f.Path == "charge.mains charger.input.max_voltage" {
			t.Errorf("%s is offered", f.Path)
		}
	}
}

// TestFieldsShowEveryValue compares with the tree: no value of a file is left
// out, none twice, and each place is found by its path.
func TestFieldsShowEveryValue(t *testing.T) {
	for _, name := range examples.Names() {
		f := mustParse(t, string(example(t, name)))
		given, seen := 0, map[string]bool{}
		for _, field := range Fields(f) {
			if seen[field.Path] {
				t.Errorf("%s: %s twice", name, field.Path)
			}
			seen[field.Path] = true
			if n := f.tree.at(field.Path); n != nil {
				given++
				if !field.Given || n.text != field.Written || f.Line(field.Path) != n.line {
					t.Errorf("%s: %+v is %+v", name, field, n)
				}
			}
		}
		values := 0
		f.visit(func(at spot) {
			if !at.field.deep() {
				values++
			}
		})
		if given != values {
			t.Errorf("%s: %d values shown of %d", name, given, values)
		}
	}
}

func TestWheresAreOfKeysThatThereAre(t *testing.T) {
	known := map[string]bool{}
	var walk func(s *shape)
	walk = func(s *shape) {
		for i := range s.fields {
			f := &s.fields[i]
			known[s.title+"."+f.key] = !f.deep()
			if f.deep() {
				walk(f.inner)
			}
		}
	}
	walk(rigShape)
	for key := range wheres {
		if !known[key] {
			t.Errorf("there is no value %s", key)
		}
	}
}

// Whatever can be added has a name that a page can show, and every list has a group.
func TestEveryAdditionIsCalledSomething(t *testing.T) {
	for _, name := range examples.Names() {
		form := FormOf(mustParse(t, string(example(t, name))))
		for _, a := range form.Additions {
			if a.One == "" || a.Doc == "" {
				t.Errorf("%s: %+v", name, a)
			}
			if !slices.ContainsFunc(form.Groups, func(g Group) bool { return inside(a.Path, g.Path) }) {
				t.Errorf("%s: %s is of no group", name, a.Path)
			}
		}
		for _, it := range form.Items {
			if it.One == "" || it.Section == "" {
				t.Errorf("%s: %+v", name, it)
			}
		}
	}
}
