package working

import "ampstead/finding"

// Chain tells how one simulation reckons: step by step with the figures behind
// each, what it takes for granted, and how well it was found to hold.
type Chain struct {
	Key     string // "year", unique
	Title   string // what is reckoned so
	Steps   []Step
	Assumed []string
	Found   []Accuracy
}

// Step is one link of a chain.
type Step struct {
	Says    string
	Figures []string // in the handbook
}

// Accuracy is what a comparison found. Quotes stand word for word in the page of
// docs that tells of the comparison.
type Accuracy struct {
	Says   string
	Doc    string // "weather.md"
	Quotes []string
}

// Run is the working of numbers read off a simulation: which run it was, and
// what was read off it.
func (c Chain) Run(which string, read ...finding.Value) finding.Working {
	w := finding.Working{What: which, Outputs: read, Model: c.Key, Chain: c.Figures()}
	for _, a := range c.Found {
		w.Accuracy = append(w.Accuracy, a.Says)
	}
	return w
}

// Figures names the figures of all steps, each once, in their order.
func (c Chain) Figures() []string {
	seen := map[string]bool{}
	list := []string{}
	for _, s := range c.Steps {
		for _, name := range s.Figures {
			if !seen[name] {
				seen[name] = true
				list = append(list, name)
			}
		}
	}
	return list
}

// Find returns the chain of that key; without one, an empty chain.
func Find(key string) Chain {
	for _, c := range Chains() {
		if c.Key == key {
			return c
		}
	}
	return Chain{}
}

// Chains lists every chain.
func Chains() []Chain { return []Chain{Settings, Wiring, Year, Faults, Years, Compare, Bench, Log} }
