package figure

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"ampstead/quantity"
	"ampstead/source"
)

// Figure is one registered formula.
type Figure struct {
	Name     string // "rest-voltage"
	Answers  string // the question in plain words
	Inputs   []Input
	Outputs  []Output
	Equation string // as text, symbols tied to the input names
	Source   source.Source
	Range    string // where it holds
	Compute  func(Args) (Results, error)
	Checks   []Check
}

// Input is a named argument: a quantity, a comma-separated list of them, or text
// when Dim is nil.
type Input struct {
	Name    string
	Dim     *quantity.Dimension
	List    bool // read with Args.List; Example says what to write
	Doc     string
	Default string // written as a person would; empty means it must be given
	Example string // for lists and texts, what to write
}

// Output is a named result. Key carries the unit, as voltage_v.
type Output struct {
	Key string
	Dim *quantity.Dimension // nil for text and lists
	Doc string
}

// Args are parsed arguments, numbers in base units.
type Args struct {
	num  map[string]float64
	text map[string]string
}

// Results are outputs by key: float64 in base units, string, []float64 or a
// list of records.
type Results map[string]any

// Num returns a numeric argument in its base unit.
func (a Args) Num(name string) float64 { return a.num[name] }

// Text returns an argument as it was written.
func (a Args) Text(name string) string { return a.text[name] }

// List returns a comma-separated argument as numbers in the input's base unit.
func (a Args) List(name string, d *quantity.Dimension) ([]float64, error) {
	return ReadList(name, d, a.text[name])
}

// Arg is one argument of Use: a number in base units, or a text.
type Arg struct {
	Name string
	Num  float64
	Text string
}

// N makes a numeric argument from a number in the input's base unit.
func N[V ~float64 | ~int](name string, v V) Arg { return Arg{Name: name, Num: float64(v)} }

// L makes a list argument from numbers in the input's base unit.
func L(name string, list []float64) Arg {
	parts := make([]string, len(list))
	for k, v := range list {
		parts[k] = strconv.FormatFloat(v, 'g', -1, 64)
	}
	return T(name, strings.Join(parts, ","))
}

// T makes a text argument.
func T(name, text string) Arg { return Arg{Name: name, Text: text} }

// Use is one application of a figure, kept so that a number can explain itself.
type Use struct {
	Figure *Figure
	In     []Arg
	Out    Results
}

// Num returns a numeric output, or NaN when there is none of that key.
func (u Use) Num(key string) float64 {
	if v, ok := u.Out[key].(float64); ok {
		return v
	}
	return math.NaN()
}

// Use computes the figure from arguments in base units. Missing arguments take
// their defaults. Errors: an unknown or missing argument, or outside the range.
func (f *Figure) Use(in ...Arg) (Use, error) {
	args := Args{num: map[string]float64{}, text: map[string]string{}}
	for _, a := range in {
		i := f.input(a.Name)
		if i == nil {
			return Use{}, fmt.Errorf("%s has no input %q", f.Name, a.Name)
		}
		args.num[a.Name], args.text[a.Name] = a.Num, a.Text
	}
	if err := f.fill(args); err != nil {
		return Use{}, err
	}
	out, err := f.Compute(args)
	if err != nil {
		return Use{}, fmt.Errorf("%s: %w", f.Name, err)
	}
	return Use{Figure: f, In: in, Out: out}, nil
}

// Read parses name=value pairs as a person writes them and computes. A bare
// number is taken in the input's base unit, which the listing names.
func (f *Figure) Read(pairs []string) (Use, error) {
	var in []Arg
	for _, pair := range pairs {
		a, err := f.readArg(pair)
		if err != nil {
			return Use{}, err
		}
		in = append(in, a)
	}
	return f.Use(in...)
}

func (f *Figure) readArg(pair string) (Arg, error) {
	name, value, ok := strings.Cut(pair, "=")
	if !ok {
		return Arg{}, fmt.Errorf("%q: expected name=value, such as %s", pair, f.example())
	}
	i := f.input(name)
	if i == nil {
		return Arg{}, fmt.Errorf("%s has no input %q; it has %s", f.Name, name, strings.Join(f.inputNames(), ", "))
	}
	a := Arg{Name: name, Text: value}
	switch {
	case i.Dim == nil:
		return a, nil
	case i.List:
		_, err := ReadList(name, i.Dim, value)
		return a, err
	}
	v, err := parseInput(i.Dim, value)
	if err != nil {
		return Arg{}, fmt.Errorf("%s: %w", name, err)
	}
	a.Num = v
	return a, nil
}

// parseInput reads a quantity; a bare number counts in the base unit.
func parseInput(d *quantity.Dimension, text string) (float64, error) {
	v, err := d.Parse(text)
	if err == nil {
		return v, nil
	}
	if bare, bareErr := quantity.Plain.Parse(text); bareErr == nil {
		return bare, nil
	}
	return 0, err
}

func (f *Figure) fill(args Args) error {
	for _, i := range f.Inputs {
		if _, given := args.num[i.Name]; given {
			continue
		}
		if i.Default == "" {
			return fmt.Errorf("%s needs %s: %s", f.Name, i.Name, i.Doc)
		}
		args.text[i.Name] = i.Default
		if i.Dim == nil || i.List {
			args.num[i.Name] = 0
			continue
		}
		v, err := parseInput(i.Dim, i.Default)
		if err != nil {
			return fmt.Errorf("%s: default of %s: %w", f.Name, i.Name, err)
		}
		args.num[i.Name] = v
	}
	return nil
}

func (f *Figure) input(name string) *Input {
	for k := range f.Inputs {
		if f.Inputs[k].Name == name {
			return &f.Inputs[k]
		}
	}
	return nil
}

func (f *Figure) inputNames() []string {
	var names []string
	for _, i := range f.Inputs {
		names = append(names, i.Name)
	}
	return names
}

func (f *Figure) example() string {
	if len(f.Inputs) == 0 {
		return f.Name
	}
	i := f.Inputs[0]
	if i.Example != "" {
		return i.Name + "=" + i.Example
	}
	if i.Dim != nil {
		return i.Name + "=" + fmt.Sprintf("%q", i.Dim.Example)
	}
	return i.Name + "=..."
}

// ErrRange marks an input outside the range a figure holds for.
var ErrRange = errors.New("outside the range this holds for")

// Names returns the sorted names of the figures used, each once.
func Names(uses []Use) []string {
	seen := map[string]bool{}
	names := []string{}
	for _, u := range uses {
		if !seen[u.Figure.Name] {
			seen[u.Figure.Name] = true
			names = append(names, u.Figure.Name)
		}
	}
	sort.Strings(names)
	return names
}
