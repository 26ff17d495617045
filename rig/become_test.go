package rig_test

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"ampstead/examples"
	q "ampstead/quantity"
	"ampstead/rig"
)

func example(t *testing.T, name string) *rig.File {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	f, err := rig.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// another is the rig again, its parts its own.
func another(t *testing.T, name string) *rig.Rig { return example(t, name).Rig }

func TestDiffOfARigAndItself(t *testing.T) {
	for _, name := range examples.Names() {
		if d := rig.Diff(another(t, name), another(t, name)); len(d) > 0 {
			t.Errorf("%s differs from itself: %v", name, d)
		}
	}
}

// Each example becomes itself, and one of them another, in other units.
func TestRigsBecomeOthers(t *testing.T) {
	into := map[string][]string{"curlew": {"dipper"}}
	for _, a := range examples.Names() {
		for _, b := range append(into[a], a) {
			f, to := example(t, a), another(t, b)
			g, err := f.Become(to)
			if err != nil {
				t.Errorf("%s to %s: %v", a, b, err)
				continue
			}
			if left := rig.Diff(g.Rig, to); len(left) > 0 {
				t.Errorf("%s to %s: still differs in %v", a, b, left)
			}
			if a == b && !bytes.Equal(g.Text, f.Text) {
				t.Errorf("%s becoming itself was written anew", a)
			}
		}
	}
}

func TestBecomeKeepsComments(t *testing.T) {
	f, to := example(t, "curlew"), another(t, "curlew")
	to.Bank.Strings = 3
	thick, odd := q.Length(0.05), q.Mass(77.123456789)
	to.Bank.Box.Insulation, to.Bank.Mass = &thick, &odd
	to.Bank.Measured = nil
	g, err := f.Become(to)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(g.Rig.Bank, to.Bank) {
		t.Errorf("the bank reads back as %+v", g.Rig.Bank)
	}
	for _, want := range []string{"strings: 3                    # two salvaged modules side by side", "insulation: 50 mm", "mass: 77.123456789 kg", "# mended: the old strip fuse"} {
		if !strings.Contains(string(g.Text), want) {
			t.Errorf("the file does not say %q", want)
		}
	}
}

func TestBecomeRefusesWhatIsNoRig(t *testing.T) {
	f, to := example(t, "curlew"), another(t, "curlew")
	to.Heater = nil // the pad's switch, cable and fuse still name it
	if _, err := f.Become(to); err == nil {
		t.Error("a rig whose cables lead to a heater that is gone was written")
	}
}
