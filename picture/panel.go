package picture

import (
	"math"

	"ampstead/fit"
)

const (
	labelGap  = 7.0  // px between labels
	axisWide  = 44.0 // px for the tick texts on either side
	barPitch  = 13.0 // px between bars side by side, where there is width
	leaderRun = 28.0 // px from the rails to the label
	laneGap   = 12.0 // px between the labels of one lane and the next
)

// panel is a scale with the lanes on it.
type panel struct {
	parts
	left, right float64 // the two axes
	zoneWide    float64
	pitch       float64 // between bars side by side
	series      float64
	lim         limits
	middle      float64 // V, in the middle of the daily window
	lanes       []drawnLane
}

// drawnLane is a lane with its place and its labels.
type drawnLane struct {
	lane
	x, wide float64 // between the rails
	labelX  float64
	labels  []label
	columns [][]int // of every rung's bars
}

// drawPanel draws the lanes on one scale from y downward and returns the foot.
func drawPanel(c *canvas, res *fit.Result, lanes []lane, y float64) float64 {
	p := panel{left: axisWide, right: c.width - axisWide, zoneWide: 88, series: math.Max(1, float64(res.Cell.Series)), lim: limitsOf(res)}
	if c.width < narrowBelow {
		p.zoneWide = 12
	}
	p.place(lanes)
	up, down, middle := rooms(res, lanes)
	p.middle = middle
	p.claim(&up, &down)
	p.heads(c, y+17)
	p.parts = arrange(y+34, up, down)
	p.grounds(c, zonesOf(res, p.lim))
	p.axes(c)
	for i := range p.lanes {
		p.drawLane(c, &p.lanes[i])
	}
	return p.notes(c, p.bottom)
}

// place shares the width out among the lanes and sets their labels.
func (p *panel) place(lanes []lane) {
	from := p.left + p.zoneWide
	each := (p.right - from) / float64(len(lanes))
	count := 1
	for _, l := range lanes {
		_, n := barColumns(l.rungs)
		count = max(count, n)
	}
	p.pitch = math.Min(barPitch, 0.3*each/float64(count))
	wide := math.Max(36, p.pitch*float64(count)+12)
	for i, l := range lanes {
		d := drawnLane{lane: l, x: from + float64(i)*each, wide: wide}
		d.columns, _ = barColumns(l.rungs)
		d.labelX = d.x + d.wide + leaderRun
		valueWide := 0.0
		for _, r := range l.rungs {
			valueWide = math.Max(valueWide, strong.measure(r.value)+8)
		}
		textWide := math.Max(60, d.x+each-laneGap-d.labelX)
		for _, r := range l.rungs {
			d.labels = append(d.labels, r.label(valueWide, textWide))
		}
		p.lanes = append(p.lanes, d)
	}
}

// label sets the value in a column beside the words, or above them where that
// would leave too little width.
func (r rung) label(valueWide, wide float64) label {
	value, name, remark := strong, plain, small
	if r.bad {
		value, remark = hot, alert
	}
	if r.harm {
		value, name = hot, style{"accent", plain.size, plain.wide}
	}
	if wide < 250 {
		return newLabel(words{}, 0, wide, words{value, r.value}, words{name, r.name}, words{remark, r.remark})
	}
	return newLabel(words{value, r.value}, valueWide, wide-valueWide, words{name, r.name}, words{remark, r.remark})
}

// barColumns places bars that overlap side by side; count is how many columns
// the lane needs.
func barColumns(rungs []rung) (cols [][]int, count int) {
	var low, high []float64
	for _, r := range rungs {
		for _, b := range r.bars {
			low, high = append(low, math.Min(b.low, r.at)), append(high, math.Max(b.high, r.at))
		}
	}
	flat := columns(low, high, 1e-3)
	for _, r := range rungs {
		cols = append(cols, flat[:len(r.bars)])
		flat = flat[len(r.bars):]
	}
	for _, list := range cols {
		for _, col := range list {
			count = max(count, col+1)
		}
	}
	return cols, count
}

// claim adds to either end the height that the labels of its busiest lane need.
func (p *panel) claim(up, down *room) {
	for _, l := range p.lanes {
		var shelfUp, high, low, shelfDown []float64
		for i, r := range l.rungs {
			switch h := l.labels[i].height; {
			case r.at > up.high:
				shelfUp = append(shelfUp, h)
			case r.at < down.low:
				shelfDown = append(shelfDown, h)
			case r.at >= p.middle:
				high = append(high, h)
			default:
				low = append(low, h)
			}
		}
		up.shelf = math.Max(up.shelf, total(shelfUp, labelGap))
		down.shelf = math.Max(down.shelf, total(shelfDown, labelGap))
		up.labels = math.Max(up.labels, total(high, labelGap)+2*labelGap)
		down.labels = math.Max(down.labels, total(low, labelGap)+2*labelGap)
	}
}

func (p *panel) heads(c *canvas, y float64) {
	c.text(small, 0, y, "start", "V, cell")
	c.text(small, c.width, y, "end", "V, bank")
	for _, l := range p.lanes {
		c.text(head, l.x, y, "start", l.title)
	}
}

// notes says under each lane what no device does.
func (p *panel) notes(c *canvas, y float64) float64 {
	foot := y
	for i, l := range p.lanes {
		if l.note == "" {
			continue
		}
		end := p.right
		if i+1 < len(p.lanes) {
			end = p.lanes[i+1].x - laneGap
		}
		text := newLabel(words{}, 0, end-l.x, words{alert, l.note})
		text.draw(c, l.x, y+8)
		foot = math.Max(foot, y+8+text.height)
	}
	return foot
}
