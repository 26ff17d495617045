package ageing

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"ampstead/physics/cell"
	"ampstead/source"
)

// Model is one fit to published ageing tests.
type Model struct {
	Name     string        // "schmalstieg"
	Title    string        // plain words
	FittedTo string        // the cell of the tests
	Families []cell.Family // chemistries of that cell; any other is use by likeness
	Covers   string        // "storage and cycling", "cycling only" or "storage only"
	Equation string
	Source   source.Source
	Limits   []Limit
	Choices  []string // decided here, where the publication leaves it open
	Silent   string   // what it says nothing about
	Band     Band     // multiplier on the loss, from the comparison of docs/ageing.md
	BandFrom source.Source
	law      law
	scale    float64 // on every loss
}

// Scaled is the model with its losses multiplied, capacity and resistance alike:
// by an end of its Band, or by what FitMultiplier found in a rig's own tests.
// Multipliers of models already scaled multiply.
func (m *Model) Scaled(multiplier float64) *Model {
	own := *m
	own.scale *= multiplier
	return &own
}

// Fitted reports whether the model was fitted to a cell of this family.
func (m *Model) Fitted(f cell.Family) bool { return slices.Contains(m.Families, f) }

// library is built once, on first use, and never changed.
var library = sync.OnceValue(func() []*Model {
	list := []*Model{schmalstieg(), schmalstiegNCA(), naumann(), wang2011(), wang2014(), xu(), flooded(), agm()}
	for _, m := range list {
		m.scale = 1
	}
	return list
})

// Names lists the models.
func Names() []string {
	var names []string
	for _, m := range library() {
		names = append(names, m.Name)
	}
	return names
}

// Lookup returns a model by its name; the error lists the known ones. The model
// is shared and must not be changed.
func Lookup(name string) (*Model, error) {
	for _, m := range library() {
		if m.Name == name {
			return m, nil
		}
	}
	return nil, fmt.Errorf("no ageing model %q; known are %s", name, strings.Join(Names(), ", "))
}

// For returns the models for a cell: the first is the one to use, the others are
// second opinions.
func For(c *cell.Cell) []*Model {
	var names []string
	switch c.Family {
	case cell.NCA:
		names = []string{"schmalstieg-nca", "xu"}
	case cell.LMO:
		names = []string{"xu", "schmalstieg", "wang2014"}
	case cell.LFP:
		names = []string{"naumann", "wang2011", "xu"}
	case cell.LeadAcid:
		names = []string{acidName(c.Name)}
	default:
		names = []string{"schmalstieg", "xu"}
	}
	var models []*Model
	for _, name := range names {
		if m, err := Lookup(name); err == nil {
			models = append(models, m)
		}
	}
	return models
}

// acidName is the cautious kind, with fewer cycles, unless it is flooded.
func acidName(cellName string) string {
	if strings.Contains(cellName, "flooded") {
		return "lead-acid-flooded"
	}
	return "lead-acid-agm"
}

// curveOf is a rest-voltage curve of the library; a missing one is a fault of the
// program, found by its tests.
func curveOf(name string) cell.Curve {
	c, err := cell.Lookup(name)
	if err != nil {
		panic(err)
	}
	return c.Curve
}
