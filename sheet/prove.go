package sheet

import (
	"ampstead/finding"
	"slices"

	"ampstead/figure"
	"ampstead/picture"
	"ampstead/prove"
)

// Proof is what a log told of a module, as text.
type Proof struct {
	Log      string // name of the file
	Layout   string // how it was understood, one line
	Grade    string // "accept", "derate", "refuse", "undecided"
	Answer   []string
	Reasons  []string // of the grade
	Next     []string
	Facts    []Reached
	Groups   []ProofGroup
	Unknown  []string // why capacity, offset and loss of groups could not be had
	Leaks    bool     // whether any group has a leak to show
	Warnings []prove.Warning
	Unread   []string // rows that could not be read, in words
	Segments []ProofSegment
	Rests    []Reached
	NotTold  []prove.Step
	Findings []Finding

	res *prove.Result
}

// ProofGroup is a row of the table of groups.
type ProofGroup struct {
	Name, Capacity, Ohm       string
	Offset, Comes, Lost, Leak string
	Rest, End                 string
	Notes                     []string // "ends the discharge"
	Ends                      bool
}

// ProofSegment is a stretch of the log in which one thing was done.
type ProofSegment struct{ Kind, From, Lasts, Current, Charge, Volts string }

// WithProof returns the model with what a log told; log is the name of its file.
// Its findings stand apart from those of the fit, its figures and their sources
// among the others.
func (m *Model) WithProof(log string, res *prove.Result) *Model {
	with := *m
	if res == nil {
		return &with
	}
	w := &proofWords{res: res, sys: m.Units}
	with.Proof = &Proof{res: res, Log: log, Layout: res.Layout.Line, Grade: res.Grade, Answer: w.answer(), Reasons: w.reasons(), Next: w.next(m.Rig != ""), Facts: w.facts(),
		Groups: w.groups(), Warnings: w.warnings(), Unread: w.unread(), Segments: w.segments(), Rests: w.rests(), NotTold: w.notTold(),
		Findings: m.stageFindings("prove", res.Findings)}
	for _, g := range res.Groups {
		if g.Unknown != "" && !slices.Contains(with.Proof.Unknown, finding.Sentence(g.Unknown)) {
			with.Proof.Unknown = append(with.Proof.Unknown, finding.Sentence(g.Unknown))
		}
	}
	with.Proof.Leaks = slices.ContainsFunc(res.Groups, func(g prove.Group) bool { return g.LeakMA != nil })
	with.addFigures(explain(res.Uses, m.Units))
	return &with
}

// addFigures puts further figures behind those of the model, and the sources of
// the new ones among its sources.
func (m *Model) addFigures(list []Figure) {
	m.Figures = slices.Clone(m.Figures)
	for _, f := range list {
		if !slices.ContainsFunc(m.Figures, func(g Figure) bool { return g.Name == f.Name }) {
			m.Figures = append(m.Figures, f)
		}
	}
	m.Sources = slices.Clone(m.Sources)
	for _, r := range references(&Model{Figures: list}) {
		if !slices.ContainsFunc(m.Sources, func(s Reference) bool { return s.Key == r.Key }) {
			m.Sources = append(m.Sources, r)
		}
	}
	slices.SortFunc(m.Sources, byText)
}

// Tally counts the findings of the proof in words.
func (p *Proof) Tally() string { return tally(p.Findings) }

// FigureNames lists the figures behind the proof.
func (p *Proof) FigureNames() []string { return figure.Names(p.res.Uses) }

// DischargePicture is the discharge of every group.
func (m *Model) DischargePicture() Drawings { return m.proofDrawings(picture.Discharge) }

// GroupOhmPicture is the resistance of every group.
func (m *Model) GroupOhmPicture() Drawings { return m.proofDrawings(picture.GroupResistance) }

// LossPicture is what each group lacks, recoverable and lost.
func (m *Model) LossPicture() Drawings { return m.proofDrawings(picture.GroupLosses) }

// RestPicture is how the voltages moved at rest.
func (m *Model) RestPicture() Drawings { return m.proofDrawings(picture.RestDecay) }

func (m *Model) proofDrawings(of func(*prove.Result, picture.Options) string) Drawings {
	if m.Proof == nil || m.Proof.res == nil {
		return Drawings{}
	}
	draw := func(width int) string { return of(m.Proof.res, picture.Options{Units: m.Units, Width: width}) }
	d := Drawings{Reckoned: "bench", Desk: html(draw(m.width()))}
	if !m.Paper {
		d.Phone = html(draw(picture.Phone))
	}
	return d
}
