package rig

import (
	"fmt"
	"reflect"
	"strings"
)

// Answers are what Starter needs to know, by Question.Key; what is left out has
// the question's default.
type Answers map[string]string

// Question is one thing that a new rig file starts from.
type Question struct {
	Key      string // "cell-capacity"
	Question string
	Example  string
	Default  string
	path     string // of the field it fills; items of lists without their names
}

// Questions lists what Starter asks, in the order in which to ask.
func Questions() []Question {
	return []Question{
		{"name", "What do you call the rig?", "Curlew", "Our van", "about.name"},
		{"units", "Which units do you read: metric or us?", "metric", "metric", "about.units"},
		{"cell", "Which cell is in the bank, by its name in the library?", "nmc532", "nmc532", "bank.cell"},
		{"series", "How many groups of cells are in series?", "12", "12", "bank.series"},
		{"cells-per-group", "How many cells are in parallel in one group?", "1", "1", "bank.cells_per_group"},
		{"strings", "How many such modules are side by side?", "2", "1", "bank.strings"},
		{"cell-capacity", "What capacity has one cell, when new?", "94 Ah", "94 Ah", "bank.cell_capacity"},
		{"sources", "What charges it: solar, mains, alternator?", "solar, mains", "solar", ""},
		{"inverter", "Is there a mains inverter: yes or no?", "yes", "no", ""},
		{"coldest", "How cold can the bank get?", "1 °C", "0 °C", "route.coldest"},
	}
}

// complete checks the answers and fills in defaults.
func (a Answers) complete() (Answers, error) {
	full := Answers{}
	for _, q := range Questions() {
		full[q.Key] = strings.TrimSpace(a[q.Key])
		if full[q.Key] == "" {
			full[q.Key] = q.Default
		}
		if err := q.check(full[q.Key]); err != nil {
			return nil, err
		}
	}
	for key := range a {
		if _, ok := full[key]; !ok {
			return nil, fmt.Errorf("%s is not a question", key)
		}
	}
	if full["cell"] == OwnCellName {
		return nil, fmt.Errorf("cell: describe a cell of your own in the file afterwards; expected a name from the library")
	}
	return full, nil
}

// check reads the answer as the field it fills.
func (q Question) check(answer string) error {
	switch q.Key {
	case "sources":
		_, err := sourceKinds(answer)
		return err
	case "inverter":
		return q.read(answer, &field{kind: yesNo, eg: q.Example}, reflect.TypeFor[bool]())
	}
	s, f := rigShape, (*field)(nil)
	for _, step := range strings.Split(q.path, ".") {
		f = s.field(step)
		if f.deep() {
			s = f.inner
		}
	}
	return q.read(answer, f, s.typ.Field(f.index).Type)
}

func (q Question) read(answer string, f *field, t reflect.Type) error {
	if p := f.read(answer, reflect.New(t).Elem()); p != nil {
		return fmt.Errorf("%s: %s; %s", q.Key, p.Message, p.Hint())
	}
	return nil
}

// sourceKinds reads "solar, mains"; none is an empty list.
func sourceKinds(answer string) ([]string, error) {
	known := rigShape.field("charge").inner.field("kind").oneof
	var kinds []string
	for _, kind := range strings.FieldsFunc(answer, func(r rune) bool { return r == ',' || r == ' ' }) {
		if kind == "none" {
			continue
		}
		if !contains(known, kind) {
			return nil, fmt.Errorf("sources: %q is not a word known here; expected any of %s; example: solar, mains", kind, strings.Join(known, ", "))
		}
		if !contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
	}
	return kinds, nil
}
