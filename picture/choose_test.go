package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/choose"
	"ampstead/internal/choosesample"
	"ampstead/internal/golden"
	"ampstead/life"
	q "ampstead/quantity"
)

func linkTo(name string) string { return "/choose?design=" + name }

// chooseDrawings draws every picture of a comparison.
func chooseDrawings(res *choose.Result, v FrontView, o Options) (canvases []*canvas, heights []float64) {
	add := func(c *canvas, h float64) { canvases, heights = append(canvases, c), append(heights, h) }
	add(compare(res, o))
	add(lives(res, o))
	add(front(res, v, o))
	add(windowsTried(res, o))
	return canvases, heights
}

func chooseTexts(o Options) []string {
	res := choosesample.Result()
	return []string{Compare(res, o), Lives(res, o), Front(res, FrontView{Picked: choosesample.Longest, Link: linkTo}, o), Windows(res, o)}
}

func TestChooseGolden(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for i, svg := range chooseTexts(Options{Width: width}) {
			golden.Check(t, fmt.Sprintf("choose-%s-%d.svg", []string{"compare", "lives", "front", "windows"}[i], width), []byte(svg))
		}
	}
}

func TestChooseIsLegible(t *testing.T) {
	for _, width := range []int{320, Phone, 420, 600, 859, 860, Desk, 1600} {
		for _, up := range []string{"short", "years", "mass"} {
			canvases, heights := chooseDrawings(choosesample.Result(), FrontView{Across: "price", Up: up, Picked: choosesample.Longest}, Options{Width: width, Units: q.US})
			for i, c := range canvases {
				if said := overlapping(c, heights[i]); said != "" {
					t.Errorf("%s: %s", c.id, said)
				}
			}
		}
	}
}

func TestChooseMarkup(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for i, svg := range chooseTexts(Options{Width: width, Key: "7"}) {
			if found := colour.FindString(svg); found != "" {
				t.Errorf("colour or style %q in the drawing", found)
			}
			checkXML(t, svg)
			checkClasses(t, svg)
			if n := len(svg); n > 48<<10 {
				t.Errorf("picture %d: %d bytes", i, n)
			}
		}
	}
}

// What is drawn must be what was found, and each point leads to its own design.
func TestFrontSaysItsDesigns(t *testing.T) {
	res := choosesample.Result()
	svg := Front(res, FrontView{Picked: choosesample.Longest, Link: linkTo}, Options{})
	for _, want := range []string{"4: longest life", "the rig as it stands", "Price, EUR", "Hours short a year", `href="/choose?design=1 × new iron pack, 880 W`, "lower and further left is better"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the front does not say %q", want)
		}
	}
	if n := strings.Count(svg, "<a "); n != len(res.Front) {
		t.Errorf("%d links for %d designs", n, len(res.Front))
	}
	svg = Front(res, FrontView{Across: "years", Up: "mass"}, Options{Units: q.US})
	for _, want := range []string{"Years of life", "Mass, lb", "lower and further right is better"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the other front does not say %q", want)
		}
	}
	if strings.Contains(svg, "<a ") {
		t.Error("links that lead nowhere")
	}
	if svg = Front(choosesample.Unsearched(), FrontView{}, Options{}); !strings.Contains(svg, "No design was searched for") {
		t.Error("a front without a search")
	}
}

func TestFrontAxes(t *testing.T) {
	res := choosesample.Result()
	if got := strings.Join(FrontAxes(res), " "); got != "price short mass years" {
		t.Errorf("axes %q", got)
	}
	for i := range res.Front {
		res.Front[i].Price, res.Front[i].MassKg = 0, 0
	}
	if got := strings.Join(FrontAxes(res), " "); got != "short years" {
		t.Errorf("axes %q where neither price nor mass is known", got)
	}
}

func TestLivesSayTheirEnds(t *testing.T) {
	svg := Lives(choosesample.Result(), Options{})
	for _, want := range []string{"short after 12 years", "70 % left: 14 years", "short from the start", "not short in 30 years", "its end by capacity"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the lives do not say %q", want)
		}
	}
	svg = Compare(choosesample.Result(), Options{})
	for _, want := range []string{"EUR a kWh", "0.13", "gives none", "Usable energy"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the comparison does not say %q", want)
		}
	}
}

