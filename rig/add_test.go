package rig

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/examples"
)

// whole are texts in every style in which something is added and taken out again.
func wholeTexts(t testing.TB) map[string]string {
	texts := map[string]string{"sketch": strings.TrimSuffix(sketch, "heater:\n"), "small": small,
		"braces": small + "prices: [{item: a, price: 1 EUR}]\nloads:\n- {name: lamp, on: bank, power: 5 W} # dim\n",
		"own":    "about: {name: Own}\nbank:\n  cell: own\n  own:\n    like: nmc532\n    curve:\n      - {soc: 0 %, voltage: 3 V}\n      - {soc: 100 %, voltage: 4.2 V}\n  series: 4\n  cell_capacity: 50 Ah\n  measured:\n    spread_low: 9 mV\n"}
	for _, name := range examples.Names() {
		texts[name] = string(example(t, name))
	}
	texts["carriage returns"] = strings.ReplaceAll(texts["curlew-draft"], "\n", "\r\n")
	return texts
}

func TestAddThenRemoveLeavesEveryByte(t *testing.T) {
	for name, text := range wholeTexts(t) {
		f := mustParse(t, text)
		for _, a := range FormOf(f).Additions {
			if a.Lacks != "" {
				continue
			}
			g, path, err := f.Add(a.Path, nil)
			if err != nil {
				t.Errorf("%s: add %s: %v", name, a.Path, err)
				continue
			}
			if g.tree.at(path) == nil {
				t.Errorf("%s: nothing is at %s after adding %s", name, path, a.Path)
			}
			if !a.List {
				path = a.Path
			} else if strings.HasSuffix(a.Path, "curve") && g.tree.at(a.Path) != nil && f.tree.at(a.Path) == nil {
				path = a.Path // its two ends came together
			}
			back, err := g.Remove(path)
			if err != nil {
				t.Errorf("%s: remove %s: %v", name, path, err)
			} else if string(back.Text) != text {
				t.Errorf("%s: %s added and removed leaves another text:\n%s", name, path, firstDifference(text, string(back.Text)))
			}
		}
	}
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return fmt.Sprintf("line %d: %q is %q", i+1, x[i], y[i])
		}
	}
	return fmt.Sprintf("%d lines are %d", len(x), len(y))
}

func TestCopyThenRemoveLeavesEveryByte(t *testing.T) {
	for name, text := range wholeTexts(t) {
		f := mustParse(t, text)
		copies := 0
		for _, it := range FormOf(f).Items {
			if !it.Copies {
				continue
			}
			copies++
			g, path, err := f.Copy(it.Path)
			if err != nil {
				t.Errorf("%s: copy %s: %v", name, it.Path, err)
				continue
			}
			if back, err := g.Remove(path); err != nil || string(back.Text) != text {
				t.Errorf("%s: %s copied to %s and removed: %v", name, it.Path, path, err)
			}
			if !slices.Equal(g.tree.comments, f.tree.comments) {
				t.Errorf("%s: copying %s touched the comments", name, it.Path)
			}
		}
		if copies == 0 && name != "small" && name != "own" {
			t.Errorf("%s: nothing to copy", name)
		}
	}
}

