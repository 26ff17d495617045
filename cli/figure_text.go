package cli

import (
	"fmt"
	"io"
	"strings"

	"ampstead/figure"
	"ampstead/quantity"
)

// figureEntry is a figure as the JSON list shows it.
type figureEntry struct {
	Figure   string        `json:"figure"`
	Answers  string        `json:"answers"`
	Inputs   []figureInput `json:"inputs"`
	Outputs  []string      `json:"output_keys"`
	Equation string        `json:"equation"`
	Source   string        `json:"source"`
	Standing string        `json:"standing"`
	Range    string        `json:"range"`
}

type figureInput struct {
	Name    string `json:"name"`
	Unit    string `json:"unit"`
	Doc     string `json:"doc"`
	Default string `json:"default,omitempty"`
}

// figureResult is a computed figure, as the contract fixes it.
type figureResult struct {
	Figure   string           `json:"figure"`
	Inputs   map[string]any   `json:"inputs"` // in base units
	Outputs  figure.Results   `json:"outputs"`
	Equation string           `json:"equation"`
	Source   string           `json:"source"`
	Standing string           `json:"standing"`
	Range    string           `json:"range"`
	Checks   []figure.Outcome `json:"checks"`
}

func entryOf(f *figure.Figure) figureEntry {
	e := figureEntry{Figure: f.Name, Answers: f.Answers, Equation: f.Equation, Source: f.Source.Text,
		Standing: string(f.Source.Standing), Range: f.Range}
	for _, i := range f.Inputs {
		e.Inputs = append(e.Inputs, figureInput{i.Name, unitOf(i), i.Doc, i.Default})
	}
	for _, o := range f.Outputs {
		e.Outputs = append(e.Outputs, o.Key)
	}
	return e
}

func resultOf(use figure.Use) figureResult {
	f := use.Figure
	inputs := map[string]any{}
	for _, a := range use.In {
		inputs[a.Name] = argValue(f, a)
	}
	return figureResult{Figure: f.Name, Inputs: inputs, Outputs: use.Out, Equation: f.Equation, Source: f.Source.Text,
		Standing: string(f.Source.Standing), Range: f.Range, Checks: f.Verify()}
}

func argValue(f *figure.Figure, a figure.Arg) any {
	for _, i := range f.Inputs {
		if i.Name != a.Name || i.Dim == nil {
			continue
		}
		if !i.List {
			return a.Num
		}
		if list, err := figure.ReadList(i.Name, i.Dim, a.Text); err == nil {
			return list
		}
	}
	return a.Text
}

func unitOf(i figure.Input) string {
	switch {
	case i.Dim == nil:
		return "text"
	case i.List:
		return strings.TrimSpace("list " + i.Dim.Base)
	}
	return i.Dim.Base
}

func describeFigure(w io.Writer, f *figure.Figure) {
	fmt.Fprintf(w, "%s: %s\n\n", f.Name, f.Answers)
	for _, i := range f.Inputs {
		need := "needed"
		if i.Default != "" {
			need = "default " + i.Default
		}
		fmt.Fprintf(w, "  %-18s %-8s %s (%s)\n", i.Name, unitOf(i), i.Doc, need)
	}
	fmt.Fprintln(w)
	for _, o := range f.Outputs {
		fmt.Fprintf(w, "  -> %-15s %s\n", o.Key, o.Doc)
	}
	footFigure(w, f)
}

func footFigure(w io.Writer, f *figure.Figure) {
	fmt.Fprintf(w, "\n  equation  %s\n  source    %s (%s)\n  holds     %s\n", f.Equation, f.Source.Text, f.Source.Standing, f.Range)
}

func showUse(w io.Writer, use figure.Use) {
	for _, o := range use.Figure.Outputs {
		value, ok := use.Out[o.Key]
		if !ok {
			continue
		}
		fmt.Fprintf(w, "%-22s %s   (%s)\n", o.Key, figure.Show(o.Dim, value, quantity.Metric), o.Doc)
	}
	footFigure(w, use.Figure)
}

// verify runs the checks of the figures and prints each with its difference.
func (c *figureCommand) verify(r *run, list []*figure.Figure) error {
	var outcomes []figure.Outcome
	failed := 0
	for _, f := range list {
		for _, o := range f.Verify() {
			outcomes = append(outcomes, o)
			if !o.Pass {
				failed++
			}
		}
	}
	if c.JSON {
		if err := writeJSON(r.Stdout, map[string]any{"checks": outcomes, "failed": failed}); err != nil {
			return err
		}
	} else {
		printOutcomes(r.Stdout, outcomes)
		fmt.Fprintf(r.Stdout, "\n%d figures, %d checks, %d failed\n", len(list), len(outcomes), failed)
	}
	if failed > 0 {
		return fmt.Errorf("%d of %d checks failed", failed, len(outcomes))
	}
	return nil
}

func printOutcomes(w io.Writer, outcomes []figure.Outcome) {
	name := ""
	for _, o := range outcomes {
		if o.Figure != name {
			name = o.Figure
			fmt.Fprintf(w, "\n%s\n", name)
		}
		verdict := "pass"
		if !o.Pass {
			verdict = "FAIL"
		}
		fmt.Fprintf(w, "  %s  expected %v, got %v%s\n        %s", verdict, short(o.Expected), short(o.Got), difference(o), o.Source)
		if o.Note != "" {
			fmt.Fprintf(w, "; %s", o.Note)
		}
		fmt.Fprintln(w)
	}
}

func short(v any) any {
	if f, ok := v.(float64); ok {
		return fmt.Sprintf("%.7g", f)
	}
	return figure.Show(nil, v, quantity.Metric)
}

func difference(o figure.Outcome) string {
	want, ok := o.Expected.(float64)
	got, isNumber := o.Got.(float64)
	if !ok || !isNumber {
		return ""
	}
	return fmt.Sprintf(", difference %.2g (tolerance %.2g)", got-want, o.Tolerance)
}
