package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/golden"
	"ampstead/prove"
)

// proven is the proof of an invented module of some groups: the first one behind
// by its charge, the fourth worn as well, discharged at 20 A between two rests.
func proven(groups int) *prove.Result {
	res := &prove.Result{Cell: "nmc532", Series: groups, Low: 3, High: 4.2, CapacityAh: 54.9, CapacityErr: 0.2, Limiting: 1, ChargeLimit: 3}
	res.Cycles = []prove.Cycle{{Number: 1, Kind: "discharge", From: 7200, To: 17080, ChargeAh: 54.9, Full: true}}
	res.Segments = []prove.Segment{{Kind: "rest", From: 0, To: 7200}, {Kind: "discharge", From: 7200, To: 17080, MeanA: -20, ChargeAh: -54.9}}
	res.Rests = []prove.Rest{{From: 0, Hours: 2, Bound: true}, {From: 17080, Hours: 1, Settled: true}}
	for k := range groups {
		g := prove.Group{Number: k + 1, CapacityAh: 62 - 0.3*float64(k%5), CapacityErr: 0.6, Ohm: 1.23e-3 + 4e-5*float64(k%4), OhmErr: 5e-5, OffsetErr: 0.5, LostErr: 0.7}
		switch k {
		case 0:
			g.Recoverable, g.LostAh, g.LowEnd = 3.1, 3.2, true
		case 3:
			g.Recoverable, g.LostAh, g.Ohm = 2.4, 0.9, 1.9e-3
		}
		res.Groups = append(res.Groups, g)
		res.Chart.Groups = append(res.Chart.Groups, nil)
	}
	for t := 0.0; t <= 20680; t += 40 {
		addInstant(res, t)
	}
	return res
}

func addInstant(res *prove.Result, t float64) {
	drawn := math.Max(0, math.Min(54.9, (t-7200)/3600*20))
	ch := &res.Chart
	sum := 0.0
	for k := range res.Groups {
		g := &res.Groups[k]
		left := 1 - (drawn+0.2*float64(k%3)+g.Recoverable)/(61.5-g.LostAh)
		v := 3 + 1.17*math.Pow(math.Max(0, left), 0.45)
		switch {
		case t < 7200:
			v += (0.012 + 0.001*float64(k%3)) * math.Exp(-t/1500)
		case t < 17080:
			v -= 20 * g.Ohm
		default:
			v += 0.12 * (1 - math.Exp(-(t-17080)/700))
		}
		ch.Groups[k] = append(ch.Groups[k], v)
		sum += v
	}
	amps := 0.0
	if t >= 7200 && t < 17080 {
		amps = -20
	}
	ch.Time, ch.Volts, ch.Amps, ch.Ah = append(ch.Time, t), append(ch.Volts, sum), append(ch.Amps, amps), append(ch.Ah, -drawn)
}

// wholeOnly is the same without voltages of groups.
func wholeOnly() *prove.Result {
	res := proven(6)
	res.Groups, res.Chart.Groups, res.Limiting = nil, nil, 0
	return res
}

func proofDrawings(res *prove.Result, o Options) (canvases []*canvas, heights []float64) {
	add := func(c *canvas, h float64) { canvases, heights = append(canvases, c), append(heights, h) }
	add(discharge(res, o))
	add(groupResistance(res, o))
	add(groupLosses(res, o))
	add(restDecay(res, o))
	return canvases, heights
}

func proofTexts(res *prove.Result, o Options) []string {
	return []string{Discharge(res, o), GroupResistance(res, o), GroupLosses(res, o), RestDecay(res, o)}
}

var proofNames = []string{"discharge", "resistance", "losses", "rest"}

func TestProofGolden(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for i, svg := range proofTexts(proven(6), Options{Width: width}) {
			golden.Check(t, fmt.Sprintf("prove-%s-%d.svg", proofNames[i], width), []byte(svg))
		}
	}
	golden.Check(t, "prove-whole.svg", []byte(Discharge(wholeOnly(), Options{})))
}

func TestProofIsLegible(t *testing.T) {
	for _, width := range []int{320, Phone, 600, 859, 860, Desk, 1600} {
		for _, groups := range []int{1, 2, 6, 14, 40, 96} {
			canvases, heights := proofDrawings(proven(groups), Options{Width: width})
			for i, c := range canvases {
				if said := overlapping(c, heights[i]); said != "" {
					t.Errorf("%s of %d groups: %s", c.id, groups, said)
				}
			}
		}
	}
}

