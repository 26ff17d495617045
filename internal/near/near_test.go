package near

import (
	"math"
	"testing"
)

// recorder counts failures instead of failing.
type recorder struct {
	testing.TB
	failures int
}

func (*recorder) Helper()                 {}
func (r *recorder) Errorf(string, ...any) { r.failures++ }

func TestEqual(t *testing.T) {
	tests := []struct {
		got, want, tol float64
		fails          bool
	}{
		{1, 1, 0, false}, {1, 1.1, 0.1000001, false}, {1, 1.1, 0.09, true}, {-1, 1, 1, true},
		{math.NaN(), 1, 10, true}, {1, math.NaN(), 10, true}, {math.Inf(1), 1, 10, true},
	}
	for _, tt := range tests {
		r := &recorder{}
		Equal(r, "x", tt.got, tt.want, tt.tol)
		if (r.failures > 0) != tt.fails {
			t.Errorf("%+v: %d failures", tt, r.failures)
		}
	}
}

func TestRelative(t *testing.T) {
	r := &recorder{}
	Relative(r, "x", -99, -100, 0.011)
	if r.failures != 0 {
		t.Error("99 is not within 1.1 % of 100")
	}
	Relative(r, "x", -98, -100, 0.011)
	if r.failures != 1 {
		t.Error("98 is within 1.1 % of 100")
	}
}
