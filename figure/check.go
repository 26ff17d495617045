package figure

import (
	"fmt"
	"math"
	"slices"

	"ampstead/quantity"
	"ampstead/source"
)

// Check is a published value a figure must reproduce.
type Check struct {
	Source    source.Source
	Note      string   // which table, example or page
	In        []string // name=value as a person writes them
	Output    string   // key of the output compared
	Expected  any      // float64 in base units, []float64, or string for the exact text that Show gives
	Tolerance float64  // absolute, in base units
}

// Outcome is a check that was run.
type Outcome struct {
	Figure    string  `json:"figure,omitempty"`
	Source    string  `json:"source"`
	Note      string  `json:"note,omitempty"`
	Expected  any     `json:"expected"`
	Got       any     `json:"got"`
	Tolerance float64 `json:"tolerance"`
	Pass      bool    `json:"pass"`
}

// Verify runs every check of the figure.
func (f *Figure) Verify() []Outcome {
	outcomes := make([]Outcome, 0, len(f.Checks))
	for _, c := range f.Checks {
		outcomes = append(outcomes, f.verify(c))
	}
	return outcomes
}

func (f *Figure) verify(c Check) Outcome {
	o := Outcome{Figure: f.Name, Source: c.Source.Text, Note: c.Note, Expected: c.Expected, Tolerance: c.Tolerance}
	use, err := f.Read(c.In)
	if err != nil {
		o.Got = err.Error()
		return o
	}
	o.Got = use.Out[c.Output]
	switch want := c.Expected.(type) {
	case float64:
		got, ok := o.Got.(float64)
		o.Pass = ok && math.Abs(got-want) <= c.Tolerance
	case []float64:
		got, ok := o.Got.([]float64)
		o.Pass = ok && slices.EqualFunc(got, want, func(g, w float64) bool { return math.Abs(g-w) <= c.Tolerance })
	default:
		o.Pass = Show(nil, o.Got, quantity.Metric) == fmt.Sprint(want)
	}
	return o
}
