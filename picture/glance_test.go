package picture

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/golden"
	q "ampstead/quantity"
	"ampstead/travel"
)

func TestGlanceGolden(t *testing.T) {
	for _, width := range []int{600, Phone} {
		golden.Check(t, fmt.Sprintf("frosty-glance-%d.svg", width), []byte(Glance(frosty(), Options{Width: width})))
	}
	golden.Check(t, "blank-glance-390.svg", []byte(Glance(nil, Options{Width: Phone})))
}

// The place of the picture is the same before and after the year is reckoned.
func TestGlanceKeepsItsSize(t *testing.T) {
	size := regexp.MustCompile(`viewBox="[^"]+"`)
	want := size.FindString(Glance(nil, Options{Width: Phone}))
	rapid.Check(t, func(t *rapid.T) {
		if got := size.FindString(Glance(anyTrip(t), Options{Width: Phone})); got != want || want == "" {
			t.Fatalf("%s, empty %s", got, want)
		}
	})
}

func TestGlanceIsLegible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Options{Width: rapid.IntRange(300, 1400).Draw(t, "width"), Units: q.System(rapid.IntRange(0, 1).Draw(t, "units"))}
		for _, res := range []*travel.Result{anyTrip(t), nil, {}} {
			c, height := glance(res, o)
			if said := overlapping(c, height); said != "" {
				t.Fatal(said)
			}
		}
	})
}

func TestGlanceMarkup(t *testing.T) {
	for _, svg := range []string{Glance(frosty(), Options{Width: Phone}), Glance(nil, Options{})} {
		if found := colour.FindString(svg); found != "" {
			t.Errorf("colour or style %q in the drawing", found)
		}
		checkXML(t, svg)
		checkClasses(t, svg)
		if n := len(svg); n > 16<<10 {
			t.Errorf("%d bytes", n)
		}
	}
}

// What is drawn must be what was reckoned.
func TestGlanceSaysItsNumbers(t *testing.T) {
	res := frosty()
	res.Days[40].SoCLow = 0.011
	for d := range 17 {
		res.Days[d].Unserved = 300
	}
	short, frost := 0, 0
	for _, d := range res.Days {
		if d.Unserved >= 1 {
			short++
		}
		if d.LostFrost >= 1 {
			frost++
		}
	}
	if short == frost || short == 0 {
		t.Fatalf("%d days short, %d of frost: the test tells nothing", short, frost)
	}
	svg := Glance(res, Options{Width: 600})
	for _, want := range []string{"lowest 1 % on 10 Feb", fmt.Sprintf(">%d days<", short), fmt.Sprintf(">%d days<", frost), ">Salt marsh<", ">Fjord head<", "8 years in 10"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the glance does not say %q", want)
		}
	}
}

func BenchmarkGlance(b *testing.B) {
	res := frosty()
	for b.Loop() {
		Glance(res, Options{Width: Phone})
	}
}
