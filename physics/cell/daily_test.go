package cell

import (
	"errors"
	"testing"
)

func TestWithDaily(t *testing.T) {
	c, err := Lookup("nmc532")
	if err != nil {
		t.Fatal(err)
	}
	own, err := c.WithDaily(4.0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if own.DailyHighV.Value != 4.0 || own.DailyLowV.Value != c.DailyLowV.Value || c.DailyHighV.Value != 4.10 {
		t.Errorf("daily %g to %g, library %g; want 4 above the library's own bottom, the library as it was",
			own.DailyHighV.Value, own.DailyLowV.Value, c.DailyHighV.Value)
	}
	for _, bad := range []struct {
		high, low float64
		field     string
	}{{4.5, 0, "high"}, {0, 2.0, "low"}, {3.5, 3.6, "high"}, {0, 4.15, "low"}} {
		_, err := c.WithDaily(bad.high, bad.low)
		var e *OwnError
		if !errors.As(err, &e) || e.Field != bad.field {
			t.Errorf("daily %g to %g: %v, want an error about %s", bad.low, bad.high, err, bad.field)
		}
	}
}
