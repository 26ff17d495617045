package picture

import (
	"math"
	"strconv"
	"strings"

	"ampstead/look"
)

// canvas collects the elements of one drawing. It remembers the box each text
// takes, so that a test can show that none overlap.
type canvas struct {
	id      string // distinguishes the ids of drawings on one page
	width   float64
	b       []byte
	texts   []box
	wording []string // what the boxes hold, for messages of tests
}

// box is a rectangle; y grows downward.
type box struct{ x, y, w, h float64 }

func newCanvas(name string, o Options) *canvas {
	return &canvas{id: name + o.Key + "-" + strconv.Itoa(int(o.width())), width: o.width(), b: make([]byte, 0, 16<<10)}
}

// finish wraps the collected elements into a whole picture.
func (c *canvas) finish(o Options, height float64, title, desc string) string {
	w, h := tenth(c.width), tenth(math.Ceil(height))
	out := make([]byte, 0, len(c.b)+len(desc)+512)
	out = append(out, `<svg class="drawing`...)
	if o.narrow() {
		out = append(out, " narrow"...)
	}
	out = append(out, `" role="img" aria-labelledby="`+c.id+"-title "+c.id+`-desc" viewBox="0 0 `+w+" "+h+`" font-size="`+tenth(plain.size)+`"`...)
	if o.Standalone {
		out = append(out, ` xmlns="http://www.w3.org/2000/svg" width="`+w+`" height="`+h+`"`...)
	}
	out = append(out, `><title id="`+c.id+`-title">`...)
	out = escape(out, title)
	out = append(out, `</title><desc id="`+c.id+`-desc">`...)
	out = escape(out, desc)
	out = append(out, "</desc>"...)
	if o.Standalone {
		out = append(out, "<style><![CDATA["+look.CSS+"]]></style>"...)
	}
	out = append(out, c.b...)
	return string(append(out, "</svg>\n"...))
}

// text sets one line with its baseline at y. anchor is "start", "middle" or "end".
func (c *canvas) text(s style, x, y float64, anchor, text string) {
	if text == "" {
		return
	}
	w := s.measure(text)
	left := x
	c.b = append(c.b, "<text"...)
	c.attr("x", x)
	c.attr("y", y)
	switch anchor {
	case "middle":
		left -= w / 2
		c.b = append(c.b, ` text-anchor="middle"`...)
	case "end":
		left -= w
		c.b = append(c.b, ` text-anchor="end"`...)
	}
	if s.size != plain.size {
		c.attr("font-size", s.size)
	}
	c.class(s.class)
	c.b = append(c.b, '>')
	c.b = escape(c.b, text)
	c.b = append(c.b, "</text>"...)
	c.texts = append(c.texts, box{left, y - 0.8*s.size, w, s.size})
	c.wording = append(c.wording, text)
}

func (c *canvas) rect(class string, r box) {
	if r.w <= 0 || r.h <= 0 {
		return
	}
	c.b = append(c.b, "<rect"...)
	c.class(class)
	c.attr("x", r.x)
	c.attr("y", r.y)
	c.attr("width", r.w)
	c.attr("height", r.h)
	c.b = append(c.b, "/>"...)
}

func (c *canvas) dot(class string, x, y, r float64) {
	c.b = append(c.b, "<circle"...)
	c.class(class)
	c.attr("cx", x)
	c.attr("cy", y)
	c.attr("r", r)
	c.b = append(c.b, "/>"...)
}

func (c *canvas) line(class string, x1, y1, x2, y2 float64) {
	c.path(class, (&trace{}).move(x1, y1).to(x2, y2))
}

func (c *canvas) path(class string, t *trace) {
	if len(t.d) == 0 {
		return
	}
	c.b = append(c.b, "<path"...)
	c.class(class)
	c.b = append(append(append(c.b, ` d="`...), t.d...), `"/>`...)
}

func (c *canvas) attr(name string, v float64) {
	c.b = append(append(append(c.b, ' '), name...), `="`...)
	c.b = append(appendTenth(c.b, v), '"')
}

func (c *canvas) class(class string) {
	if class != "" {
		c.b = append(append(append(c.b, ` class="`...), class...), '"')
	}
}

// trace is the outline of a path.
type trace struct{ d []byte }

func (t *trace) move(x, y float64) *trace { return t.point('M', x, y) }
func (t *trace) to(x, y float64) *trace   { return t.point('L', x, y) }

// by goes on by a distance, written relative: short where a shape repeats.
func (t *trace) by(dx, dy float64) *trace { return t.point('l', dx, dy) }

func (t *trace) point(verb byte, x, y float64) *trace {
	t.d = appendTenth(append(t.d, verb), x)
	t.d = appendTenth(append(t.d, ' '), y)
	return t
}

func (t *trace) close() *trace {
	t.d = append(t.d, 'Z')
	return t
}

func tenth(v float64) string { return string(appendTenth(nil, v)) }

// appendTenth writes v rounded to a tenth without a needless ".0"; what is not finite
// becomes 0.
func appendTenth(b []byte, v float64) []byte {
	if math.IsNaN(v) || math.Abs(v) > 1e6 {
		v = 0 // no place on any drawing
	}
	n := int64(math.Round(v * 10))
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/10, 10)
	if n%10 != 0 {
		b = append(b, '.', byte('0'+n%10))
	}
	return b
}

// escape appends text as character data; what XML cannot hold becomes U+FFFD.
func escape(b []byte, text string) []byte {
	for _, r := range strings.ToValidUTF8(text, "\uFFFD") {
		switch {
		case r == '&':
			b = append(b, "&amp;"...)
		case r == '<':
			b = append(b, "&lt;"...)
		case r == '>':
			b = append(b, "&gt;"...)
		case r < ' ' && r != '\t' && r != '\n' || r == 0xFFFE || r == 0xFFFF:
			b = append(b, "\uFFFD"...)
		default:
			b = append(b, string(r)...)
		}
	}
	return b
}
