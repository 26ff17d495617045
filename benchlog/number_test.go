package benchlog

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func TestNumbers(t *testing.T) {
	nan := math.NaN()
	tests := []struct {
		text string
		mark byte
		want float64
		rest string
	}{
		{"3.7", '.', 3.7, ""}, {"-0.05", '.', -0.05, ""}, {"+12", '.', 12, ""}, {".5", '.', 0.5, ""}, {"5.", '.', 5, ""},
		{"3,7", ',', 3.7, ""}, {"1.234,5", ',', 1234.5, ""}, {"1,234.5", '.', 1234.5, ""}, {"1'234.5", '.', 1234.5, ""}, {"1 234,5", ',', 1234.5, ""},
		{"1,234,567", '.', 1234567, ""}, {"1\u00a0234,5", ',', 1234.5, ""}, {"1.5e-3", '.', 1.5e-3, ""}, {"1,5E+03", ',', 1500, ""},
		{"\u22121.5", '.', -1.5, ""}, {"- 1.5", '.', -1.5, ""}, {"3.70 V", '.', 3.7, "V"}, {"25°C", '.', 25, "°C"},
		{"", '.', nan, ""}, {"--", '.', nan, ""}, {"OL", '.', nan, ""}, {"NaN", '.', nan, ""}, {"n/a", '.', nan, ""}, {"-inf", '.', nan, ""},
		{"0.1234567890123456789", '.', 0.1234567890123456789, ""}, {"123456789012345678901", '.', 123456789012345678901, ""},
	}
	for _, tt := range tests {
		v, rest, ok := number([]byte(tt.text), tt.mark)
		if !ok || !(v == tt.want || math.IsNaN(v) && math.IsNaN(tt.want)) || string(rest) != tt.rest {
			t.Errorf("%q: %v %q %v, want %v %q", tt.text, v, rest, ok, tt.want, tt.rest)
		}
	}
	for _, bad := range []string{"abc", "V", "1e999", "-.", "e5", "."} {
		if v, rest, ok := number([]byte(bad), '.'); ok && len(rest) == 0 {
			t.Errorf("%q was read as %v", bad, v)
		}
	}
}

// TestPlainNumberIsExact: the fast path gives what the standard library gives.
func TestPlainNumberIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strconv.FormatFloat(rapid.Float64Range(-1e9, 1e9).Draw(t, "v"), 'f', rapid.IntRange(0, 12).Draw(t, "places"), 64)
		want, _ := strconv.ParseFloat(text, 64)
		if got, ok := plainNumber([]byte(text), '.'); ok && got != want {
			t.Fatalf("%s: %v, want %v", text, got, want)
		}
		if got, _, ok := number([]byte(text), '.'); !ok || got != want {
			t.Fatalf("%s: %v %v, want %v", text, got, ok, want)
		}
	})
}