func TestAddMarksItsExamples(t *testing.T) {
	for _, c := range []struct {
		about, text, path string
		values            map[string]string
		at, old, new      string
	}{
		{"an item", sketch, "charge", map[string]string{"kind": "alternator", "name": "engine"}, "charge.engine",
			"{float: none}}\n", "{float: none}}\n  - name: engine\n    kind: alternator\n    limit: 60 A   # CHECK: an example\n"},
		{"what somebody gave is no example", sketch, "charge", map[string]string{"limit": "30 A", "name": "engine", "kind": "mains"}, "charge.engine",
			"{float: none}}\n", "{float: none}}\n  - name: engine\n    kind: mains\n    limit: 30 A\n"},
		{"a block", sketch, "bank.balancer", nil, "bank.balancer",
			"94 Ah\n", "94 Ah\n  balancer:\n    current: 100 mA   # CHECK: an example\n"},
		{"a block whose key is there", sketch, "heater", nil, "heater",
			"heater:\n", "heater:\n  name: heater pad\n  power: 90 W   # CHECK: an example\n"},
		{"a cell of its own, like the one there", sketch, "bank.own", nil, "bank.own",
			"cell: \"nmc532\"   # quoted\n", "cell: \"own\"   # quoted\n  own:\n    like: nmc532\n"},
		{"in braces there is no room for a mark", small + "prices: [{item: a, price: 1 EUR}]\n", "prices", nil, "prices.module",
			"1 EUR}]", "1 EUR}, {item: module, price: 480 EUR}]"},
		{"a cable to what has none", small + "heater: {name: pad, power: 9 W}\ncables:\n  - {name: a, from: bank, to: bus, length: 1 m, size: 16 mm2}\n", "cables", nil, "cables.bus to pad",
			"16 mm2}\n", "16 mm2}\n  - name: bus to pad\n    from: bus   # CHECK: an example\n    to: pad   # CHECK: an example\n    length: 1.2 m   # CHECK: an example\n    size: 50 mm2   # CHECK: an example\n"},
		{"a fuse for the cable that has none", small + "protection:\n  fuses:\n    - {name: main, guards: bank, rating: 100 A}\ncables:\n  - {name: long, from: bank, to: bus, length: 1 m, size: 16 mm2}\n  - {name: pad run, from: bus, to: pad, length: 1 m, size: 16 mm2}\nheater: {name: pad, power: 9 W}\n", "protection.fuses", map[string]string{"rating": "5 A"}, "protection.fuses.pad run fuse",
			"rating: 100 A}\n", "rating: 100 A}\n    - name: pad run fuse\n      guards: pad run   # CHECK: an example\n      rating: 5 A\n"},
		{"a point in the widest gap", "about: {name: O}\nbank: {cell: own, series: 4, cell_capacity: 5 Ah, own: {like: lfp, curve: [{soc: 0 %, voltage: 3 V}, {soc: 20 %, voltage: 3.2 V}, {soc: 100 %, voltage: 3.6 V}]}}\n",
			"bank.own.curve", nil, "bank.own.curve.2", "3.2 V}", "3.2 V}, {soc: 60 %, voltage: 3.400 V}"},
	} {
		g, at, err := mustParse(t, c.text).Add(c.path, c.values)
		if err != nil {
			t.Errorf("%s: %v", c.about, err)
			continue
		}
		if want := edited(t, c.text, c.old, c.new); string(g.Text) != want || at != c.at {
			t.Errorf("%s: at %s, got\n%s\nwant\n%s", c.about, at, g.Text, want)
		}
	}
}

func TestAddReadingsOfEveryGroup(t *testing.T) {
	f := mustParse(t, string(example(t, "curlew-draft")))
	g, path, err := f.Add("bank.measured.groups", nil)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(g.Rig.Bank.Measured.Groups); n != 12 || path != "bank.measured.groups" {
		t.Errorf("%d readings at %s", n, path)
	}
	if first := g.Rig.Bank.Measured.Groups[0].Capacity; first == nil || *first != 168 {
		t.Errorf("capacity %v, want the bank's", first)
	}
	if _, _, err := g.Add("bank.measured.groups", nil); err == nil {
		t.Error("a thirteenth reading passed")
	}
}

func TestAddRefuses(t *testing.T) {
	f := mustParse(t, small+"protection:\n")
	for path, want := range map[string]string{
		"bank.series": "nothing can be added here", "nowhere": "there is no key", "": "empty part",
		"protection.relays": "nothing named", "charge.nobody.panels": "there is no charge", "about": "there already",
	} {
		if _, _, err := f.Add(path, nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", path, err, want)
		}
	}
	if _, _, err := f.Add("charge", map[string]string{"name": "a.b"}); err == nil {
		t.Error("a name with a dot passed")
	}
	for _, a := range FormOf(f).Additions {
		if lacks := a.Path == "protection.relays"; (a.Lacks != "") != lacks {
			t.Errorf("%s lacks %q", a.Path, a.Lacks)
		}
	}
}