func TestProofMarkup(t *testing.T) {
	for _, res := range []*prove.Result{proven(14), wholeOnly(), {}} {
		for _, width := range []int{Desk, Phone} {
			for _, svg := range proofTexts(res, Options{Width: width, Standalone: true}) {
				checkXML(t, svg)
				if !strings.Contains(svg, "xmlns=") {
					t.Error("not a file of its own")
				}
			}
			for _, svg := range proofTexts(res, Options{Width: width}) {
				if found := colour.FindString(svg); found != "" {
					t.Errorf("colour or style %q in the drawing", found)
				}
				checkClasses(t, svg)
				if n := len(svg); n > 40<<10 {
					t.Errorf("%d bytes", n)
				}
			}
		}
	}
}

// What is drawn must say what was found.
func TestProofSaysItsNumbers(t *testing.T) {
	res := proven(6)
	for i, want := range [][]string{{"group 1 ends the discharge, after 54.9 Ah at 20 A", "low limit 3.00 V", "group 5 3."},
		{"median 1.27", "1.90 ± 0.05", "mΩ"}, {"3.1 ± 0.5", "3.2 ± 0.7", "comes back by balancing"}, {"over 2 h, still relaxing", "only an upper bound"}} {
		svg := proofTexts(res, Options{})[i]
		for _, w := range want {
			if !strings.Contains(svg, w) {
				t.Errorf("%s does not say %q", proofNames[i], w)
			}
		}
	}
	if svg := Discharge(wholeOnly(), Options{}); !strings.Contains(svg, "low limit 18.0 V") {
		t.Error("the limit of the whole is not six times that of a cell")
	}
	if svg := Discharge(proven(40), Options{}); !strings.Contains(svg, "more groups") {
		t.Error("forty groups are not summed up")
	}
}

// The latest full discharge is drawn, before any that was cut short.
func TestWhichDischarge(t *testing.T) {
	res := proven(2)
	res.Cycles = append([]prove.Cycle{{Kind: "discharge", From: 0, To: 9000, ChargeAh: 80}}, res.Cycles...)
	res.Cycles = append(res.Cycles, prove.Cycle{Kind: "charge", From: 0, To: 20000, ChargeAh: 99, Full: true}, prove.Cycle{Kind: "discharge", From: 9000, To: 17000, ChargeAh: 60})
	run, ok := provenDischarge(res)
	if !ok || run.cycle.ChargeAh != 54.9 {
		t.Errorf("drawn %+v", run.cycle)
	}
	res.Cycles = nil
	if run, ok = provenDischarge(res); !ok || run.cycle.ChargeAh != 54.9 {
		t.Errorf("without cycles drawn %+v", run.cycle)
	}
}

func TestOutlineKeepsWithinItsBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SliceOfN(rapid.Float64Range(-100, 100), 1, 80).Draw(t, "y")
		x := make([]float64, len(y))
		for i := range x {
			x[i] = float64(i)
		}
		kept := outline(x, y, 0.5)
		if kept[0] != 0 || kept[len(kept)-1] != len(y)-1 {
			t.Fatalf("ends are lost: %v", kept)
		}
		for k := 1; k < len(kept); k++ {
			if _, d := farthest(x, y, kept[k-1], kept[k]); d > 0.5 {
				t.Fatalf("a point lies %g away", d)
			}
		}
	})
}

// anyProof is a result as odd as may come: values missing, not numbers, series of
// different length.
func anyProof(t *rapid.T) *prove.Result {
	num := func(name string) float64 {
		return rapid.SampledFrom([]float64{0, 1, -3, 4.1, 1e6, -1e7, math.NaN(), math.Inf(1), 0.0012}).Draw(t, name)
	}
	res := proven(rapid.IntRange(0, 20).Draw(t, "groups"))
	for k := range res.Groups {
		g := &res.Groups[k]
		for _, v := range []*float64{&g.Ohm, &g.OhmErr, &g.Recoverable, &g.LostAh, &g.LostErr, &g.CapacityAh} {
			if rapid.Bool().Draw(t, "odd") {
				*v = num("value")
			}
		}
		if rapid.Bool().Draw(t, "short") {
			res.Chart.Groups[k] = res.Chart.Groups[k][:rapid.IntRange(0, 300).Draw(t, "length")]
		}
		if n := len(res.Chart.Groups[k]); n > 0 {
			res.Chart.Groups[k][rapid.IntRange(0, n-1).Draw(t, "at")] = num("volts")
		}
	}
	res.Limiting = rapid.IntRange(0, 25).Draw(t, "limiting")
	res.Rests[0].Hours = num("hours")
	res.Cycles[0].To = num("end")
	return res
}

func TestProofNeverOverlaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		res := anyProof(t)
		canvases, heights := proofDrawings(res, Options{Width: rapid.IntRange(300, 1400).Draw(t, "width")})
		for i, c := range canvases {
			if said := overlapping(c, heights[i]); said != "" {
				t.Fatalf("%s: %s", c.id, said)
			}
		}
	})
}

func BenchmarkDischarge(b *testing.B) {
	res := proven(14)
	for b.Loop() {
		Discharge(res, Options{})
	}
}