func anyChoice(t *rapid.T) *choose.Result {
	num := func(low, high float64, name string) float64 {
		if rapid.IntRange(0, 15).Draw(t, "odd") == 0 {
			return rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), -1, 1e8}).Draw(t, name)
		}
		return rapid.Float64Range(low, high).Draw(t, name)
	}
	res := &choose.Result{}
	for i := range rapid.IntRange(0, 7).Draw(t, "batteries") {
		c := choose.Candidate{Name: anyName(t), UsableWh: num(0, 9e4, "wh"), UsableLow: num(0, 9e4, "low"), UsableHigh: num(0, 9e4, "high"), MassKg: num(0, 900, "kg"), Price: num(0, 90000, "price"),
			Currency: "EUR", PerDelivered: num(0, 9, "per"), ByCapacity: num(0, 40, "years"), ByFunction: num(0, 40, "years"), ShortHours: num(0, 8760, "short")}
		if i == 0 {
			c.Name = choose.Own
		}
		if rapid.Bool().Draw(t, "lives") {
			c.Life = anyLife(t, num)
		}
		res.Candidates = append(res.Candidates, c)
	}
	for i := range rapid.IntRange(0, 30).Draw(t, "designs") {
		res.Front = append(res.Front, choose.Design{Name: fmt.Sprint("D", i), Candidate: anyName(t), Price: num(0, 9e4, "price"), MassKg: num(0, 900, "kg"), ShortHours: num(0, 8760, "short"),
			Years: num(0, 30, "years"), Why: rapid.SampledFrom([]string{"", "the fewest hours short", "the least mass"}).Draw(t, "why")})
	}
	if rapid.Bool().Draw(t, "searched") {
		res.Search = &choose.Search{Stands: &choose.Design{Price: num(0, 9e4, "price"), ShortHours: num(0, 8760, "short"), MassKg: num(0, 900, "kg")},
			Cloud: []choose.Spot{{Price: num(0, 9e4, "price"), ShortHours: num(0, 8760, "short")}}}
	}
	for range rapid.IntRange(0, 9).Draw(t, "windows") {
		res.Window = append(res.Window, choose.WindowChoice{Name: anyName(t), LowV: num(2, 4, "v"), HighV: num(2, 4.3, "v"), ByCapacity: life.Band{Low: num(0, 40, "l"), Middle: num(0, 40, "m"), High: num(0, 40, "h")},
			ShortHours: num(0, 8760, "short"), ShortLate: num(0, 8760, "late"), Pick: rapid.Bool().Draw(t, "pick")})
	}
	return res
}

func anyLife(t *rapid.T, num func(low, high float64, name string) float64) *life.Result {
	l := &life.Result{Start: num(0.4, 1, "start"), EndShare: num(0.5, 0.9, "end")}
	for i := range rapid.IntRange(0, 40).Draw(t, "ahead") {
		middle := num(0.2, 1, "share")
		l.Years = append(l.Years, life.Year{Age: i + 1, Low: middle - 0.1, Middle: middle, High: middle + 0.1})
	}
	if rapid.Bool().Draw(t, "beyond") {
		l.Beyond = []string{"by function, middle: not within 30 years"}
	}
	return l
}

func TestChooseLabelsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Options{Width: rapid.IntRange(300, 1400).Draw(t, "width"), Units: q.System(rapid.IntRange(0, 1).Draw(t, "units"))}
		axes := []string{"price", "short", "mass", "years", ""}
		v := FrontView{Across: rapid.SampledFrom(axes).Draw(t, "across"), Up: rapid.SampledFrom(axes).Draw(t, "up"), Picked: "D3"}
		canvases, heights := chooseDrawings(anyChoice(t), v, o)
		for i, c := range canvases {
			if said := overlapping(c, heights[i]); said != "" {
				t.Fatalf("%s: %s", c.id, said)
			}
		}
	})
}

func TestEmptyChoice(t *testing.T) {
	res := &choose.Result{}
	for _, svg := range []string{Compare(res, Options{}), Lives(res, Options{}), Front(res, FrontView{}, Options{}), Windows(res, Options{})} {
		checkXML(t, svg)
	}
}

func BenchmarkLives(b *testing.B) {
	res := choosesample.Result()
	for b.Loop() {
		Lives(res, Options{})
	}
}