func TestRemoveTakesItsCablesAlong(t *testing.T) {
	f := mustParse(t, string(example(t, "curlew-draft")))
	items := map[string]Item{}
	for _, it := range FormOf(f).Items {
		items[it.Path] = it
	}
	solar := items["charge.roof solar"]
	if !slices.Equal(solar.With, []string{"cables.bus to solar"}) || len(solar.HeldBy) > 0 {
		t.Fatalf("%+v", solar)
	}
	if _, err := f.Remove(solar.Path); err == nil {
		t.Error("a charger went and left its cable behind")
	}
	g, err := f.Remove(append(solar.With, solar.Path)...)
	if err != nil || len(g.Rig.Charge) != len(f.Rig.Charge)-1 || len(g.Rig.Cables) != len(f.Rig.Cables)-1 {
		t.Errorf("%v", err)
	}
	if held := items["inverters.mains inverter"].HeldBy; !slices.Contains(held, "loads.glue pot.on") || slices.Contains(held, "cables.bus to inverter.to") {
		t.Errorf("held by %q", held)
	}
	if held := items["protection.contactors.main contactor"].HeldBy; !slices.Equal(held, []string{"protection.relays.guard relay.drives"}) {
		t.Errorf("held by %q", held)
	}
}

func TestRemoveOwnCellLeavesItsLikeness(t *testing.T) {
	f := mustParse(t, wholeTexts(t)["own"])
	g, err := f.Remove("bank.own")
	if err != nil || g.Rig.Bank.Cell != "nmc532" || g.Rig.Bank.Own != nil {
		t.Errorf("%v %+v", err, g)
	}
	if g, err = f.Remove("bank.own.curve"); err != nil || len(g.Rig.Bank.Own.Curve) != 0 {
		t.Errorf("the whole curve: %v", err)
	}
}

func TestCopy(t *testing.T) {
	f := mustParse(t, string(example(t, "curlew-draft")))
	g, path, err := f.Copy("charge.roof solar")
	if err != nil || path != "charge.roof solar 2" {
		t.Fatalf("%s %v", path, err)
	}
	one, two := g.Rig.Charge[0], g.Rig.Charge[1]
	two.Name = one.Name
	if a, b := fmt.Sprintf("%+v", one.Settings), fmt.Sprintf("%+v", two.Settings); a != b || len(two.Panels) != 2 || two.Panels[1].Name != "right side" {
		t.Errorf("settings %s, of the copy %s", a, b)
	}
	contains := func(want string) {
		t.Helper()
		if !strings.Contains(string(g.Text), want) {
			t.Errorf("no %q in\n%s", want, g.Text)
		}
	}
	if g, path, err = f.Copy("loads.lights"); err != nil || path != "loads.lights 2" {
		t.Fatalf("%s %v", path, err)
	}
	contains("when: evening}\n  - {name: lights 2, on: 12 V converter,")
	if g, path, err = f.Copy("route.Meseta"); err != nil || path != "route.Meseta 2" {
		t.Fatalf("%s %v", path, err)
	}
	contains("- name: Meseta 2\n    from: 2027-11-01\n    to: 2027-12-19\n") // 48 days, as the first
	if g, path, err = f.Copy("prices.salvaged module"); err != nil || path != "prices.salvaged module 2" {
		t.Fatalf("%s %v", path, err)
	}
	contains("- {item: salvaged module 2, price: 620 EUR, quantity: 2}")
	for _, wrong := range []string{"charge", "heater", "bank.series", "charge.nobody"} {
		if _, _, err := f.Copy(wrong); err == nil {
			t.Errorf("%s was copied", wrong)
		}
	}
}

