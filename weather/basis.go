package weather

import (
	"slices"

	"ampstead/source"
)

// Kind says in two words what a weather rests on.
type Kind string

// The kinds.
const (
	Table     Kind = "climate table"
	Synthetic Kind = "synthetic hours"
	File      Kind = "hourly file"
)

// Basis is what a weather rests on, printed beside every result made from it.
type Basis struct {
	Kind    Kind
	Name    string          // place or file
	Years   string          // the years it was measured in: "1983-2005", "typical year"
	Seed    uint64          // of synthetic hours
	Number  int             // which synthetic year, counting from 0
	Sources []source.Source // strongest first
	Notes   []string        // what was assumed or filled in
}

// Keys lists the keys of the sources.
func (b Basis) Keys() []string {
	keys := make([]string, len(b.Sources))
	for i, s := range b.Sources {
		keys[i] = s.Key
	}
	return keys
}

// Weak reports whether any of it is remembered or common practice.
func (b Basis) Weak() bool { return slices.ContainsFunc(b.Sources, source.Source.Weak) }
