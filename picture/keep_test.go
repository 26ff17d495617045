package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/golden"
	"ampstead/internal/keepsample"
	"ampstead/keep"
)

// kept is an invented logbook of n visits to some groups.
func kept(groups, n int) *keep.Result { return keepsample.Result(groups, n) }

func keepDrawings(res *keep.Result, o Options) (canvases []*canvas, heights []float64) {
	add := func(c *canvas, h float64) { canvases, heights = append(canvases, c), append(heights, h) }
	add(drift(res, o))
	add(bleed(res, o))
	add(capacityTrend(res, o))
	add(yearsAhead(res, o))
	return canvases, heights
}

func keepTexts(res *keep.Result, o Options) []string {
	return []string{Drift(res, o), Bleed(res, o), CapacityTrend(res, o), YearsAhead(res, o)}
}

var keepNames = []string{"drift", "bleed", "capacity", "ahead"}

func TestKeepGolden(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for i, svg := range keepTexts(kept(12, 30), Options{Width: width}) {
			golden.Check(t, fmt.Sprintf("keep-%s-%d.svg", keepNames[i], width), []byte(svg))
		}
	}
}

func TestKeepIsLegible(t *testing.T) {
	for _, width := range []int{320, Phone, 600, 859, 860, Desk, 1600} {
		for _, groups := range []int{1, 2, 6, 14, 40, 96} {
			for _, visits := range []int{0, 1, 2, 9, 260} {
				canvases, heights := keepDrawings(kept(groups, visits), Options{Width: width})
				for i, c := range canvases {
					if said := overlapping(c, heights[i]); said != "" {
						t.Errorf("%s of %d groups, %d visits: %s", c.id, groups, visits, said)
					}
				}
			}
		}
	}
}

func TestKeepMarkup(t *testing.T) {
	for _, res := range []*keep.Result{kept(14, 30), kept(14, 260), {}} {
		for _, width := range []int{Desk, Phone} {
			for _, svg := range keepTexts(res, Options{Width: width, Standalone: true}) {
				checkXML(t, svg)
				if !strings.Contains(svg, "xmlns=") {
					t.Error("not a file of its own")
				}
			}
			for _, svg := range keepTexts(res, Options{Width: width}) {
				if found := colour.FindString(svg); found != "" {
					t.Errorf("colour or style %q in the drawing", found)
				}
				checkClasses(t, svg)
				if n := len(svg); n > 60<<10 {
					t.Errorf("%d bytes", n)
				}
			}
		}
	}
}

// What is drawn must say what was found.
func TestKeepSaysItsNumbers(t *testing.T) {
	for i, want := range [][]string{{"group 4 drifts", "leaks 1.5 mA", "Apart, mV", "2026"}, {"20.6 h with the balancer of the rig", "brings 85 Wh", "bleed, down to the lowest"},
		{"165.8 ± 0.9 Ah", "when new 188", "−2.1 ± 0.8 a year"}, {"January 2034", "7 (4.6 to 9.2)"}} {
		svg := keepTexts(kept(12, 30), Options{})[i]
		for _, w := range want {
			if !strings.Contains(svg, w) {
				t.Errorf("%s does not say %q", keepNames[i], w)
			}
		}
	}
	res := kept(12, 30)
	res.Groups[3].Drifts = false
	if svg := Drift(res, Options{}); !strings.Contains(svg, "no group drifts that these readings could tell") || strings.Contains(svg, "strong ghost") {
		t.Error("no group drifts, and yet one is drawn so")
	}
}

// Readings of no weight are not drawn.
func TestSetAsideReadingsAreNotDrawn(t *testing.T) {
	res := kept(4, 10)
	res.Trend[4].Weight, res.Trend[4].MV = 0, 9000
	if got := len(trendOf(res)); got != 9 {
		t.Errorf("%d points", got)
	}
}

func anyKept(t *rapid.T) *keep.Result {
	num := func(name string) float64 {
		return rapid.SampledFrom([]float64{0, 1, -3, 4.1, 1e6, -1e7, math.NaN(), math.Inf(1), 0.0012}).Draw(t, name)
	}
	res := kept(rapid.IntRange(0, 20).Draw(t, "groups"), rapid.IntRange(0, 40).Draw(t, "visits"))
	for i := range res.Trend {
		p := &res.Trend[i]
		if rapid.IntRange(0, 5).Draw(t, "odd") == 0 {
			p.MV = num("mV")
			p.Taken = rapid.SampledFrom([]string{"", "2031-05-06", "soon", "0001-01-01T00:00:00Z", p.Taken}).Draw(t, "when")
			p.Groups = p.Groups[:rapid.IntRange(0, len(p.Groups)).Draw(t, "groups read")]
			if len(p.Groups) > 0 {
				p.Groups[0] = num("offset")
			}
		}
	}
	for i := range res.Groups {
		res.Groups[i].Drifts, res.Groups[i].DriftMA = rapid.Bool().Draw(t, "drifts"), num("drift")
		res.Balance.BleedAh[i] = num("bleed")
	}
	for i := range res.Capacity.Points {
		res.Capacity.Points[i].Ah, res.Capacity.Points[i].Err = num("Ah"), num("error")
	}
	res.Capacity.PerYear, res.Capacity.Share = num("per year"), num("share")
	res.Life.ByFunction.Low, res.Life.ByCapacity.High = num("low"), num("high")
	return res
}

func TestKeepNeverOverlaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		canvases, heights := keepDrawings(anyKept(t), Options{Width: rapid.IntRange(300, 1400).Draw(t, "width")})
		for i, c := range canvases {
			if said := overlapping(c, heights[i]); said != "" {
				t.Fatalf("%s: %s", c.id, said)
			}
		}
	})
}

func BenchmarkDrift(b *testing.B) {
	res := kept(14, 260)
	for b.Loop() {
		Drift(res, Options{})
	}
}