func TestEditLetsReferencesFollowAndDropsMarks(t *testing.T) {
	text := strings.Replace(string(example(t, "curlew-draft")), "    power: 3000 W\n", "    power: 3000 W   # CHECK: on its label\n", 1)
	f := mustParse(t, text)
	if field := fieldAt(t, Fields(f), "inverters.mains inverter.power"); !field.Open || field.Remark != "CHECK: on its label" {
		t.Errorf("%+v", field)
	}
	g, err := f.Edit(Change{"inverters.mains inverter.name", "big inverter"}, Change{"inverters.mains inverter.power", "2500 W"})
	if err != nil {
		t.Fatal(err)
	}
	want := strings.ReplaceAll(text, "mains inverter", "big inverter")
	want = strings.Replace(want, "power: 3000 W   # CHECK: on its label", "power: 2500 W", 1)
	if string(g.Text) != want {
		t.Error(firstDifference(want, string(g.Text)))
	}
	if g, err = f.Checked("inverters.mains inverter.power"); err != nil || string(g.Text) != strings.Replace(text, "   # CHECK: on its label", "", 1) {
		t.Errorf("checked: %v", err)
	}
	if g, err = f.Edit(Change{"bank.cell", "own"}); err != nil || g.Rig.Bank.Own == nil || g.Rig.Bank.Own.Like != "nmc532" {
		t.Errorf("own cell: %v", err)
	}
	for _, wrong := range []Change{{"inverters.mains inverter.name", "bank"}, {"inverters.mains inverter.name", ""}, {"inverters.mains inverter.name", "roof solar"}, {"no.name", "x"}} {
		if _, err := f.Edit(wrong); err == nil {
			t.Errorf("%v passed", wrong)
		}
	}
}

// TestItemsComeAndGo adds, copies, renames and removes at random: the file stays a
// rig, and no comment of a person gets lost but those of what was removed.
func TestItemsComeAndGo(t *testing.T) {
	start := mustParse(t, string(example(t, "curlew-draft")))
	rapid.Check(t, func(t *rapid.T) {
		f := start
		removed := false
		for range rapid.IntRange(1, 3).Draw(t, "steps") {
			g, gone := anyStep(t, f)
			removed = removed || gone
			if _, err := Parse("rig.yaml", g.Text); err != nil {
				t.Fatalf("no rig any more: %v", err)
			}
			f = g
		}
		if !removed {
			kept := slices.DeleteFunc(slices.Clone(f.tree.comments), func(c string) bool { return strings.Contains(c, checkMark) })
			if !slices.Equal(kept, start.tree.comments) {
				t.Fatal("a comment got lost")
			}
		}
	})
}

func anyStep(t *rapid.T, f *File) (g *File, removed bool) {
	form := FormOf(f)
	var err error
	switch rapid.IntRange(0, 3).Draw(t, "what") {
	case 0:
		a := rapid.SampledFrom(form.Additions).Draw(t, "addition")
		g, _, err = f.Add(a.Path, nil)
		if err != nil && a.Lacks == "" && !strings.Contains(err.Error(), "curve") {
			t.Fatalf("add %s: %v", a.Path, err)
		}
	case 1:
		it := rapid.SampledFrom(form.Items).Draw(t, "item")
		g, _, err = f.Copy(it.Path)
		if (err == nil) != it.Copies {
			t.Fatalf("copy %s: %v", it.Path, err)
		}
	case 2:
		it := rapid.SampledFrom(form.Items).Draw(t, "item")
		g, err = f.Remove(append(slices.Clone(it.With), it.Path)...)
		removed = err == nil
		if err != nil && len(it.HeldBy) == 0 && !strings.Contains(err.Error(), "curve") {
			t.Fatalf("remove %s: %v", it.Path, err)
		}
	default:
		all := f.things()
		to := rapid.SampledFrom(all).Draw(t, "thing")
		g, err = f.Rename(outer(to.at.path), rapid.StringMatching(`[a-z]{3,8} [a-z]{3}`).Draw(t, "name"))
	}
	if err != nil {
		return f, false
	}
	return g, removed
}
