package fit_test

import (
	"errors"
	"math"
	"testing"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

func TestDailyWindowAsWanted(t *testing.T) {
	r := load(t, "curlew")
	r.Bank.Daily = &rig.Daily{High: ptr[q.Voltage](4.0), Low: ptr[q.Voltage](3.5)}
	res := run(t, r)
	if math.Abs(res.Daily.CellHighV-4.0) > 1e-9 || math.Abs(res.Daily.CellLowV-3.5) > 1e-9 {
		t.Errorf("daily window %g to %g V a cell, want 3.5 to 4", res.Daily.CellLowV, res.Daily.CellHighV)
	}
	if n := count(res, "daily-window-unmet"); n != 0 {
		t.Errorf("%d findings about a window that is met", n)
	}
}

func TestDailyWindowWiderThanTheLayers(t *testing.T) {
	r := load(t, "curlew")
	r.Bank.Daily = &rig.Daily{High: ptr[q.Voltage](4.19), Low: ptr[q.Voltage](3.05)}
	res := run(t, r)
	for _, l := range res.Layers {
		if l.MarginMV < 0 {
			t.Errorf("%s crosses the next layer by %g mV", l.Name, -l.MarginMV)
		}
	}
	if n := count(res, "daily-window-unmet"); n != 2 {
		t.Errorf("%d findings about a window that is not met, want one for each end", n)
	}
}

func TestDailyWindowRefused(t *testing.T) {
	r := load(t, "curlew")
	r.Bank.Daily = &rig.Daily{High: ptr[q.Voltage](4.4)}
	_, err := fit.Run(r)
	var e *fit.InputError
	if !errors.As(err, &e) || e.Path != "bank.daily.high" {
		t.Errorf("got %v, want an error at bank.daily.high", err)
	}
}

// A lead-acid bank is charged full whatever is wanted of it.
func TestDailyWindowOfLeadAcid(t *testing.T) {
	r := load(t, "curlew")
	r.Bank.Cell, r.Bank.Series, r.Bank.Measured = "lead-acid-agm", 24, nil
	want := run(t, r).Daily
	r.Bank.Daily = &rig.Daily{High: ptr[q.Voltage](2.2)}
	res := run(t, r)
	if res.Daily.CellHighV != want.CellHighV || count(res, "daily-window-unmet") != 1 {
		t.Errorf("charged to %g V a cell, want %g and a finding", res.Daily.CellHighV, want.CellHighV)
	}
}

func count(res *fit.Result, id string) int {
	n := 0
	for _, f := range res.Findings {
		if f.ID == id {
			n++
		}
	}
	return n
}
