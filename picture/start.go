package picture

import (
	"math"

	"ampstead/start"
)

// Start draws the vehicle as far as it has been described: what is answered in
// ink, what is not yet in a faint outline, what is not known in broken lines, and
// what is being asked in the accent.
func Start(s *start.Sketch, o Options) string {
	c, height := startSketch(s, o)
	title := "Your rig so far"
	if s.Name.Given {
		title = s.Name.Text + " so far"
	}
	return c.finish(o, height, title, s.Said)
}

func startSketch(s *start.Sketch, o Options) (*canvas, float64) {
	c := newCanvas("start", o)
	d := newScene(c, s)
	d.title()
	d.vehicle()
	d.roofPanels()
	d.wiring()
	d.bank()
	d.household()
	d.outside()
	return c, d.road(d.ground + 24)
}

// scene is where things stand in the drawing, in px.
type scene struct {
	*canvas
	s             *start.Sketch
	left, right   float64 // of the body
	roof, floor   float64
	ground, cab   float64 // cab is the x of the partition behind the seats
	wheel         float64 // radius
	spine         float64 // x of the bus bar
	rear, front   float64 // x of the axles
	tall          float64 // of a cell
	bankY, shelfY float64 // top of the bank; foot of the household's row
}

// aside is small text in ink.
var aside = style{"", 12, 1}

func newScene(c *canvas, s *start.Sketch) *scene {
	grow := math.Max(0, math.Min(1, (c.width-340)/360))
	d := &scene{canvas: c, s: s, left: 16 + 10*grow, right: c.width - 8 - 12*grow, wheel: 15 + 7*grow}
	d.roof = 48
	d.floor = d.roof + 184 + 30*grow
	d.ground = d.floor + d.wheel + 4
	d.cab = d.right - (74 + 50*grow)
	d.spine = d.cab - 14
	d.rear, d.front = d.left+44+40*grow, d.right-46-26*grow
	d.tall = 22 + 8*grow
	d.bankY = d.floor - 58 - d.tall
	d.shelfY = d.bankY - 26
	return d
}

// pen is the class a part is drawn with.
func (d *scene) pen(p start.Part) string {
	switch {
	case p.Asked && p.Open:
		return "strong ghost"
	case p.Asked:
		return "strong"
	case !p.Given:
		return "unset"
	case p.Open:
		return "dash"
	}
	return "fine"
}

// hand is the style a part is labelled with.
func (d *scene) hand(p start.Part) style {
	switch {
	case p.Asked:
		return alert
	case p.Open:
		return small
	}
	return aside
}

// say writes a part's text on one line, cut to fit.
func (d *scene) say(p start.Part, x, y, width float64, anchor string) {
	if p.None {
		return
	}
	st := d.hand(p)
	d.text(st, x, y, anchor, st.fitted(p.Text, width))
}

// fitted cuts a text to a width and says so.
func (s style) fitted(text string, width float64) string {
	if s.measure(text) <= width {
		return text
	}
	r := []rune(text)
	for len(r) > 1 && s.measure(string(r)+"…") > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

func (d *scene) title() {
	name, st := "Your rig", style{"head faint", head.size, head.wide}
	switch p := d.s.Name; {
	case p.Asked:
		st = style{"head accent", head.size, head.wide}
		if p.Given {
			name = p.Text
		}
	case p.Given:
		name, st = p.Text, head
	}
	d.text(st, d.left, 18, "start", st.fitted(name, d.width*0.53-d.left-8))
}

// bend goes on to x, y in a curve that leans to cx, cy.
func (t *trace) bend(cx, cy, x, y float64) *trace {
	t.point('Q', cx, cy)
	t.d = appendTenth(append(t.d, ' '), x)
	t.d = appendTenth(append(t.d, ' '), y)
	return t
}
