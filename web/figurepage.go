package web

import (
	"fmt"
	"net/http"
	"strings"

	"ampstead/figure"
	"ampstead/quantity"
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
	Checks  []checkRow
	Passed  int
}

type figureInput struct {
	Name, Value, Placeholder, Hint string
}

type checkRow struct {
	What, Expected, Got string
	Pass                bool
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
	for _, o := range f.Verify() {
		p.Checks = append(p.Checks, checkOf(o))
		if o.Pass {
			p.Passed++
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

func checkOf(o figure.Outcome) checkRow {
	return checkRow{What: strings.TrimSpace(o.Note), Expected: checkText(o.Expected), Got: checkText(o.Got), Pass: o.Pass}
}

func checkText(v any) string {
	if f, ok := v.(float64); ok {
		return quantity.Plain.Text(f, quantity.Metric)
	}
	return fmt.Sprint(v)
}
