package choose

import (
	"testing"

	"ampstead/internal/example"
	"ampstead/rig"
)

func parsed(t testing.TB, name string) *rig.File {
	t.Helper()
	return example.File(t, name)
}

func load(t testing.TB, name string) *rig.Rig { return parsed(t, name).Rig }

// changed is an example with one value set.
func changed(t testing.TB, name, path, value string) *rig.Rig {
	t.Helper()
	f, err := parsed(t, name).Set(path, value)
	if err != nil {
		t.Fatal(err)
	}
	return f.Rig
}

func candidate(t testing.TB, r *rig.Rig, name string) *rig.Candidate {
	t.Helper()
	for k := range r.Candidates {
		if r.Candidates[k].Name == name {
			return &r.Candidates[k]
		}
	}
	t.Fatalf("no candidate %q", name)
	return nil
}

func prepared(t testing.TB, r *rig.Rig, c *rig.Candidate) *variant {
	t.Helper()
	v, err := variantOf(r, c)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
