// Package near compares numbers in tests.
//
// May import: the standard library only. For tests.
package near

import (
	"math"
	"testing"
)

// Equal fails the test unless got is within tol of want.
func Equal(t testing.TB, name string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g within %g", name, got, want, tol)
	}
}

// Relative fails the test unless got is within the fraction rel of want.
func Relative(t testing.TB, name string, got, want, rel float64) {
	t.Helper()
	Equal(t, name, got, want, math.Abs(want)*rel)
}
