package book

import (
	"fmt"
	"html/template"
	"slices"

	"ampstead/sheet"
)

// chapter is one numbered part of the book.
type chapter struct {
	Number  int
	ID      string // anchor and name of its pages
	Title   string
	Lead    string // one line under the title
	Hint    string // what the contents say stands in it
	Running string // line at the head of its pages
	Breaks  bool   // starts a new page
	Parts   []string
	Body    template.HTML
	Entries []entry // listed under it in the contents
}

// entry is a line of the contents below a chapter.
type entry struct{ Anchor, Title, Hint string }

func chapters(m *sheet.Model) []chapter {
	list := []chapter{
		{ID: "cautions", Title: "Cautions", Hint: "read these first", Parts: []string{"cautions"}, Breaks: true},
		{ID: "summary", Title: "The battery and what was found", Hint: m.TallyStanding(), Parts: []string{"bank", "window-part", "findings-part"}, Breaks: true},
		{ID: "ladder", Title: "The ladder of limits", Hint: "one drawing", Breaks: true, Parts: []string{"ladder"},
			Lead: "From harm to harm: where every device acts, and how far apart the layers stand."},
		{ID: "settings", Title: "Settings sheets", Hint: fmt.Sprintf("%d devices", len(m.Devices)), Breaks: true, Parts: []string{"settings"}, Entries: entries(m),
			Lead: "One sheet for each device. Write the value you set and your initials in the last column, then read the device back."},
		{ID: "layers", Title: "The layers in numbers", Hint: "every margin in mV", Breaks: true, Parts: []string{"layers"}},
		{ID: "temperatures", Title: "Temperatures", Hint: fmt.Sprintf("%d marks", len(m.Warmth)), Breaks: true, Parts: []string{"warmth"}},
		{ID: "curve", Title: "Rest voltage and charge level", Hint: "one drawing", Parts: []string{"curve"}, Breaks: true},
		{ID: "choices", Title: "Wider or narrower", Hint: fmt.Sprintf("%d windows", len(m.Choices)), Parts: []string{"choices"}},
		{ID: "working", Title: "How the limits were worked out", Hint: "in words, and the cell", Breaks: true, Parts: []string{"working", "cell"}},
		{ID: "figures", Title: "Figures", Hint: fmt.Sprintf("%d equations", len(m.Figures)), Breaks: true, Parts: []string{"figures"},
			Lead: "Every equation behind a number in this book, with what went in and what came out."},
		{ID: "sources", Title: "Sources", Hint: fmt.Sprintf("%d, with their standing", len(m.Sources)), Breaks: true, Parts: []string{"sources"}},
	}
	if m.Wiring != nil {
		list = slices.Insert(list, slices.IndexFunc(list, func(c chapter) bool { return c.ID == "working" }), wiring(m)...)
	}
	if m.Drill != nil {
		list = slices.Insert(list, slices.IndexFunc(list, func(c chapter) bool { return c.ID == "working" }), faults(m)...)
	}
	if m.Compared != nil {
		list = slices.Insert(list, slices.IndexFunc(list, func(c chapter) bool { return c.ID == "working" }), batteries(m)...)
	}
	if m.Trip != nil {
		list = slices.Insert(list, slices.IndexFunc(list, func(c chapter) bool { return c.ID == "working" }), road(m)...)
	}
	if m.Log != nil {
		list = slices.Insert(list, slices.IndexFunc(list, func(c chapter) bool { return c.ID == "working" }), visits(m)...)
	}
	list = slices.Insert(list, slices.IndexFunc(list, func(c chapter) bool { return c.ID == "ladder" }), proof(m)...)
	for i := range list {
		list[i].Number = i + 1
		list[i].Running = list[i].Title
	}
	return list
}

// wiring are the chapters to build from.
func wiring(m *sheet.Model) []chapter {
	steps := 0
	for _, p := range m.Wiring.Points {
		steps += len(p.Steps)
	}
	return []chapter{
		{ID: "one-line", Title: "One-line diagram", Hint: "one drawing", Breaks: true, Parts: []string{"wire-lead", "wire-oneline"}},
		{ID: "schedule", Title: "Schedule of conductors and protection", Hint: fmt.Sprintf("%d circuits", len(m.Wiring.Circuits)), Breaks: true,
			Parts: []string{"wire-schedule", "wire-order", "wire-strings-part", "wire-contactor-part", "wire-assumed-part"}},
		{ID: "parts", Title: "Parts", Hint: fmt.Sprintf("%d lines", len(m.Wiring.Parts)), Breaks: true, Parts: []string{"wire-parts"}},
		{ID: "commissioning", Title: "Commissioning", Hint: fmt.Sprintf("%d measurements", steps), Breaks: true, Parts: []string{"wire-commissioning"},
			Lead: "What to measure before each point is closed, and what to expect. Write down what the meter showed."},
	}
}

// road is the chapter of the year on the road; the parts that come with a picture
// of a page's height begin pages of their own.
func road(m *sheet.Model) []chapter {
	return []chapter{
		{ID: "road", Title: "The year on the road", Hint: fmt.Sprintf("%d weather years", m.Trip.Years), Breaks: true,
			Parts: []string{"travel-answer", "travel-year", "road-months", "road-limits", "road-week", "road-route", "road-reached", "road-findings", "road-basis"}},
	}
}

func entries(m *sheet.Model) []entry {
	var list []entry
	for _, d := range m.Devices {
		list = append(list, entry{d.Anchor, d.Name, d.Summary()})
	}
	return list
}
