package main

import "slices"

// page is one address to shoot; path is below the rig, or the hall's own.
type page struct {
	name, path string
	hall       bool
	script     string // run before the shot, such as what opens a number
}

const openFirst = `(() => { const d = document.querySelector("details.how"); if (d) d.open = true; return true })()`

var pages = []page{
	{name: "rigs", path: "/rigs", hall: true},
	{name: "start", path: "/start", hall: true},
	{name: "phone", path: "/phone", hall: true},
	{name: "home", path: "/"},
	{name: "rig", path: "/rig"},
	{name: "rig-part", path: "/rig?open=charge.roof+solar"},
	{name: "text", path: "/rig/text"},
	{name: "history", path: "/rig/history"},
	{name: "choose", path: "/choose"},
	{name: "prove", path: "/prove"},
	{name: "plan", path: "/prove/plan?charger=54.6+V+20+A&load=1500+W"},
	{name: "fit", path: "/fit"},
	{name: "fit-open", path: "/fit", script: openFirst},
	{name: "wire", path: "/wire"},
	{name: "drill", path: "/drill"},
	{name: "travel", path: "/travel"},
	{name: "keep", path: "/keep"},
	{name: "live", path: "/keep/live"},
	{name: "book", path: "/book"},
	{name: "read", path: "/book/read"},
	{name: "figures", path: "/figures"},
	{name: "figure", path: "/figures/voltage-drop?size=25+mm2&length=4+m&current=80+A&voltage=48+V"},
	{name: "checks", path: "/figures/checks"},
	{name: "missing", path: "/no-such-page"},
}

var (
	widths = []int64{390, 820, 1440}
	themes = []string{"day", "night"}
)

func wanted(only []string) []page {
	if len(only) == 0 {
		return pages
	}
	return slices.DeleteFunc(slices.Clone(pages), func(p page) bool { return !slices.Contains(only, p.name) })
}

func (p page) address(rig string) string {
	if p.hall || rig == "" {
		return p.path
	}
	return "/rigs/" + rig + p.path
}

// shown is one picture of the documents: the first screen of a page, or what an
// element begins.
type shown struct {
	file, page, rig, theme string
	width                  int64
	from                   string // selector of what stands at the top; empty for the top of the page
}

var documents = []shown{
	{"start.png", "start", "", "day", 390, ""},
	{"home-draft.png", "home", "curlew-draft", "day", 820, ""},
	{"home-night.png", "home", "curlew", "night", 390, ""},
	{"rigs.png", "rigs", "", "day", 820, ""},
	{"rig.png", "rig-part", "curlew-draft", "day", 1440, "#g-charge"},
	{"choose.png", "choose", "curlew", "day", 820, "#batteries"},
	{"plan.png", "plan", "curlew", "day", 390, ""},
	{"prove.png", "prove", "curlew", "day", 820, ""},
	{"text.png", "text", "curlew", "day", 820, ""},
	{"history.png", "history", "curlew", "day", 820, ""},
	{"phone.png", "phone", "", "day", 390, ""},
	{"live.png", "live", "curlew", "night", 390, ""},
	{"figures.png", "figures", "curlew", "day", 820, ""},
	{"checks.png", "checks", "curlew", "day", 820, ""},
	{"fit.png", "fit", "curlew", "day", 1440, "#ladder"},
	{"fit-night.png", "fit-open", "curlew", "night", 390, "#window"},
	{"wire.png", "wire", "curlew", "day", 820, "#one-line"},
	{"drill.png", "drill", "curlew", "day", 820, "#matrix"},
	{"travel.png", "travel", "curlew", "night", 820, "#year"},
	{"keep.png", "keep", "curlew", "night", 390, ""},
	{"book.png", "read", "curlew", "day", 820, ""},
	{"figure.png", "figure", "curlew", "day", 820, ""},
}
