package picture

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

var (
	boxesDrawn = regexp.MustCompile(`<rect class="bare[^"]*" x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"`)
	linesDrawn = regexp.MustCompile(`<path class="(?:reach|likely|rung)[^"]*" d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)"`)
)

// four reads the numbers of every match.
func four(pattern *regexp.Regexp, svg []byte) [][4]float64 {
	var list [][4]float64
	for _, m := range pattern.FindAllSubmatch(svg, -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(string(m[i+1]), 64)
		}
		list = append(list, v)
	}
	return list
}

// entangled describes the first text that a box cuts, or the first level line that
// crosses an upright one. Lines may meet end on.
func entangled(c *canvas) string {
	for _, r := range four(boxesDrawn, c.b) {
		for i, text := range c.texts {
			outer := box{r[0], r[1], r[2], r[3]}
			inside := text.x >= outer.x && text.x+text.w <= outer.x+outer.w+0.5 && text.y >= outer.y && text.y+text.h <= outer.y+outer.h
			if text.overlaps(outer, 0) && !inside {
				return fmt.Sprintf("box %v cuts %q at %+v", r, c.wording[i], text)
			}
		}
	}
	lines := four(linesDrawn, c.b)
	for _, a := range lines {
		for _, b := range lines {
			if a[1] == a[3] && b[0] == b[2] && amid(b[0], a[0], a[2]) && amid(a[1], b[1], b[3]) {
				return fmt.Sprintf("line %v crosses %v", a, b)
			}
		}
	}
	return ""
}

// amid reports whether v lies well inside an interval.
func amid(v, a, b float64) bool { return v > math.Min(a, b)+1 && v < math.Max(a, b)-1 }

func TestOneLineNothingIsEntangled(t *testing.T) {
	check := func(t interface{ Fatalf(string, ...any) }, c *canvas) {
		if said := entangled(c); said != "" {
			t.Fatalf("%s: %s", c.id, said)
		}
	}
	for _, width := range []int{320, Phone, 860, Desk} {
		res := smallVan()
		c, _ := oneLine(res, grown(res), Options{Width: width})
		check(t, c)
		if len(four(boxesDrawn, c.b)) < 5 || len(four(linesDrawn, c.b)) < 8 {
			t.Fatal("the test finds neither boxes nor lines")
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		res := anyWire(t)
		c, _ := oneLine(res, grown(res), Options{Width: rapid.IntRange(300, 1400).Draw(t, "width")})
		check(t, c)
	})
}
