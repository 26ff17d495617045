package sheet

import (
	"slices"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/picture"
	"ampstead/wire"
)

// Wiring is the wiring as text.
type Wiring struct {
	Lead       []string // what every part of it must bear
	Circuits   []CircuitRow
	Order      []string // which fuse of two in series clears first
	Contactors []Sheetlet
	Strings    []StringRow
	Arrays     []string
	Parts      []PartRow
	Points     []Point
	Assumed    []string
	Findings   []Finding

	res *wire.Result
}

// CircuitRow is a line of the schedule of conductors and their protection.
type CircuitRow struct {
	Name, Ends             string
	Proposed               bool
	Length, Current        string
	Size, Insulation       string
	Ampacity, Drop         Number
	Fuse, Interrupt, Needs Number
	Way                    string // lost all the way from the bank, where that is more
	Stands                 string // where its fuse stands when it has none of its own, or that it is to add
	Decided                string
	Small                  bool // smaller than its rules ask for
}

// Sheetlet is a device with what is known of it.
type Sheetlet struct {
	Name string
	Rows []Known
}

// Known is one thing known of a device.
type Known struct {
	What  string
	Value Number
	Note  string
}

// StringRow is a string of panels on its coldest day.
type StringRow struct {
	Name, Charger, Layout, Coldest string
	Open                           string
	Table, Coefficient             Number
	Limit, Most                    string
	Passes                         bool
}

// PartRow is a line of the parts list.
type PartRow struct {
	Item, Spec, Quantity, For string
	Have                      bool
}

// Point is something that is closed, with what is measured before.
type Point struct {
	Before string
	Steps  []StepRow
}

// StepRow is one measurement.
type StepRow struct {
	Number      int
	Where, What string
	Expected    Number // the middle where the range is about one value
	Range       string
	Why         string
}

// WithWire returns the model with the wiring, its findings apart from those of the
// fit, and its figures and their sources among the others.
func (m *Model) WithWire(res *wire.Result) *Model {
	with := *m
	if res == nil {
		return &with
	}
	w := &wireRows{res: res, sys: m.Units}
	with.Wiring = &Wiring{res: res, Lead: w.lead(), Circuits: w.circuits(), Order: w.order(), Contactors: w.contactors(), Strings: w.strings(),
		Arrays: w.arrays(), Parts: w.parts(), Points: w.points(), Assumed: sentencesOf(res.Assumed), Findings: m.stageFindings("wire", res.Findings)}
	var uses []figure.Use
	if m.made != nil {
		uses = m.made.res.Uses
	}
	with.Figures = explain(slices.Concat(uses, res.Uses), m.Units)
	with.Sources = references(&with)
	for _, s := range m.Sources {
		if !slices.ContainsFunc(with.Sources, func(r Reference) bool { return r.Key == s.Key }) {
			with.Sources = append(with.Sources, s)
		}
	}
	slices.SortFunc(with.Sources, byText)
	return &with
}

// stageFindings prepares the findings of a stage after the fit.
func (m *Model) stageFindings(stage string, list []finding.Finding) []Finding {
	b := &builder{}
	if m.made != nil {
		b.file = m.made.file
	}
	var out []Finding
	for i, f := range list {
		out = append(out, b.finding(f, stage+"-"+f.ID, i))
	}
	return out
}

// Tally counts the findings of the wiring in words.
func (w *Wiring) Tally() string { return tally(w.Findings) }

// OneLinePicture is the one-line diagram.
func (m *Model) OneLinePicture() Drawings {
	if m.Wiring == nil {
		return Drawings{}
	}
	draw := func(width int) string {
		return picture.OneLine(m.Wiring.res, picture.Options{Units: m.Units, Width: width})
	}
	d := Drawings{Reckoned: "wiring", Desk: html(draw(m.width()))}
	if !m.Paper {
		d.Phone = html(draw(picture.Phone))
	}
	return d
}
