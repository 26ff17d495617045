package handbook_test

import (
	"testing"

	"ampstead/figure"
	"ampstead/handbook"
)

func TestEveryFigureBelongsToAStage(t *testing.T) {
	for _, f := range handbook.All() {
		if len(handbook.Stages(f.Name)) == 0 {
			t.Errorf("%s belongs to no stage", f.Name)
		}
	}
	if got, all := len(handbook.Of("wire", handbook.All())), len(handbook.Of("", handbook.All())); got == 0 || got >= all {
		t.Errorf("wire has %d of %d", got, all)
	}
}

func TestReportCounts(t *testing.T) {
	r := handbook.Verify(handbook.All())
	n := 0
	for _, c := range r.Figures {
		n += len(c.Outcomes)
		if share, ok := c.Worst(); ok && share > 1 {
			t.Errorf("%s is %.2f of its tolerance off", c.Figure.Name, share)
		}
	}
	if r.Checks != n || n == 0 || r.Differ != 0 {
		t.Errorf("%d checks, counted %d, %d differ", r.Checks, n, r.Differ)
	}
}

func TestDifference(t *testing.T) {
	for _, c := range []struct {
		o    figure.Outcome
		want float64
		ok   bool
	}{
		{figure.Outcome{Expected: 2.0, Got: 1.5}, 0.5, true},
		{figure.Outcome{Expected: 2.0, Got: "a word"}, 0, false},
		{figure.Outcome{Expected: []float64{1, 2}, Got: []float64{1, 4}}, 2, true},
		{figure.Outcome{Expected: []float64{1, 2}, Got: []float64{1}}, 0, false},
		{figure.Outcome{Expected: "a", Got: "a"}, 0, false},
	} {
		got, ok := handbook.Difference(c.o)
		if ok != c.ok || ok && got != c.want {
			t.Errorf("%+v: %v %v", c.o, got, ok)
		}
	}
}
