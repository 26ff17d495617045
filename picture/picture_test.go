package picture

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/internal/golden"
	"ampstead/look"
	q "ampstead/quantity"
	"ampstead/rig"
)

// drawings draws every picture of a result and returns their canvases and heights.
func drawings(res *fit.Result, o Options) (canvases []*canvas, heights []float64) {
	add := func(c *canvas, h float64) { canvases, heights = append(canvases, c), append(heights, h) }
	add(ladder(res, o))
	add(restCurve(res, o))
	add(warmth(res, o))
	return canvases, heights
}

func texts(res *fit.Result, o Options) []string {
	return []string{Ladder(res, o), RestCurve(res, o), Warmth(res, o)}
}

func invented() map[string]*fit.Result {
	return map[string]*fit.Result{"draft": curlewDraft(), "mended": curlew(), "dipper": dipper(), "iron": flatIron(), "acid": acid()}
}

func TestGolden(t *testing.T) {
	for name, res := range invented() {
		for _, width := range []int{Desk, Phone} {
			o := Options{Width: width}
			if name == "dipper" {
				o.Units = q.US
			}
			for i, svg := range texts(res, o) {
				golden.Check(t, fmt.Sprintf("%s-%s-%d.svg", name, []string{"ladder", "curve", "warmth"}[i], width), []byte(svg))
			}
		}
	}
}

// overlapping describes the first pair of texts that touch, or the first text
// that leaves the picture.
func overlapping(c *canvas, height float64) string {
	for i, a := range c.texts {
		if a.x < -0.5 || a.x+a.w > c.width+0.5 || a.y < -0.5 || a.y+a.h > height+0.5 {
			return fmt.Sprintf("%q at %+v leaves %g by %g", c.wording[i], a, c.width, height)
		}
		for j, b := range c.texts[:i] {
			if a.overlaps(b, 0) {
				return fmt.Sprintf("%q at %+v touches %q at %+v", c.wording[i], a, c.wording[j], b)
			}
		}
	}
	return ""
}

func TestInventedRigsAreLegible(t *testing.T) {
	for name, res := range invented() {
		for _, width := range []int{320, Phone, 600, 859, 860, Desk, 1600} {
			canvases, heights := drawings(res, Options{Width: width, Units: q.US})
			for i, c := range canvases {
				if said := overlapping(c, heights[i]); said != "" {
					t.Errorf("%s %s: %s", name, c.id, said)
				}
			}
		}
	}
}

func TestLabelsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		res := anyResult(t)
		o := Options{Width: rapid.IntRange(300, 1400).Draw(t, "width"), Units: q.System(rapid.IntRange(0, 1).Draw(t, "units"))}
		canvases, heights := drawings(res, o)
		for i, c := range canvases {
			if said := overlapping(c, heights[i]); said != "" {
				t.Fatalf("%s: %s", c.id, said)
			}
		}
	})
}

// colour finds colours written as such, outside the style sheet.
var colour = regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|rgba?\(|hsla?\(|(fill|stroke|style)="`)

func TestMarkup(t *testing.T) {
	for name, res := range invented() {
		for _, width := range []int{Desk, Phone} {
			for _, svg := range texts(res, Options{Width: width}) {
				if found := colour.FindString(svg); found != "" {
					t.Errorf("%s: colour or style %q in the drawing", name, found)
				}
				checkXML(t, svg)
				checkClasses(t, svg)
				if !strings.Contains(svg, `role="img" aria-labelledby="`) {
					t.Errorf("%s: no name for those who do not see it", name)
				}
				if n := len(svg); n > 28<<10 {
					t.Errorf("%s: %d bytes", name, n)
				}
			}
		}
	}
}

func checkXML(t *testing.T, svg string) {
	t.Helper()
	ids := map[string]bool{}
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		for _, a := range start.Attr {
			if a.Name.Local == "id" && ids[a.Value] {
				t.Errorf("id %s twice", a.Value)
			}
			ids[a.Value] = ids[a.Value] || a.Name.Local == "id"
		}
	}
}

var classes = regexp.MustCompile(`class="([^"]+)"`)

func checkClasses(t *testing.T, svg string) {
	t.Helper()
	for _, m := range classes.FindAllStringSubmatch(svg, -1) {
		for _, class := range strings.Fields(m[1]) {
			if class != "narrow" && !strings.Contains(look.CSS, "."+class) {
				t.Errorf("the style sheet does not know class %q", class)
			}
		}
	}
}

func TestStandaloneAndHostileNames(t *testing.T) {
	res := curlewDraft()
	res.Today[4].Members[0].Device = "<script>&\x01\xff]]>\"'" + strings.Repeat("long", 40)
	res.Warmth[1].Device = res.Today[4].Members[0].Device
	for _, svg := range texts(res, Options{Width: Phone, Standalone: true}) {
		checkXML(t, svg)
		if !strings.Contains(svg, `xmlns="http://www.w3.org/2000/svg"`) || !strings.Contains(svg, "--accent:") {
			t.Error("not a file of its own")
		}
		if strings.Contains(svg, "<script") {
			t.Error("a name became an element")
		}
	}
}

func TestNothingKnownDrawsNothingWrong(t *testing.T) {
	res := &fit.Result{}
	for _, svg := range []string{Ladder(res, Options{}), RestCurve(res, Options{}), Warmth(res, Options{})} {
		checkXML(t, svg)
	}
}

func TestSameInputSameBytes(t *testing.T) {
	a, b := texts(curlewDraft(), Options{}), texts(curlewDraft(), Options{Width: Desk})
	for i := range a {
		if a[i] != b[i] {
			t.Errorf("picture %d differs from run to run", i)
		}
	}
}

func example(t testing.TB, name string) *fit.Result {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestExampleRigs(t *testing.T) {
	for name, danger := range map[string]bool{"curlew-draft": true, "curlew": false, "dipper": false} {
		res := example(t, name)
		for _, width := range []int{Desk, Phone} {
			canvases, heights := drawings(res, Options{Width: width})
			for i, c := range canvases {
				if said := overlapping(c, heights[i]); said != "" {
					t.Errorf("%s %s: %s", name, c.id, said)
				}
			}
		}
		if got := strings.Contains(Ladder(res, Options{}), "into harm"); got != danger {
			t.Errorf("%s: the ladder shows harm: %t, want %t", name, got, danger)
		}
	}
}

func BenchmarkLadder(b *testing.B) {
	res := curlewDraft()
	for b.Loop() {
		Ladder(res, Options{})
	}
}

func BenchmarkRestCurve(b *testing.B) {
	res := curlew()
	for b.Loop() {
		RestCurve(res, Options{})
	}
}

func BenchmarkWarmth(b *testing.B) {
	res := curlew()
	for b.Loop() {
		Warmth(res, Options{})
	}
}
