package sheet

import (
	"html/template"

	"ampstead/picture"
)

// paperWidth is what drawings are made for in the book, CSS px: the text area of
// a sheet, a little reduced, so that their letters match the table text.
const paperWidth = 860

// Ladder draws the ladder of limits for a desk or, on paper, for the book.
func (m *Model) Ladder() template.HTML { return m.ladder(m.width()) }

// PhoneLadder draws the ladder for a narrow screen.
func (m *Model) PhoneLadder() template.HTML { return m.ladder(picture.Phone) }

// Curve draws the rest-voltage curve with the windows on it.
func (m *Model) Curve() template.HTML { return m.curve(m.width()) }

// PhoneCurve draws it for a narrow screen.
func (m *Model) PhoneCurve() template.HTML { return m.curve(picture.Phone) }

// Strip draws the temperatures at which something acts.
func (m *Model) Strip() template.HTML { return m.strip(m.width()) }

// PhoneStrip draws them for a narrow screen.
func (m *Model) PhoneStrip() template.HTML { return m.strip(picture.Phone) }

func (m *Model) width() int {
	if m.Paper {
		return paperWidth
	}
	return picture.Desk
}

// The drawings escape the texts they carry.

func (m *Model) ladder(width int) template.HTML {
	if m.made == nil || len(m.made.res.Layers) == 0 {
		return ""
	}
	return template.HTML(picture.Ladder(m.made.res, picture.Options{Units: m.Units, Width: width}))
}

func (m *Model) strip(width int) template.HTML {
	if m.made == nil || len(m.made.res.Warmth) == 0 {
		return ""
	}
	return template.HTML(picture.Warmth(m.made.res, picture.Options{Units: m.Units, Width: width}))
}

func (m *Model) curve(width int) template.HTML {
	if m.made == nil {
		return ""
	}
	return template.HTML(picture.RestCurve(m.made.res, picture.Options{Units: m.Units, Width: width}))
}
