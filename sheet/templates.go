package sheet

import (
	"bytes"
	"embed"
	"html/template"
)

// CSS styles the parts; it builds on the names of look.CSS.
//
//go:embed sheet.css
var CSS string

//go:embed parts/*.html
var parts embed.FS

// Parts lists the named templates, each executed with a *Model.
var Parts = []string{"cautions", "cautions-short", "findings", "window", "ladder", "curve", "cell", "settings", "layers",
	"choices", "warmth", "figures", "sources",
	"wire-lead", "wire-oneline", "wire-schedule", "wire-order", "wire-contactor", "wire-strings", "wire-parts", "wire-commissioning", "wire-assumed", "wire-findings",
	"choose-answer", "choose-table", "choose-compare", "choose-lives", "choose-misfits", "choose-limits", "choose-front", "choose-designs", "choose-design", "choose-windows", "choose-asks", "choose-remarks", "choose-cautions", "choose-basis", "choose-findings",
	"drill-answer", "drill-matrix", "drill-run", "drill-uncovered", "drill-pairs", "drill-silent", "drill-margins", "drill-rehearsal", "drill-layers", "drill-scenes", "drill-faults", "drill-cautions", "drill-strips", "drill-glimpses", "drill-basis", "drill-findings",
	"prove-answer", "prove-layout", "prove-facts", "prove-discharge", "prove-groups", "prove-rest", "prove-warnings", "prove-findings", "prove-segments", "prove-told", "prove-figures", "prove-plan", "prove-none",
	"keep-answer", "keep-today", "keep-trends", "keep-groups", "keep-balance", "keep-capacity", "keep-life", "keep-aside", "keep-readings", "keep-findings", "keep-figures", "keep-blank",
	"travel-answer", "travel-year", "travel-months", "travel-week", "travel-route", "travel-limits", "travel-reached", "travel-basis", "travel-findings"}

// Templates returns a fresh set of the named parts, ready for Clone, Parse and
// Execute. Besides the parts it has the function "how", which writes a Number
// that opens to its equation, inputs and source.
func Templates() *template.Template {
	set := template.New("sheet")
	set.Funcs(template.FuncMap{
		"weak":          weakness,
		"stands":        stands,
		"cautionsShort": CautionsShort,
		"chain":         chainOf,
		"figureTo":      func(string) string { return "" }, // where a figure is explained; page and book say
	})
	return template.Must(Bind(set).ParseFS(parts, "parts/*.html"))
}

// Bind has set's "how" written by set itself, with its functions. A clone needs it:
// otherwise its numbers are written by the set that it was cloned from.
func Bind(set *template.Template) *template.Template {
	return set.Funcs(template.FuncMap{"how": func(n Number) (template.HTML, error) { return how(set, n) }})
}

func how(set *template.Template, n Number) (template.HTML, error) {
	var out bytes.Buffer
	err := set.ExecuteTemplate(&out, "how", n)
	return template.HTML(out.String()), err
}
