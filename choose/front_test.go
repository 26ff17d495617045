package choose

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
	"ampstead/life"
)

// drawPoints makes designs of a few coarse values, so that many are equal in some
// goals, some of them beyond the constraints.
func drawPoints(t *rapid.T) []*point {
	list := make([]*point, rapid.IntRange(1, 40).Draw(t, "n"))
	for k := range list {
		v := func(name string) float64 { return float64(rapid.IntRange(0, 5).Draw(t, name)) }
		p := &point{genes: genes{k}, price: v("price"), kg: v("kg"), outcome: outcome{Hours: v("hours"), Years: life.Band{Middle: v("years")}}}
		p.over = max(0, v("over")-3)
		list[k] = p
	}
	return list
}

// better is domination said another way: nowhere worse, somewhere better.
func better(a, b *point) bool {
	worse := a.price > b.price || a.kg > b.kg || a.Hours > b.Hours || a.Years.Middle < b.Years.Middle
	equal := a.price == b.price && a.kg == b.kg && a.Hours == b.Hours && a.Years.Middle == b.Years.Middle
	return !worse && !equal
}

// The front holds exactly the designs within the constraints that none of these
// betters.
func TestFrontIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := drawPoints(t)
		on := map[*point]bool{}
		for _, p := range front(list) {
			on[p] = true
		}
		for _, p := range list {
			want := p.over == 0
			for _, o := range list {
				want = want && !(o.over == 0 && better(o, p))
			}
			if on[p] != want {
				t.Fatalf("%+v is on the front: %t, want %t", p, on[p], want)
			}
		}
	})
}

// What is shown of a front is part of it, no more than asked for, and keeps the
// best in every goal.
func TestThinKeepsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := front(drawPoints(t))
		most := rapid.IntRange(goals, 12).Draw(t, "most")
		few := thin(all, most)
		if len(few) != min(len(all), most) {
			t.Fatalf("%d of %d are shown, want at most %d", len(few), len(all), most)
		}
		if len(all) == 0 {
			return
		}
		for k := range goals {
			a, b := all[bestIn(all, k)].goals()[k], few[bestIn(few, k)].goals()[k]
			if a != b {
				t.Fatalf("the best in goal %d is %g, of those shown %g", k, a, b)
			}
		}
		seen := map[*point]bool{}
		for _, p := range few {
			if seen[p] {
				t.Fatal("a design is shown twice")
			}
			seen[p] = true
		}
	})
}

// Points on a line are thinned to evenly spaced ones.
func TestThinSpreads(t *testing.T) {
	var list []*point
	for k := range 101 {
		x := float64(k)
		list = append(list, &point{price: x, kg: 100 - x, outcome: outcome{Hours: 100 - x, Years: life.Band{Middle: x}}})
	}
	few := thin(list, 5)
	for k, want := range []float64{0, 25, 50, 75, 100} {
		if math.Abs(few[k].price-want) > 1 {
			t.Errorf("point %d of five stands at %g, want about %g", k, few[k].price, want)
		}
	}
}

// What is said of a design holds among those shown.
func TestWhyIsTrue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := front(drawPoints(t))
		for _, p := range list {
			for k := range goals {
				for set := range 1 << goals {
					n := bestAmong(p, list, k, set)
					if n == 0 {
						continue
					}
					count := 0
					for _, o := range list {
						if asGood(o.goals(), p.goals(), set) {
							count++
							if o.goals()[k] < p.goals()[k] {
								t.Fatal("called the best, and is not")
							}
						}
					}
					if count != n {
						t.Fatalf("best of %d, said %d", count, n)
					}
				}
			}
		}
	})
}

func TestWhyInWords(t *testing.T) {
	s := &searcher{space: &space{rig: load(t, "curlew")}, tariff: &tariff{currency: "EUR"}}
	at := func(price, kg, hours, years float64) *point {
		return &point{price: price, kg: kg, outcome: outcome{Hours: hours, Years: life.Band{Middle: years}}}
	}
	list := []*point{at(100, 50, 300, 5), at(200, 40, 90, 9), at(300, 60, 0, 8), at(320, 70, 0, 12)}
	for k, want := range []string{"cheapest", "lightest", "fewest hours short", "longest life"} {
		if got := s.why(list[k], list); got != want {
			t.Errorf("design %d is called %q, want %q", k, got, want)
		}
	}
	between := at(250, 55, 50, 10)
	list = append(list, between)
	if got, want := s.why(between, list), "cheapest of the 3 with at most 50 hours short"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if fmt.Sprint(limitsText(Options{Budget: 2000, Mass: 60, ShortHours: 20, Life: 8}, "EUR")) !=
		"[at most 2000 EUR at most 60 kg at most 20 hours short a year at least 8 years of life]" {
		t.Error("constraints read wrong")
	}
}
