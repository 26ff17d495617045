// Package figuretest holds what is tested of every figure, whatever its formula.
//
// May import: figure and the standard library. For tests.
package figuretest

import (
	"strings"
	"testing"

	"ampstead/figure"
)

// Whole fails the test unless every figure has a check, reproduces its checks,
// and gives just the outputs it declares, so that pages can explain them.
func Whole(t *testing.T, list []*figure.Figure) {
	t.Helper()
	for _, f := range list {
		if len(f.Checks) == 0 {
			t.Errorf("%s has no check", f.Name)
			continue
		}
		for _, o := range f.Verify() {
			if !o.Pass {
				t.Errorf("%s: %s (%s): got %v, want %v within %g", f.Name, o.Note, o.Source, o.Got, o.Expected, o.Tolerance)
			}
		}
		declared(t, f)
	}
}

func declared(t *testing.T, f *figure.Figure) {
	t.Helper()
	use, err := f.Read(f.Checks[0].In)
	if err != nil {
		t.Errorf("%s: %v", f.Name, err)
		return
	}
	keys := map[string]bool{}
	for _, o := range f.Outputs {
		keys[o.Key] = true
	}
	for key := range use.Out {
		if !keys[key] {
			t.Errorf("%s gives %s and does not declare it", f.Name, key)
		}
	}
}

// Refuse fails the test unless the figure refuses the input (name=value, with |
// between) with an error that contains says.
func Refuse(t *testing.T, f *figure.Figure, in, says string) {
	t.Helper()
	use, err := f.Read(strings.Split(in, "|"))
	if err == nil || !strings.Contains(err.Error(), says) {
		t.Errorf("%s %s: got %v, %v; want an error with %q", f.Name, in, use.Out, err, says)
	}
}
