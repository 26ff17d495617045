package rig

import (
	"strings"
	"testing"
)

// addItem adds without the marks at the examples.
func (f *File) addItem(path string, values map[string]string) (*File, error) {
	g, _, err := f.Add(path, values)
	if err != nil {
		return nil, err
	}
	return g.sameWith([]byte(strings.ReplaceAll(string(g.Text), "   # "+exampleMark, ""))), nil
}

func TestAddItem(t *testing.T) {
	for _, c := range []struct {
		about, path string
		values      map[string]string
		old, new    string
	}{
		{"behind the last item", "charge", map[string]string{"name": "engine", "kind": "alternator", "tolerance": "1 %"},
			"{float: none}}\n", "{float: none}}\n  - name: engine\n    kind: alternator\n    limit: 60 A\n    tolerance: 1 %\n"},
		{"with its example's name, counted on", "converters", nil,
			"60 V\n", "60 V\n- name: 12 V converter 2\n  power: 360 W\n  input_low: 34 V\n  input_high: 72 V\n"},
		{"in a new list", "loads", nil,
			"60 V\n", "60 V\nloads:\n  - name: nipping press\n    on: bank\n    power: 800 W\n"},
		{"in a list inside a block", "protection.relays", nil,
			"bank}\n", "bank}\n  relays:\n    - name: guard relay\n      drives: main contactor\n"},
		{"in a list inside a list", "charge.roof solar.panels", map[string]string{"name": "left"},
			"# its plate\n", "# its plate\n    panels:\n      - name: left\n        series: 2\n        power: 330 W\n        open_voltage: 40.5 V\n"},
		{"a block", "bank.box", nil,
			"94 Ah\n", "94 Ah\n  box:\n    length: 0.9 m\n    width: 0.4 m\n    height: 0.3 m\n"},
	} {
		g, err := mustParse(t, sketch).addItem(c.path, c.values)
		if err != nil {
			t.Errorf("%s: %v", c.about, err)
			continue
		}
		if want := edited(t, sketch, c.old, c.new); string(g.Text) != want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.about, g.Text, want)
		}
	}
}

func TestAddItemToFlowAndEmptyLists(t *testing.T) {
	item := map[string]string{"item": "module, used", "price": "9 EUR"}
	for _, c := range []struct{ before, after string }{
		{"prices: []\n", "prices: [{item: 'module, used', price: 9 EUR}]\n"},
		{"prices: [{item: a, price: 1 EUR}]\n", "prices: [{item: a, price: 1 EUR}, {item: 'module, used', price: 9 EUR}]\n"},
		{"prices:   # none\n", "prices:   # none\n  - item: module, used\n    price: 9 EUR\n"},
		{"prices: ~\n", "prices: [{item: 'module, used', price: 9 EUR}]\n"},
		{"", "prices:\n  - item: module, used\n    price: 9 EUR\n"},
	} {
		g, err := mustParse(t, least+c.before).addItem("prices", item)
		if err != nil {
			t.Errorf("%q: %v", c.before, err)
		} else if string(g.Text) != least+c.after {
			t.Errorf("%q: got %q", c.before, g.Text)
		}
	}
}

func TestAddStayFollowsTheLast(t *testing.T) {
	f := mustParse(t, string(example(t, "curlew-draft")))
	g, err := f.addItem("route", map[string]string{"name": "Home"})
	if err != nil {
		t.Fatal(err)
	}
	last := f.Rig.Route[len(f.Rig.Route)-1].To
	if stay := g.Rig.Route[len(g.Rig.Route)-1]; stay.Name != "Home" || !stay.From.After(last.Time) {
		t.Errorf("stay = %+v", stay)
	}
}

func TestRemoveItem(t *testing.T) {
	for _, c := range []struct{ about, path, from, to string }{
		{"a block item with its comments", "charge.roof solar", "  - name: roof", "  - {name: mains"},
		{"an item of braces", "charge.mains charger", "  - {name: mains", "converters"},
		{"the only item, and its list", "converters.0", "converters", "protection"},
		{"the only item of the only list", "protection.contactors.main contactor", "protection", "heater"},
	} {
		g, err := mustParse(t, sketch).Remove(c.path)
		if err != nil {
			t.Errorf("%s: %v", c.about, err)
			continue
		}
		want := sketch[:strings.Index(sketch, c.from)] + sketch[strings.Index(sketch, c.to):]
		if string(g.Text) != want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.about, g.Text, want)
		}
	}
	f := mustParse(t, least+"prices: [{item: a, price: 1 EUR}, {item: b, price: 2 EUR}, {item: c, price: 3 EUR}]\n")
	for path, want := range map[string]string{
		"prices.a": "prices: [{item: b, price: 2 EUR}, {item: c, price: 3 EUR}]\n",
		"prices.2": "prices: [{item: a, price: 1 EUR}, {item: b, price: 2 EUR}]\n",
	} {
		if g, err := f.Remove(path); err != nil || string(g.Text) != least+want {
			t.Errorf("%s: %v %s", path, err, g.Text)
		}
	}
}

func TestItemsRefuse(t *testing.T) {
	f := mustParse(t, string(example(t, "curlew-draft")))
	refused := func(what string, err error, want string) {
		t.Helper()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", what, err, want)
		}
	}
	_, err := f.addItem("bank.series", nil)
	refused("a value", err, "nothing can be added here")
	_, err = f.addItem("bank", nil)
	refused("a block that is there", err, "this is there already")
	_, err = f.addItem("loads", map[string]string{"colour": "red"})
	refused("an unknown key", err, `there is no key "colour" here`)
	_, err = f.Remove("converters.12 V converter")
	refused("a named thing", err, `nothing named "12 V converter" is there to feed it`)
	_, err = f.Remove("bank.series")
	refused("a value", err, "only an item of a list, a list or a block can be removed")
	_, err = f.Remove("bank")
	refused("a needed block", err, "bank: is missing")
}
