package finding

import (
	"reflect"
	"slices"
)

// Working is one thing behind the numbers of a finding, as plain data: a figure
// of the handbook that was applied, a value that was taken as it is, or a run of
// the simulation they were read off.
type Working struct {
	What     string   `json:"what,omitempty"`     // in words: what was taken, or which run it was
	Figure   string   `json:"figure,omitempty"`   // name in the handbook
	Inputs   []Value  `json:"inputs,omitempty"`   // what went in; of a value taken, the value
	Outputs  []Value  `json:"outputs,omitempty"`  // what came out; of a run, what was read off it
	Model    string   `json:"model,omitempty"`    // of a run: key of how it is reckoned, "year"
	Chain    []string `json:"figures,omitempty"`  // of a run: the figures its model is made of
	Accuracy []string `json:"accuracy,omitempty"` // of a run: how well its model was found to hold
	Source   string   `json:"source,omitempty"`   // of a value taken
	Standing string   `json:"standing,omitempty"` // how that source was read
}

// Value is one named number, list or text of a working.
type Value struct {
	Name  string `json:"name"`
	Value any    `json:"value"`          // float64 in unit, []float64, or text
	Unit  string `json:"unit,omitempty"` // SI, "V"
}

// By returns the finding with what stands behind its numbers, each once.
func (f Finding) By(workings ...Working) Finding {
	f.Workings = f.Workings[:len(f.Workings):len(f.Workings)]
	for _, w := range workings {
		if !slices.ContainsFunc(f.Workings, func(v Working) bool { return reflect.DeepEqual(v, w) }) {
			f.Workings = append(f.Workings, w)
		}
	}
	return f
}

// AllBy adds the same workings to each of a list that has none yet.
func AllBy(list []Finding, workings ...Working) []Finding {
	for k := range list {
		if len(list[k].Workings) == 0 {
			list[k] = list[k].By(workings...)
		}
	}
	return list
}
