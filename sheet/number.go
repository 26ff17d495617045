package sheet

import (
	"slices"
	"strings"

	"ampstead/figure"
	q "ampstead/quantity"
	"ampstead/source"
)

// Number is a text that can explain itself; without How it is just the text.
type Number struct {
	Text string
	How  []Figure
}

// Figure is a formula with its applications in this rig.
type Figure struct {
	Name     string
	Answers  string
	Equation string
	Range    string
	Source   source.Source
	Terms    []Term   // its inputs, then its outputs; Text is empty
	Uses     [][]Term // one list per application, in the order of Terms
	Notes    []string // what it said in words, too long for a column
}

// Term is one named quantity.
type Term struct {
	Name, Doc, Text string
	Out             bool
	None            bool // an input that is zero as it is without being given: there is none of it
}

// explain groups uses by figure in order of first use and drops repeats.
func explain(uses []figure.Use, sys q.System) []Figure {
	var list []Figure
	for _, u := range uses {
		if u.Figure == nil {
			continue
		}
		i := slices.IndexFunc(list, func(f Figure) bool { return f.Name == u.Figure.Name })
		if i < 0 {
			i = len(list)
			list = append(list, describe(u.Figure))
		}
		row := append(inputs(u, sys), outputs(u, sys)...)
		if !slices.ContainsFunc(list[i].Uses, func(r []Term) bool { return slices.Equal(r, row) }) {
			list[i].Uses = append(list[i].Uses, row)
		}
	}
	for i := range list {
		list[i].noteWords()
	}
	return list
}

func describe(f *figure.Figure) Figure {
	d := Figure{Name: f.Name, Answers: f.Answers, Equation: f.Equation, Range: f.Range, Source: f.Source}
	for _, in := range f.Inputs {
		d.Terms = append(d.Terms, Term{Name: in.Name, Doc: in.Doc})
	}
	for _, o := range f.Outputs {
		d.Terms = append(d.Terms, Term{Name: plainKey(o), Doc: o.Doc, Out: true})
	}
	return d
}

// inputs lists the values that went in; one that was not given shows the
// default it took.
func inputs(u figure.Use, sys q.System) []Term {
	var terms []Term
	for _, in := range u.Figure.Inputs {
		t := Term{Name: in.Name, Text: in.Default}
		for _, a := range u.In {
			if a.Name == in.Name {
				t.Text = argument(in, a, sys)
				t.None = nothing(in, a)
			}
		}
		terms = append(terms, t)
	}
	return terms
}

// nothing reports whether an argument is a zero that is also the input's default:
// no drop, no spread.
func nothing(in figure.Input, a figure.Arg) bool {
	if in.Dim == nil || in.List || a.Num != 0 || in.Default == "" {
		return false
	}
	v, err := in.Dim.Parse(in.Default)
	return err == nil && v == 0
}

func argument(in figure.Input, a figure.Arg, sys q.System) string {
	if in.Dim == nil || in.List {
		return shorten(a.Text)
	}
	return measure(in.Dim, a.Num, sys)
}

// longest is how much of a text argument is shown: the description of an owner's
// cell holds its whole curve.
const longest = 60

func shorten(s string) string {
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return s
}

func outputs(u figure.Use, sys q.System) []Term {
	var terms []Term
	for _, o := range u.Figure.Outputs {
		t := Term{Name: plainKey(o), Out: true}
		if v, ok := u.Out[o.Key]; ok {
			t.Text = result(o.Dim, v, sys)
		}
		terms = append(terms, t)
	}
	return terms
}

func result(d *q.Dimension, v any, sys q.System) string {
	switch v := v.(type) {
	case float64:
		if d == nil {
			d = q.Plain
		}
		return measure(d, v, sys)
	case []float64:
		var list []string
		for _, x := range v {
			list = append(list, result(d, x, sys))
		}
		return strings.Join(list, ", ")
	}
	return figure.Show(d, v, sys)
}

// unitSuffixes end output keys; a reader of a page sees the unit in the value.
var unitSuffixes = []string{"_v_per_k", "_fraction", "_percent", "_v", "_mv", "_a", "_ah", "_wh", "_w", "_c", "_k", "_h", "_s", "_ohm"}

func plainKey(o figure.Output) string {
	name := o.Key
	for _, suffix := range unitSuffixes {
		if o.Dim != nil && strings.HasSuffix(name, suffix) {
			name = strings.TrimSuffix(name, suffix)
			break
		}
	}
	return strings.ReplaceAll(name, "_", " ")
}

// about keeps the uses that put out one of the keys: the energy of a window is
// explained by its energy, not by its series count.
func about(uses []figure.Use, keys ...string) []figure.Use {
	var kept []figure.Use
	for _, u := range uses {
		if slices.ContainsFunc(keys, func(k string) bool { _, ok := u.Out[k]; return ok }) {
			kept = append(kept, u)
		}
	}
	return kept
}
