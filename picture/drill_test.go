package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/drill"
	"ampstead/internal/drillsample"
	"ampstead/internal/golden"
	q "ampstead/quantity"
)

// drillDrawings draws every picture of a drill.
func drillDrawings(res *drill.Result, strips []*drill.Strip, o Options) (canvases []*canvas, heights []float64) {
	add := func(c *canvas, h float64) { canvases, heights = append(canvases, c), append(heights, h) }
	add(matrix(res, res.Rows(), o))
	for _, s := range strips {
		add(playedStrip(s, o))
		add(glimpse(s, o))
	}
	return canvases, heights
}

func drillTexts(o Options) []string {
	res := drillsample.Result()
	return []string{Matrix(res, res.Rows(), o), Strip(drillsample.Strip(), o), Strip(drillsample.Frost(), o), Glimpse(drillsample.Strip(), o)}
}

func TestDrillGolden(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for i, svg := range drillTexts(Options{Width: width, Pick: "/drill"}) {
			golden.Check(t, fmt.Sprintf("drill-%s-%d.svg", []string{"matrix", "strip", "frost", "glimpse"}[i], width), []byte(svg))
		}
	}
}

func TestDrillIsLegible(t *testing.T) {
	for _, width := range []int{320, Phone, 420, 600, 859, 860, Desk, 1600} {
		canvases, heights := drillDrawings(drillsample.Result(), []*drill.Strip{drillsample.Strip(), drillsample.Frost()}, Options{Width: width, Units: q.US})
		for i, c := range canvases {
			if said := overlapping(c, heights[i]); said != "" {
				t.Errorf("%s: %s", c.id, said)
			}
		}
	}
}

func TestDrillMarkup(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for i, svg := range drillTexts(Options{Width: width, Pick: "/drill", Key: "7"}) {
			if found := colour.FindString(svg); found != "" {
				t.Errorf("colour or style %q in the drawing", found)
			}
			checkXML(t, svg)
			checkClasses(t, svg)
			if n := len(svg); n > 96<<10 {
				t.Errorf("picture %d: %d bytes", i, n)
			}
		}
	}
}

// What is drawn must be what was played, and each mark leads to its own run.
func TestMatrixSaysItsRuns(t *testing.T) {
	res := drillsample.Result()
	svg := Matrix(res, res.Rows(), Options{Pick: "/drill"})
	for _, want := range []string{"24 faults in 7 scenes", "2 harm", "184 mV past", "frost charge", "silent: nothing tells anybody", "Frozen dawn",
		`href="/drill?fault=roof+solar%3A+stuck+at+full+output&amp;scene=full+sun%2C+nobody+home#run"`} {
		if !strings.Contains(svg, want) && !strings.Contains(svg, strings.ToLower(want)) {
			t.Errorf("the matrix does not say %q", want)
		}
	}
	if n := strings.Count(svg, "<a "); n != len(res.Single)+len(res.Without) {
		t.Errorf("%d links for %d runs", n, len(res.Single)+len(res.Without))
	}
	if n := strings.Count(svg, `class="rung bad"`); n != 3 { // two runs and the key
		t.Errorf("%d marks of harm", n)
	}
	if part := Matrix(res, res.Rows()[:4], Options{Key: "2"}); !strings.Contains(part, "4 faults") || !strings.Contains(part, `id="matrix2-1040-title"`) {
		t.Error("a part of the matrix is not drawn by itself")
	}
}

func TestStripSaysWhatLayersDid(t *testing.T) {
	svg := Strip(drillsample.Strip(), Options{})
	for _, want := range []string{"cell meter sounded", "after 15 min, alarm high", "guard relay opened main contactor", "harm above 4.25 V", "4 mV left", "of 6 h played"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the strip does not say %q", want)
		}
	}
	svg = Strip(drillsample.Frost(), Options{})
	for _, want := range []string{"harm: charged in frost", "6.4 Ah charged at or below 0 °C", "no charging below 0 °C", "silent"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the frost strip does not say %q", want)
		}
	}
	s := drillsample.Strip()
	for i := range 40 {
		s.Out.Acts = append(s.Out.Acts, drill.Act{At: 1300 + float64(i), Layer: "disconnect", Device: fmt.Sprint("relay ", i%9), Did: "closed"})
	}
	if svg = Strip(s, Options{}); !strings.Contains(svg, "relay 2 closed, 5 times") || !strings.Contains(svg, "other acts later") {
		t.Error("a chattering relay is not summed up")
	}
}

