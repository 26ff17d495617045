package picture

// label is a block of text: a value in a column of its own and lines beside it.
type label struct {
	pieces        []piece
	width, height float64
}

// piece is one line of a label, its baseline measured from the label's top.
type piece struct {
	style style
	x, y  float64
	text  string
}

// words is a text in one style.
type words struct {
	style style
	text  string
}

// newLabel sets value in a column valueWide and wraps each of the paragraphs
// beside it to textWide.
func newLabel(value words, valueWide, textWide float64, paragraphs ...words) label {
	var l label
	y := 0.0
	for _, p := range paragraphs {
		for _, line := range p.style.wrap(p.text, textWide) {
			y += p.style.leading()
			l.pieces = append(l.pieces, piece{p.style, valueWide, y - 5, line})
		}
	}
	if value.text != "" {
		l.pieces = append(l.pieces, piece{value.style, 0, value.style.leading() - 5, value.text})
		y = max(y, value.style.leading())
	}
	for _, p := range l.pieces {
		l.width = max(l.width, p.x+p.style.measure(p.text))
	}
	l.height = y
	return l
}

// draw sets the label with its top left corner at x, y.
func (l label) draw(c *canvas, x, y float64) {
	for _, p := range l.pieces {
		c.text(p.style, x+p.x, y+p.y, "start", p.text)
	}
}

// middle is the height, from the label's top, that a leader points at: the
// middle of its first line.
const middle = 8.0

// leader joins a mark to its label: level, slanting, level.
func leader(c *canvas, class string, markX, markY, bendX, labelX, labelY float64) {
	t := (&trace{}).move(markX, markY)
	if bendX > markX {
		t.to(bendX, markY)
	}
	c.path(class, t.to(labelX-12, labelY).to(labelX-4, labelY))
}
