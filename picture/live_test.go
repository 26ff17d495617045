package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ampstead/internal/golden"
	q "ampstead/quantity"
)

var trailStart = time.Date(2026, 3, 1, 9, 20, 0, 0, time.UTC)

// trailOf is an invented series of a group that is charged each day, with a hole
// where nothing was heard.
func trailOf(days float64, points int) Trail {
	span := time.Duration(days * 24 * float64(time.Hour))
	t := Trail{Title: "group 4", Dim: q.Volts, From: trailStart, To: trailStart.Add(span), Limits: []TrailLimit{{4.13, "high limit"}, {3.2, "low limit"}}}
	width := span / time.Duration(points)
	for k := range points {
		if k > points/3 && k < points/2 {
			continue
		}
		at := t.From.Add(time.Duration(k) * width)
		mean := 3.8 + 0.33*math.Sin(2*math.Pi*at.Sub(trailStart).Hours()/24)
		t.Points = append(t.Points, TrailPoint{at, width, mean - 0.03, mean, mean + 0.02})
	}
	return t
}

func TestLiveGolden(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		golden.Check(t, fmt.Sprintf("live-day-%d.svg", width), []byte(Live(trailOf(1, 96), Options{Width: width})))
	}
	golden.Check(t, "live-year.svg", []byte(Live(trailOf(365, 90), Options{})))
}

func TestLiveIsLegible(t *testing.T) {
	for _, width := range []int{320, Phone, 600, 859, 860, Desk} {
		for _, days := range []float64{0.01, 0.2, 1, 3, 7, 31, 100, 365, 1500, 20000} {
			c, height := live(trailOf(days, 200), Options{Width: width})
			if said := overlapping(c, height); said != "" {
				t.Errorf("%g days at %d: %s", days, width, said)
			}
		}
	}
}

func TestLiveMarkup(t *testing.T) {
	warm := trailOf(7, 50)
	warm.Dim, warm.Title, warm.Limits = q.Celsius, "sensor 1", nil
	for _, trail := range []Trail{trailOf(1, 1000), trailOf(365, 1), warm, {Title: "bank", Dim: q.Volts}} {
		svg := Live(trail, Options{Units: q.US})
		checkXML(t, svg)
		checkClasses(t, svg)
		if len(svg) > 40<<10 {
			t.Errorf("%d bytes", len(svg))
		}
	}
	for svg, want := range map[string]string{Live(warm, Options{Units: q.US}): "sensor 1, °F", Live(trailOf(1, 96), Options{}): "high limit 4.130 V", Live(Trail{Title: "bank", Dim: q.Volts}, Options{}): "Nothing was heard of bank"} {
		if !strings.Contains(svg, want) {
			t.Errorf("%q is not in the picture", want)
		}
	}
}

func TestLiveBreaksWhereNothingWasHeard(t *testing.T) {
	if n := strings.Count(Live(trailOf(1, 96), Options{}), `class="fine"`); n != 2 {
		t.Errorf("%d stretches", n)
	}
}

func TestTimeMarks(t *testing.T) {
	for _, c := range []struct {
		hours float64
		most  float64
		want  string
	}{{5, 6, "10:00 11:00 12:00 13:00 14:00"}, {24, 5, "12:00 18:00 00:00 06:00"}, {24 * 7, 7, "2 Mar 3 Mar 4 Mar 5 Mar 6 Mar 7 Mar 8 Mar"}, {24 * 90, 3, "Apr May"}, {24 * 365 * 3, 4, "2027 2028 2029"}} {
		var got []string
		for _, m := range timeMarks(trailStart, trailStart.Add(time.Duration(c.hours*float64(time.Hour))), c.most) {
			got = append(got, m.text)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%g h: %v", c.hours, got)
		}
	}
}

func TestLiveNeverOverlaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trail := trailOf(rapid.Float64Range(0.001, 3000).Draw(t, "days"), rapid.IntRange(1, 300).Draw(t, "points"))
		trail.Dim = rapid.SampledFrom([]*q.Dimension{q.Volts, q.Amperes, q.Celsius, q.AmpereHours, q.Fraction}).Draw(t, "dim")
		times := rapid.SampledFrom([]float64{0, 1, -40, 1000}).Draw(t, "times")
		for k := range trail.Points {
			p := &trail.Points[k]
			p.Min, p.Mean, p.Max = times*p.Min, times*p.Mean, times*p.Max
			p.Min, p.Max = math.Min(p.Min, p.Max), math.Max(p.Min, p.Max)
		}
		c, height := live(trail, Options{Width: rapid.IntRange(300, 1400).Draw(t, "width")})
		if said := overlapping(c, height); said != "" {
			t.Fatal(said)
		}
	})
}

func BenchmarkLive(b *testing.B) {
	trail := trailOf(365, 1000)
	for b.Loop() {
		Live(trail, Options{})
	}
}
