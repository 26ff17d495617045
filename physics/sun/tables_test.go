package sun

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func instant(t testing.TB, text string) Instant {
	t.Helper()
	v, err := ParseTime(text)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// same is near.Equal for properties.
func same(t *rapid.T, name string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Fatalf("%s = %.9g, want %.9g within %g", name, got, want, tol)
	}
}
