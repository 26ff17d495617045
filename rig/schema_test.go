package rig

import (
	"bytes"
	"strconv"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"ampstead/examples"
	"ampstead/internal/golden"
)

func TestSchemaInDocs(t *testing.T) { golden.Check(t, "../../docs/rig.schema.json", Schema()) }

func TestManualInDocs(t *testing.T) { golden.Check(t, "../../docs/rig-file.md", Manual()) }

func compiledSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("rig.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("rig.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON reads a tree as an editor does: whole numbers are numbers.
func asJSON(n *node) any {
	switch n.kind {
	case mapping:
		all := map[string]any{}
		for _, e := range n.entries {
			all[e.key.text] = asJSON(e.value)
		}
		return all
	case list:
		all := []any{}
		for _, it := range n.items {
			all = append(all, asJSON(it.value))
		}
		return all
	case scalar:
		if v, err := strconv.Atoi(n.text); err == nil && n.quote == plain {
			return v
		}
		return n.text
	}
	return nil
}

func TestSchemaTakesWhatParseTakes(t *testing.T) {
	s := compiledSchema(t)
	texts := map[string]string{"small": small, "sketch": sketch}
	for _, name := range examples.Names() {
		texts[name] = string(example(t, name))
	}
	for name, text := range texts {
		if err := s.Validate(asJSON(mustParse(t, text).tree.root)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestSchemaRefusesWhatItCan has one file for each rule of form.
func TestSchemaRefusesWhatItCan(t *testing.T) {
	s := compiledSchema(t)
	for _, text := range []string{
		"about: {name: x}\n",
		small + "sauna: yes\n",
		edited(t, small, "94 Ah", "94"),
		edited(t, small, "94 Ah", "94 V"),
		edited(t, small, "series: 12", "series: dozen"),
		edited(t, small, "series: 12", "series: 1200"),
		edited(t, small, "name: Test", "name: Test, units: imperial"),
		small + "charge: {name: x}\n",
		small + "charge: [{name: x, kind: mains, limit: 9 A, settings: {float: never}}]\n",
		small + "cables: [{name: x, from: bank, to: bus, length: 1 m, size: 50 m}]\n",
		small + "prices: [{item: x, price: 9}]\n",
		small + "route: [{name: x, from: May, to: 2026-05-01}]\n",
	} {
		tree, p := grow("rig.yaml", []byte(text))
		if p != nil {
			t.Fatal(p)
		}
		if s.Validate(asJSON(tree.root)) == nil {
			t.Errorf("the schema takes %s", text)
		}
		if _, err := Parse("rig.yaml", []byte(text)); err == nil {
			t.Errorf("Parse takes %s", text)
		}
	}
}