// anyRun is a trace as odd as may come.
func anyRun(t *rapid.T) *drill.Strip {
	num := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	s := &drill.Strip{Fault: anyName(t), Second: anyName(t), Scene: anyName(t), HarmLo: num(-1, 4, "low"), HarmHi: num(2, 5, "high"), FrostC: num(-40, 60, "frost"), HotMax: num(-40, 90, "hot")}
	s.Out = drill.Outcome{Outcome: rapid.SampledFrom(verdictsFor).Draw(t, "verdict"), Harm: anyName(t), MarginMV: num(-9000, 9000, "margin"), HarmAt: num(-1, 9e6, "harm"),
		AlarmAt: num(-1, 9e6, "alarm"), Side: rapid.SampledFrom([]string{"high", "low", ""}).Draw(t, "side"), FrostAh: num(0, 500, "Ah"), Silent: rapid.Bool().Draw(t, "silent")}
	each := num(0.01, 90000, "step")
	for i := range rapid.IntRange(0, 60).Draw(t, "points") {
		s.Time = append(s.Time, float64(i)*each)
		high := num(0, 6, "v")
		s.HighV, s.LowV = append(s.HighV, high), append(s.LowV, high-num(0, 1, "spread"))
		s.BankA = append(s.BankA, num(-5000, 5000, "a"))
		s.ColdC, s.HotC = append(s.ColdC, num(-60, 20, "cold")), append(s.HotC, num(20, 200, "hot"))
	}
	for range rapid.IntRange(0, 14).Draw(t, "acts") {
		s.Out.Acts = append(s.Out.Acts, drill.Act{At: num(0, 60*each, "at"), Layer: anyName(t), Device: anyName(t), Did: anyName(t)})
	}
	return s
}

var verdictsFor = []drill.Verdict{drill.Harm, drill.Near, drill.Caught, drill.Nuisance, drill.None, "odd"}

// anyDrill is a drill as odd as may come.
func anyDrill(t *rapid.T) *drill.Result {
	res := &drill.Result{}
	for i := range rapid.IntRange(0, 9).Draw(t, "scenes") {
		res.Scenes = append(res.Scenes, drill.Scene{Name: anyName(t) + fmt.Sprint(i)})
	}
	for i := range rapid.IntRange(0, 12).Draw(t, "faults") {
		res.Faults = append(res.Faults, drill.Fault{Name: anyName(t) + fmt.Sprint(i), Device: anyName(t)})
		for _, s := range res.Scenes {
			res.Single = append(res.Single, drill.Outcome{Fault: res.Faults[i].Name, Scene: s.Name, Outcome: rapid.SampledFrom(verdictsFor).Draw(t, "verdict"),
				MarginMV: rapid.Float64Range(-9000, 9000).Draw(t, "margin"), Harm: anyName(t), Silent: rapid.Bool().Draw(t, "silent")})
		}
	}
	return res
}

func TestDrillLabelsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Options{Width: rapid.IntRange(300, 1400).Draw(t, "width"), Units: q.System(rapid.IntRange(0, 1).Draw(t, "units"))}
		canvases, heights := drillDrawings(anyDrill(t), []*drill.Strip{anyRun(t)}, o)
		for i, c := range canvases {
			if said := overlapping(c, heights[i]); said != "" {
				t.Fatalf("%s: %s", c.id, said)
			}
		}
	})
}

func TestEmptyDrill(t *testing.T) {
	odd := drillsample.Strip()
	for i := range odd.HighV {
		odd.HighV[i], odd.BankA[i] = math.NaN(), math.Inf(1)
	}
	for _, svg := range []string{Matrix(&drill.Result{}, nil, Options{}), Strip(nil, Options{}), Strip(&drill.Strip{}, Options{}), Glimpse(&drill.Strip{}, Options{}), Strip(odd, Options{})} {
		checkXML(t, svg)
	}
}

func BenchmarkMatrix(b *testing.B) {
	res := drillsample.Result()
	for b.Loop() {
		Matrix(res, res.Rows(), Options{Pick: "/drill"})
	}
}

func BenchmarkStrip(b *testing.B) {
	s := drillsample.Strip()
	for b.Loop() {
		Strip(s, Options{})
	}
}
