package figure_test

import (
	"errors"
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// ohm is a figure of the test's own.
var ohm = &figure.Figure{
	Name: "ohm", Answers: "What current flows?",
	Inputs: []figure.Input{
		{Name: "voltage", Dim: quantity.Volts, Doc: "across it"},
		{Name: "resistance", Dim: quantity.Ohms, Doc: "of it", Default: "2 Ω"},
		{Name: "note", Doc: "anything", Default: "none"},
	},
	Outputs:  []figure.Output{{Key: "current_a", Dim: quantity.Amperes}, {Key: "note"}},
	Equation: "I = V / R", Source: source.Source{Key: "test", Text: "A test", Standing: source.Computed}, Range: "R > 0",
	Compute: func(a figure.Args) (figure.Results, error) {
		if a.Num("resistance") <= 0 {
			return nil, figure.ErrRange
		}
		return figure.Results{"current_a": a.Num("voltage") / a.Num("resistance"), "note": a.Text("note")}, nil
	},
	Checks: []figure.Check{
		{Note: "right", In: []string{"voltage=12 V", "resistance=3 ohm"}, Output: "current_a", Expected: 4.0, Tolerance: 1e-9},
		{Note: "wrong", In: []string{"voltage=12 V", "resistance=3 ohm"}, Output: "current_a", Expected: 5.0, Tolerance: 0.5},
		{Note: "text", In: []string{"voltage=1", "note=here"}, Output: "note", Expected: "here"},
		{Note: "error", In: []string{"volts=1"}, Output: "current_a", Expected: 1.0, Tolerance: 1},
	},
}

func TestUse(t *testing.T) {
	u, err := ohm.Use(figure.N("voltage", 12.0))
	if err != nil {
		t.Fatal(err)
	}
	if got := u.Num("current_a"); got != 6 {
		t.Errorf("current = %v, want 6 with the default resistance", got)
	}
	if got := u.Num("note"); got == got {
		t.Errorf("a text read as a number gave %v, want NaN", got)
	}
}

func TestReadTakesUnitsAndBareNumbers(t *testing.T) {
	for _, pairs := range [][]string{{"voltage=12 V"}, {"voltage=12000mV"}, {"voltage=12"}} {
		u, err := ohm.Read(pairs)
		if err != nil {
			t.Errorf("%v: %v", pairs, err)
			continue
		}
		if got := u.Num("current_a"); got != 6 {
			t.Errorf("%v: current = %v, want 6", pairs, got)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for _, row := range []struct {
		pairs []string
		want  string
	}{
		{nil, "needs voltage"},
		{[]string{"voltage"}, "name=value"},
		{[]string{"current=1 A"}, "voltage, resistance, note"},
		{[]string{"voltage=3 A"}, "is a current"},
		{[]string{"voltage=high"}, "does not start with a number"},
	} {
		_, err := ohm.Read(row.pairs)
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%v: error %v, want one that says %q", row.pairs, err, row.want)
		}
	}
	if _, err := ohm.Read([]string{"voltage=1", "resistance=0"}); !errors.Is(err, figure.ErrRange) {
		t.Errorf("out of range: %v", err)
	}
}

func TestVerifyTellsRightFromWrong(t *testing.T) {
	want := map[string]bool{"right": true, "wrong": false, "text": true, "error": false}
	for _, o := range ohm.Verify() {
		if o.Pass != want[o.Note] {
			t.Errorf("check %s: pass = %v, got %v", o.Note, o.Pass, o.Got)
		}
	}
}

func TestNamesAreEachOnce(t *testing.T) {
	u, err := ohm.Use(figure.N("voltage", 1.0))
	if err != nil {
		t.Fatal(err)
	}
	if got := figure.Names([]figure.Use{u, u}); len(got) != 1 || got[0] != "ohm" {
		t.Errorf("names = %v", got)
	}
}

func TestLedgerKeepsUsesAndTheFirstFailure(t *testing.T) {
	var l figure.Ledger
	l.Use(ohm, figure.N("voltage", 12.0))
	if bad := l.Use(ohm, figure.N("voltage", 1.0), figure.N("resistance", 0.0)); bad.Figure != nil {
		t.Errorf("a failed use gave %v", bad)
	}
	first := l.Err
	l.Fail(errors.New("later"))
	if len(l.Uses) != 1 || !errors.Is(first, figure.ErrRange) || l.Err != first {
		t.Errorf("%d uses, error %v, then %v", len(l.Uses), first, l.Err)
	}
}
