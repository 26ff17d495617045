package figure_test

import (
	"slices"
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

type step struct {
	From  float64 `json:"from_v"`
	Count float64 `json:"count"`
}

// sums is a figure of the test's own, with lists both ways.
var sums = &figure.Figure{
	Name: "sums", Answers: "What do they add up to, one after the other?",
	Inputs:  []figure.Input{{Name: "voltages", Dim: quantity.Volts, List: true, Doc: "of them", Example: "1,2"}, {Name: "more", Dim: quantity.Volts, List: true, Default: "1,1"}},
	Outputs: []figure.Output{{Key: "sums_v", Dim: quantity.Volts}, {Key: "steps"}},
	Source:  source.Equation,
	Compute: func(a figure.Args) (figure.Results, error) {
		list, err := a.List("voltages", quantity.Volts)
		if err != nil {
			return nil, err
		}
		more, err := a.List("more", quantity.Volts)
		if err != nil {
			return nil, err
		}
		var sums []float64
		var steps []step
		total := 0.0
		for _, v := range append(list, more...) {
			steps = append(steps, step{total, 0.5})
			total += v
			sums = append(sums, total)
		}
		return figure.Results{"sums_v": sums, "steps": steps}, nil
	},
	Checks: []figure.Check{
		{Note: "right", In: []string{"voltages=1"}, Output: "sums_v", Expected: []float64{1, 2, 3}, Tolerance: 1e-9},
		{Note: "wrong", In: []string{"voltages=1"}, Output: "sums_v", Expected: []float64{1, 2, 4}, Tolerance: 1e-9},
		{Note: "short", In: []string{"voltages=1"}, Output: "sums_v", Expected: []float64{1, 2}, Tolerance: 1e-9},
		{Note: "records", In: []string{"voltages=1", "more=2"}, Output: "steps", Expected: "from v 0, count 0.5; from v 1, count 0.5"},
	},
}

func TestListsAreReadInUnits(t *testing.T) {
	for _, pair := range []string{"voltages=4.05,4.00", "voltages=4.05 V, 4000 mV"} {
		u, err := sums.Read([]string{pair, "more=0"})
		if err != nil {
			t.Fatal(err)
		}
		if got := u.Out["sums_v"].([]float64); !slices.Equal(got, []float64{4.05, 8.05, 8.05}) {
			t.Errorf("%s: %v", pair, got)
		}
	}
	if _, err := sums.Read([]string{"voltages=4.05,x"}); err == nil || !strings.Contains(err.Error(), "voltages") {
		t.Errorf("a word in a list: %v", err)
	}
}

func TestListsAreGivenAsNumbers(t *testing.T) {
	u, err := sums.Use(figure.L("voltages", []float64{0.1, 0.2}))
	if err != nil {
		t.Fatal(err)
	}
	if got := u.Out["sums_v"].([]float64); len(got) != 4 || got[0] != 0.1 {
		t.Errorf("got %v with the default list", got)
	}
}

func TestChecksOfLists(t *testing.T) {
	want := map[string]bool{"right": true, "wrong": false, "short": false, "records": true}
	for _, o := range sums.Verify() {
		if o.Pass != want[o.Note] {
			t.Errorf("check %s: pass = %v, got %v", o.Note, o.Pass, o.Got)
		}
	}
}

func TestShow(t *testing.T) {
	for _, row := range []struct {
		d    *quantity.Dimension
		v    any
		want string
	}{
		{quantity.Volts, []float64{3.5, 12}, "3.5 V, 12 V"},
		{nil, 0.25, "0.25"},
		{nil, "a word", "a word"},
		{nil, []string{"a", "b"}, "a, b"},
	} {
		if got := figure.Show(row.d, row.v, quantity.Metric); got != row.want {
			t.Errorf("%v shown as %q, want %q", row.v, got, row.want)
		}
	}
}
