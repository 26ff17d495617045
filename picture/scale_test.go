package picture

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestStepAndTicks(t *testing.T) {
	for _, c := range []struct{ least, want float64 }{{0.011, 0.02}, {0.02, 0.02}, {0.03, 0.05}, {0.6, 1}, {3, 5}, {51, 100}, {0, 1}} {
		if got := step(c.least); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("step(%g) = %g, want %g", c.least, got, c.want)
		}
	}
	var texts []string
	for _, v := range ticks(-0.05, 0.1, 0.05) {
		texts = append(texts, tickText(v, 0.05))
	}
	if want := []string{"-0.05", "0.00", "0.05", "0.10"}; !slices.Equal(texts, want) {
		t.Errorf("ticks %v, want %v", texts, want)
	}
}

func TestWords(t *testing.T) {
	for v, want := range map[float64]string{49: "49.0 V", 49.9: "49.9 V", 47.25: "47.25 V", 4.2: "4.20 V", 4.2333333: "4.233 V", 28.113333: "28.11 V"} {
		if got := volts(v); got != want {
			t.Errorf("volts(%g) = %q, want %q", v, got, want)
		}
	}
	if got := listing([]string{"a", "b", "c"}); got != "a, b and c" {
		t.Error(got)
	}
	if got := percent(-0.001); got != "0 %" {
		t.Error(got)
	}
}

func TestWrapKeepsUnitsAndWidth(t *testing.T) {
	got := plain.wrap("can come 27 mV after the alarm (likely 12)", 95)
	if want := []string{"can come", "27 mV after", "the alarm", "(likely 12)"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		for _, line := range small.wrap(text, 120) {
			if w := small.measure(line); w > 120 {
				t.Fatalf("%q is %g wide", line, w)
			}
		}
	})
}

// Both ends of a broken ladder are to one scale, whatever is on it.
func TestPartsAreToOneScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		down := room{low: num(1, 3, "low"), labels: num(0, 400, "labels down"), shelf: num(0, 90, "shelf down")}
		down.high = down.low + num(0.01, 0.6, "span down")
		up := room{low: down.high + num(-0.1, 1, "between"), labels: num(0, 400, "labels up"), shelf: num(0, 90, "shelf up")}
		up.high = max(up.low, down.high) + num(0.01, 0.3, "span up")
		p := arrange(10, up, down)
		last := 10.0
		for _, b := range p.bands() {
			if b.top < last || b.bottom <= b.top {
				t.Fatalf("part %+v starts above %g", b, last)
			}
			if got := (b.bottom - b.top) / (b.high - b.low); math.Abs(got-p.perVolt) > 1e-6*p.perVolt {
				t.Fatalf("%g px a volt, want %g", got, p.perVolt)
			}
			last = b.bottom
		}
		if p.upper.high != up.high || p.lower.low != down.low || p.bottom < last {
			t.Fatalf("ends are cut off: %+v", p)
		}
		if !p.broken() && p.upper.bottom-p.upper.top < up.labels+down.labels-1e-9 {
			t.Fatal("no room for all labels")
		}
	})
}
