package handbook

import (
	"math"
	"slices"

	"ampstead/figure"
)

// Report is every check of some figures, run on this machine.
type Report struct {
	Figures []Checked
	Checks  int
	Differ  int // by more than their tolerance
}

// Checked is one figure with its checks.
type Checked struct {
	Figure   *figure.Figure
	Outcomes []figure.Outcome
	Differ   int
}

// Verify runs every check of the figures.
func Verify(list []*figure.Figure) Report {
	var r Report
	for _, f := range list {
		c := Checked{Figure: f, Outcomes: f.Verify()}
		for _, o := range c.Outcomes {
			if !o.Pass {
				c.Differ++
			}
		}
		r.Checks += len(c.Outcomes)
		r.Differ += c.Differ
		r.Figures = append(r.Figures, c)
	}
	return r
}

// Worst is the largest difference of a figure's numeric checks as a share of
// their tolerance; ok is false when none of them has both.
func (c Checked) Worst() (share float64, ok bool) {
	for _, o := range c.Outcomes {
		if d, is := Difference(o); is && o.Tolerance > 0 {
			share, ok = max(share, d/o.Tolerance), true
		}
	}
	return share, ok
}

// Difference is how far a number, or the farthest of a list, came from what was
// expected; ok is false for texts.
func Difference(o figure.Outcome) (float64, bool) {
	switch want := o.Expected.(type) {
	case float64:
		got, ok := o.Got.(float64)
		return math.Abs(got - want), ok
	case []float64:
		got, ok := o.Got.([]float64)
		if !ok || len(got) != len(want) {
			return 0, false
		}
		worst := 0.0
		for k := range want {
			worst = max(worst, math.Abs(got[k]-want[k]))
		}
		return worst, true
	}
	return 0, false
}

// Of keeps the figures a stage reckons with; all of them for "".
func Of(stage string, list []*figure.Figure) []*figure.Figure {
	if stage == "" {
		return list
	}
	var kept []*figure.Figure
	for _, f := range list {
		if slices.Contains(Stages(f.Name), stage) {
			kept = append(kept, f)
		}
	}
	return kept
}
