package web

import (
	"net/http"
	"slices"
	"strings"

	"ampstead/figure"
	"ampstead/handbook"
	"ampstead/quantity"
	"ampstead/working"
)

type figuresPage struct {
	Frame   frame
	Figures []*figure.Figure
}

type figurePage struct {
	Frame   frame
	Figure  *figure.Figure
	Inputs  []figureInput
	Wrong   string
	Results []panelRow
	Terms   []figureTerm
	Stages  []string // that reckon with it
	Chains  []string // of simulations it is a link of
	Checks  []checkGroup
	Passed  int
	Count   int
}

// figureTerm is one thing that goes in or comes out.
type figureTerm struct {
	Name, Unit, Doc, Without string
	Out                      bool
}

type figureInput struct {
	Name, Value, Placeholder, Hint string
}

func (s *site) figures(w http.ResponseWriter, r *http.Request) {
	s.render(w, http.StatusOK, "figures", figuresPage{
		Frame: s.frame(r, "figures", "Handbook", s.desk.read()), Figures: s.config.Figures,
	})
}

// figure shows one figure and, with arguments in the address, its result.
func (s *site) figure(w http.ResponseWriter, r *http.Request) {
	f := s.find(r.PathValue("name"))
	if f == nil {
		s.missing(w, r)
		return
	}
	now := s.desk.read()
	p := figurePage{Frame: s.frame(r, "figures", f.Name, now), Figure: f, Inputs: figureInputs(f, r)}
	p.tryIt(s.units(r, now))
	report := handbook.Verify([]*figure.Figure{f})
	p.Checks, p.Count, p.Passed = checkGroups(report.Figures[0]), report.Checks, report.Checks-report.Differ
	p.Terms, p.Stages = figureTerms(f), handbook.Stages(f.Name)
	for _, c := range working.Chains() {
		if slices.Contains(c.Figures(), f.Name) {
			p.Chains = append(p.Chains, c.Title)
		}
	}
	s.render(w, http.StatusOK, "figure", p)
}

func (s *site) find(name string) *figure.Figure {
	for _, f := range s.config.Figures {
		if f.Name == name {
			return f
		}
	}
	return nil
}

func figureInputs(f *figure.Figure, r *http.Request) []figureInput {
	var list []figureInput
	for _, in := range f.Inputs {
		i := figureInput{Name: in.Name, Value: r.URL.Query().Get(in.Name), Placeholder: in.Default, Hint: in.Doc}
		example := in.Example
		if example == "" && in.Dim != nil {
			example = in.Dim.Example
		}
		if example != "" {
			i.Hint += ", such as " + example
		}
		list = append(list, i)
	}
	return list
}

// tryIt computes when at least one argument was given.
func (p *figurePage) tryIt(units quantity.System) {
	var pairs []string
	for _, in := range p.Inputs {
		if in.Value != "" {
			pairs = append(pairs, in.Name+"="+in.Value)
		}
	}
	if len(pairs) == 0 {
		return
	}
	use, err := p.Figure.Read(pairs)
	if err != nil {
		p.Wrong = sentences(err.Error())
		return
	}
	for _, out := range p.Figure.Outputs {
		value, ok := use.Out[out.Key]
		if !ok {
			continue
		}
		p.Results = append(p.Results, panelRow{out.Doc, resultText(out, value, units)})
	}
}

func resultText(out figure.Output, value any, units quantity.System) string {
	dim := out.Dim
	if dim == nil {
		dim = quantity.Plain
	}
	return figure.Show(dim, value, units)
}

func figureTerms(f *figure.Figure) []figureTerm {
	var list []figureTerm
	for _, in := range f.Inputs {
		t := figureTerm{Name: in.Name, Unit: unitName(in.Dim), Doc: in.Doc, Without: in.Default}
		if in.List {
			t.Unit = strings.TrimSpace("several, " + t.Unit)
		}
		list = append(list, t)
	}
	for _, out := range f.Outputs {
		list = append(list, figureTerm{Name: out.Key, Unit: unitName(out.Dim), Doc: out.Doc, Out: true})
	}
	return list
}

func unitName(d *quantity.Dimension) string {
	switch {
	case d == nil:
		return "text"
	case d.Base == "":
		return "number"
	}
	return d.Base
}
