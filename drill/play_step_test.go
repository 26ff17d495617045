package drill

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Half as long steps change no verdict, over a sample of faults and of pairs, and no margin under a tenth of a volt by more than two millivolts.
func TestHalfSteps(t *testing.T) {
	for name, pairs := range map[string]int{"curlew": 1, "dipper": 0} {
		p := prepared(t, name, nil)
		half := *p
		half.finer = 2
		for scene := range p.scenes {
			for _, faults := range someFaults(p, pairs) {
				halved(t, p, &half, scene, faults)
			}
		}
	}
}

func halved(t *testing.T, p, half *play, scene int, faults []int) {
	t.Helper()
	a, err := p.run(scene, faults...)
	if err != nil {
		t.Fatal(err)
	}
	b, err := half.run(scene, faults...)
	if err != nil {
		t.Fatal(err)
	}
	checkOutcome(t, p, a)
	if a.Outcome != b.Outcome || a.Harm != b.Harm || a.FirstLayer != b.FirstLayer {
		t.Errorf("%s, %s, %s: %s %s by %q (%.1f mV), with half steps %s %s by %q (%.1f mV)", a.Scene, a.Fault, a.Second,
			a.Outcome, a.Harm, a.FirstLayer, a.MarginMV, b.Outcome, b.Harm, b.FirstLayer, b.MarginMV)
	}
	if a.Outcome != Harm && a.MarginMV < 100 && math.Abs(a.MarginMV-b.MarginMV) > 2 {
		t.Errorf("%s, %s, %s: margin %.2f mV, with half steps %.2f mV", a.Scene, a.Fault, a.Second, a.MarginMV, b.MarginMV)
	}
}

// someFaults is no fault, every third one, and as many pairs of each with another.
func someFaults(p *play, pairs int) [][]int {
	list := [][]int{nil}
	draw := rand.New(rand.NewPCG(1, 2))
	for k := 0; k < len(p.faults); k += 3 {
		list = append(list, []int{k})
		for range pairs {
			if other := draw.IntN(len(p.faults)); other != k {
				list = append(list, []int{min(k, other), max(k, other)})
			}
		}
	}
	return list
}

func TestStepsAreKeptWithinTheScene(t *testing.T) {
	p := prepared(t, "curlew", nil)
	for scene := range p.scenes {
		x := turnOf(t, p, p.scenes[scene].Name)
		if end := x.e.Time(); math.Abs(end-3600*p.scenes[scene].Hours) > 1e-3 {
			t.Errorf("%s ends at %g s", p.scenes[scene].Name, end)
		}
		if x.steps > 2000 {
			t.Errorf("%s takes %d steps", p.scenes[scene].Name, x.steps)
		}
	}
}
