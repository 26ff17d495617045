package sheet

import (
	"path/filepath"

	"ampstead/figure"
	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/source"
)

// Model is everything the parts show, as text in one system of units.
type Model struct {
	Rig     string // name of the rig
	Note    string
	File    string // name of the rig file without its folder
	Units   q.System
	Date    string // when it was made; set by the caller, for there is no clock in here
	Version string // of Ampstead; set by the caller
	Paper   bool   // for print: a column for the pen and references to the chapter of figures

	Bank     Bank
	Rests    []Rest
	Window   []WindowRow
	Findings []Finding
	Devices  []Device
	Layers   []Layer
	Today    []Layer
	Absent   []string // layers that nothing gives today
	Choices  []Choice
	Warmth   []Mark
	Cell     []Limit
	Figures  []Figure
	Sources  []Reference
	Cautions []Caution

	// Which figures stand behind a part, for the line under it on paper.
	WindowFigures, LayerFigures, ChoiceFigures, SettingFigures []string

	Wiring *Wiring   // the wiring; nil when it was not reckoned
	Trip   *Trip     // the year on the road; nil when it was not reckoned
	Proof  *Proof    // what a log of a test told; nil without one
	Plan   *TestPlan // a test to run; nil without one
	Drill  *Drill    // faults played through; nil when they were not

	Compared *Comparison // batteries side by side; nil when they were not compared
	Log      *Log        // what the logbook tells; nil when it was not read

	made *builder // what the drawings are made from
}

// Bank says what the battery is.
type Bank struct {
	Cell     string // "nickel-manganese-cobalt 532 (nmc532)"
	Layout   string // "12 in series, 2 in parallel"
	Capacity string
	Nominal  string
}

// Rest is one thing the result rests on.
type Rest struct {
	What, Value, Basis string
	Assumed            bool
}

// New prepares a fit result for showing. file may be nil when there is no rig
// file at hand; then names, lines and steps of devices stay out.
func New(file *rig.File, res *fit.Result, sys q.System) *Model {
	b := &builder{file: file, rig: &rig.Rig{}, res: res, sys: sys}
	m := &Model{made: b, Units: sys, Cautions: Cautions()}
	if file != nil && file.Rig != nil {
		b.rig = file.Rig
		m.Rig, m.Note, m.File = b.rig.About.Name, b.rig.About.Note, filepath.Base(file.Path)
	}
	b.steps = steps(b.rig)
	m.Bank, m.Rests, m.Window = b.bank(), b.rests(), b.window()
	m.Findings, m.Devices = b.findings(), b.devices()
	m.Layers, m.Today, m.Absent = b.layers(res.Layers), b.layers(res.Today), absent(res.Today)
	m.Choices, m.Warmth = b.choices(), b.marks()
	m.Figures, m.Cell = explain(res.Uses, sys), b.cell()
	m.Sources = references(m)
	b.behind(m)
	return m
}

// builder holds what every part needs while a model is made.
type builder struct {
	file  *rig.File
	rig   *rig.Rig
	res   *fit.Result
	sys   q.System
	steps map[string]float64
}

func (b *builder) number(text string, uses []figure.Use) Number {
	return Number{Text: text, How: explain(uses, b.sys)}
}

// Reference is one entry of the list of sources.
type Reference struct {
	source.Source
	For []string // what rests on it
}
