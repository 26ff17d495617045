package picture

import (
	"fmt"
	"math"
	"net/url"
	"strconv"
	"strings"

	"ampstead/drill"
)

// Matrix draws every fault in every scene: a row for each fault, by device, a
// mark for how each run ended and, where there is width, how near to harm the
// cells came. rows is res.Rows(), or a part of it where paper wants pages.
func Matrix(res *drill.Result, rows []drill.Row, o Options) string {
	c, height := matrix(res, rows, o)
	return c.finish(o, height, "Every fault in every scene", describeMatrix(res, rows))
}

func matrix(res *drill.Result, rows []drill.Row, o Options) (*canvas, float64) {
	c := newCanvas("matrix", o)
	if len(rows) == 0 || len(res.Scenes) == 0 {
		return c, caption(c, 0, "No fault was played.")
	}
	m := &grid{c: c, res: res, rows: rows, plain: res.Plain(), pick: o.Pick}
	y := markKey(c, 0)
	if o.narrow() {
		return c, m.narrowly(y + 4)
	}
	return c, m.widely(y + 6)
}

// grid is the matrix while it is drawn.
type grid struct {
	c        *canvas
	res      *drill.Result
	rows     []drill.Row
	plain    drill.Row // the scenes with nothing wrong
	pick     string
	left     float64 // where the marks begin
	each     float64 // width of a scene
	reach    linear  // mV to harm onto px
	values   float64 // right edge of the texts of the margins
	distance bool    // there is room for the axis of margins
}

const (
	markTall   = 23.0  // px of a row of one line
	valueWide  = 104.0 // px of the text of a margin
	leastReach = 70.0  // px of an axis of margins that is worth drawing
)

// columnsOf shares the width out.
func (m *grid) columnsOf() {
	n := float64(len(m.res.Scenes))
	m.each = math.Min(68, 0.56*m.c.width/n)
	m.values = m.c.width
	rest := m.c.width - n*m.each - valueWide
	m.left = math.Min(290, rest-leastReach-24)
	m.distance = m.left >= 200
	if !m.distance {
		m.left = rest
	}
	m.reach = linear{m.leastMargin(), mostMargin, m.left + n*m.each + 18, m.c.width - valueWide - 8}
}

// widely draws the rows with the names on the left and returns the foot.
func (m *grid) widely(y float64) float64 {
	m.columnsOf()
	y = m.heads(y)
	top, device := y, ""
	if m.plain.Worst != nil {
		m.c.line("axis", 0, y+5, m.c.width, y+5)
		y = m.row(y+7, &m.plain, false)
	}
	for i := range m.rows {
		r := &m.rows[i]
		if r.Fault.Device != device {
			device = r.Fault.Device
			y = m.device(y, device)
		}
		y = m.row(y, r, i+1 < len(m.rows) && m.rows[i+1].Fault.Device == device)
	}
	m.harmLine(top, y)
	return y + 8
}

// heads names the scenes over their columns, and what stands to the right.
func (m *grid) heads(y float64) float64 {
	tall := 0.0
	var list []label
	for _, s := range m.res.Scenes {
		l := newLabel(words{}, 0, m.each-5, words{small, s.Name})
		list, tall = append(list, l), math.Max(tall, l.height)
	}
	near := newLabel(words{}, 0, m.c.width-m.reach.p0-4, words{strong, "how near"}, words{small, "cell nearest to harm, in mV; a dot is the worst scene, pale as with nothing wrong"})
	if m.distance {
		tall = math.Max(tall, near.height)
		near.draw(m.c, m.reach.p0, y+tall-near.height)
	}
	for i, l := range list {
		l.draw(m.c, m.left+float64(i)*m.each+2, y+tall-l.height)
	}
	return m.reachEnds(y + tall)
}

// device begins the rows of a device with its name on a rule.
func (m *grid) device(y float64, name string) float64 {
	m.c.line("axis", 0, y+5, m.c.width, y+5)
	l := newLabel(words{}, 0, m.c.width, words{strong, capital(name)})
	l.draw(m.c, 0, y+8)
	return y + 8 + l.height + 2
}

// row draws one fault; a hairline parts it from the next of its device.
func (m *grid) row(y float64, r *drill.Row, more bool) float64 {
	wide := m.left - 16
	if r.Silent {
		m.c.text(small, wide+4, y+16, "end", "silent")
		wide -= small.measure("silent") + 8
	}
	l := newLabel(words{}, 0, wide, words{plain, nameOf(r)})
	tall := math.Max(markTall, l.height+5)
	l.draw(m.c, 6, y+(markTall-17)/2)
	at := y + markTall/2
	for i := range r.Cells {
		x := m.left + (float64(i)+0.5)*m.each
		m.mark(r, i, x, at, box{x - m.each/2, y, m.each, tall})
	}
	m.margins(at, r)
	if more {
		m.c.line("hair", 0, y+tall, m.c.width, y+tall)
	}
	return y + tall
}

// mark draws how the run of a row in scene i ended, with a place to press.
func (m *grid) mark(r *drill.Row, i int, x, y float64, press box) {
	o := r.Cells[i]
	if o == nil {
		return
	}
	outcomeMark(m.c, x, y, o.Outcome, r.Fault.Name != "" && o.Usual(m.plain.Cells[i]), o.Silent && !r.Silent)
	m.linkTo(o, press)
}

func nameOf(r *drill.Row) string {
	if r.Fault.Name == "" {
		return "nothing wrong"
	}
	return r.Fault.Short()
}

// linkTo leads from a run's mark to its strip.
func (m *grid) linkTo(o *drill.Outcome, at box) {
	if m.pick == "" {
		return
	}
	to := m.pick + "?"
	if o.Fault != "" {
		to += "fault=" + url.QueryEscape(o.Fault) + "&"
	}
	to += "scene=" + url.QueryEscape(o.Scene) + "#run"
	m.c.link(to, o.Fault+", "+o.Scene+": "+endWords(o), at)
}

func describeMatrix(res *drill.Result, rows []drill.Row) string {
	counts := map[drill.Verdict]int{}
	var harmed []string
	for _, r := range rows {
		for _, o := range r.Cells {
			if o == nil {
				continue
			}
			counts[o.Outcome]++
			if o.Outcome == drill.Harm {
				harmed = append(harmed, o.Fault+" in "+o.Scene)
			}
		}
	}
	var parts []string
	for _, v := range verdicts {
		parts = append(parts, strconv.Itoa(counts[v])+" "+v.Words())
	}
	text := fmt.Sprintf("%s in %s: runs that ended in %s.", counted(len(rows), "fault"), counted(len(res.Scenes), "scene"), strings.Join(parts, ", "))
	if len(harmed) > 0 {
		text += " Harm: " + strings.Join(harmed, "; ") + "."
	}
	return text
}
