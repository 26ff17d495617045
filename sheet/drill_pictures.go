package sheet

import (
	"html/template"
	"strconv"

	"ampstead/drill"
	"ampstead/picture"
)

// drawn makes a picture for a desk, or paper, and for a phone; reckoned is the key
// of how its numbers come about.
func (m *Model) drawn(reckoned, caption string, o picture.Options, of func(o picture.Options) string) Drawings {
	o.Units, o.Width = m.Units, m.width()
	d := Drawings{Caption: caption, Reckoned: reckoned, Desk: template.HTML(of(o))} // drawings escape the texts they carry
	if !m.Paper {
		o.Width = picture.Phone
		d.Phone = template.HTML(of(o))
	}
	return d
}

// MatrixPictures are the faults by scenes: one on a page, as many as it takes on
// paper.
func (m *Model) MatrixPictures() []Drawings {
	if m.Drill == nil {
		return nil
	}
	caption := ""
	if m.Drill.Pick != "" {
		caption = "Press a mark to see that run."
	}
	var list []Drawings
	for i, rows := range m.sheetsOf(m.Drill.res.Rows()) {
		o := picture.Options{Pick: m.Drill.Pick}
		if i > 0 {
			o.Key = strconv.Itoa(i + 1)
		}
		list = append(list, m.drawn("faults", caption, o, func(o picture.Options) string { return picture.Matrix(m.Drill.res, rows, o) }))
	}
	return list
}

// Room on a sheet of paper, in rows of the matrix; a device's head takes one too.
const rowsOnPaper = 33

// sheetsOf parts rows for paper, devices kept whole where they fit.
func (m *Model) sheetsOf(rows []drill.Row) [][]drill.Row {
	if !m.Paper || len(rows) == 0 {
		return [][]drill.Row{rows}
	}
	var list [][]drill.Row
	each := evenly(rows)
	from, room := 0, each
	for at := 0; at < len(rows); {
		end := at
		for end < len(rows) && rows[end].Fault.Device == rows[at].Fault.Device && end-at < each-1 {
			end++
		}
		if needs := end - at + 1; needs > room {
			list, from, room = append(list, rows[from:at]), at, each
		}
		room -= end - at + 1
		at = end
	}
	return append(list, rows[from:])
}

// evenly is how much of the room of a sheet to use so that all sheets are used
// alike.
func evenly(rows []drill.Row) int {
	takes := 0
	for i := range rows {
		if takes++; i == 0 || rows[i].Fault.Device != rows[i-1].Fault.Device {
			takes++
		}
	}
	sheets := (takes + rowsOnPaper - 1) / rowsOnPaper
	return min(rowsOnPaper, takes/sheets+3) // devices are not parted, so some take a little more
}

// RunPicture is the strip of the run shown on the page.
func (m *Model) RunPicture() Drawings {
	if m.Drill == nil || m.Drill.Run == nil {
		return Drawings{}
	}
	return m.drawn("faults", "", picture.Options{}, func(o picture.Options) string { return picture.Strip(m.Drill.Run.strip, o) })
}

// PaperRun is a run printed in full.
type PaperRun struct {
	*Played
	Drawing Drawings
}

// PaperRuns are the runs that reach harm or come near it, in full.
func (m *Model) PaperRuns() []PaperRun {
	grave, _ := m.strips()
	var list []PaperRun
	for i := range grave {
		o := picture.Options{Key: strconv.Itoa(i + 1), Low: true}
		list = append(list, PaperRun{m.Drill.played(&grave[i]), m.drawn("faults", "", o, func(o picture.Options) string { return picture.Strip(&grave[i], o) })})
	}
	return list
}

// Glimpses are all other runs that paper shows, small.
func (m *Model) Glimpses() []template.HTML {
	_, others := m.strips()
	var list []template.HTML
	for i := range others {
		o := picture.Options{Key: strconv.Itoa(i + 1), Units: m.Units, Width: paperWidth/2 - 16}
		list = append(list, template.HTML(picture.Glimpse(&others[i], o)))
	}
	return list
}

// strips parts the runs for paper into those shown in full and the others.
func (m *Model) strips() (full, small []drill.Strip) {
	if m.Drill == nil {
		return nil, nil
	}
	n := 0
	for n < len(m.Drill.strips) && n < mostStrips && isGrave(&m.Drill.strips[n]) {
		n++
	}
	return m.Drill.strips[:n], m.Drill.strips[n:]
}
