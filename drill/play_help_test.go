package drill

import (
	"testing"

	"ampstead/internal/example"
	"ampstead/rig"
)

// readRig reads an example.
func readRig(t testing.TB, name string) *rig.Rig {
	t.Helper()
	return example.File(t, name).Rig
}

// prepared makes an example ready, changed by change unless that is nil.
func prepared(t testing.TB, name string, change func(*rig.Rig)) *play {
	t.Helper()
	r := readRig(t, name)
	if change != nil {
		change(r)
	}
	p, err := prepare(r)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// turnOf plays a scene with faults, all by name, and returns it for a closer look.
func turnOf(t testing.TB, p *play, scene string, faults ...string) *turn {
	t.Helper()
	x, err := p.begin(sceneNo(t, p, scene), faultNos(t, p, faults...))
	if err != nil {
		t.Fatal(err)
	}
	x.play(nil)
	return x
}

func runOf(t testing.TB, p *play, scene string, faults ...string) Outcome {
	t.Helper()
	return turnOf(t, p, scene, faults...).outcome()
}

func sceneNo(t testing.TB, p *play, name string) int {
	t.Helper()
	k := p.scene(name)
	if k < 0 {
		t.Fatalf("no scene %q", name)
	}
	return k
}

func faultNos(t testing.TB, p *play, names ...string) []int {
	t.Helper()
	var list []int
	for _, name := range names {
		k := p.fault(name)
		if k < 0 {
			t.Fatalf("no fault %q", name)
		}
		list = append(list, k)
	}
	return list
}
