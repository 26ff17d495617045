package picture

import "math"

// columns of the diagram laid from left to right, px.
type across struct {
	bank, bus     float64 // where the terminals and the bus bars stand
	device, wide  float64 // boxes of devices, and of what lies beyond them
	beyond, wider float64
}

func columnsOf(tree *tree, width float64) across {
	f := width / Desk
	a := across{bank: math.Max(166, 176*f)}
	a.device = a.bank + 230*f
	if len(tree.root.limbs) > 0 && tree.root.limbs[0].isBus() {
		a.bus = a.bank + 240*f
		a.device = a.bus + 192*f
	}
	a.wide = 150 * f
	a.beyond = a.device + a.wide + 128*f
	a.wider = math.Min(width-a.beyond-1, 200*f)
	if !tree.third() {
		a.wide = math.Min(260*f, width-a.device-1)
	}
	return a
}

// third reports whether anything lies beyond a device.
func (t *tree) third() bool {
	for _, l := range t.root.limbs {
		if deepest := l.depth(); deepest > 1 || deepest > 0 && !l.isBus() {
			return true
		}
	}
	return false
}

// drawn is a limb with its texts and its place.
type drawn struct {
	*limb
	text         runText
	box          boxed
	x1, x2, wide float64 // run from x1 to x2, box from there on
	above, below float64 // px that it and all beyond it take
	y            float64
	limbs        []*drawn
}

const (
	rowGap  = 12.0
	nameTop = 22.0 // px for the name above the bus bars
)

// across draws the tree from left to right and returns its foot.
func (s *sketch) across(tree *tree, y float64) float64 {
	cols := columnsOf(tree, s.c.width)
	root := &drawn{limb: tree.root}
	for _, l := range tree.root.limbs {
		root.limbs = append(root.limbs, s.measure(l, cols, cols.bank))
	}
	root.stack()
	bank := s.bankText(tree, cols.bank-16)
	var text runText
	above, below := 14.0, 20.0
	if tree.strings != nil {
		text = s.runTextOf(tree.strings, cols.bank-cellsLong-6)
		above, below = text.above(), text.under
	}
	y += math.Max(root.above, above)
	lastString, foot := s.bankAcross(tree, text, cols.bank, y, below)
	bank.draw(s.c, 0, foot)
	root.put(y)
	last := lastString
	for _, k := range root.limbs {
		last = math.Max(last, k.y)
		s.limb(k)
	}
	if last > y {
		s.c.line("rung", cols.bank, y, cols.bank, last)
	}
	return math.Max(y+root.below, foot+bank.height)
}

// bankAcross draws the strings of modules; it returns the line of the last one and
// where the bank's words begin.
func (s *sketch) bankAcross(tree *tree, text runText, x, y, below float64) (last, foot float64) {
	s.c.drawCells(0, y, false)
	l := tree.strings
	if l == nil {
		s.c.line("reach", cellsLong, y, x, y)
		return y, y + below
	}
	s.level(l, text, cellsLong, x, y)
	last, foot = y, y+below+4
	for k := 1; k < tree.rows(); k++ {
		last = y + below + 20 + float64(k-1)*rowOfString
		foot = last + 20
		s.c.drawCells(0, last, false)
		s.alike(l, text, cellsLong, x, last)
	}
	return last, foot
}

// measure sets the texts of a limb and of all beyond it.
func (s *sketch) measure(l *limb, cols across, from float64) *drawn {
	d := &drawn{limb: l, x1: from}
	next := cols.device
	switch {
	case l.isBus():
		d.x2 = cols.bus
	case from < cols.device:
		d.x2, d.wide, next = cols.device, cols.wide, cols.device+cols.wide
	default:
		d.x2, d.wide = cols.beyond, cols.wider
	}
	if l.isBus() {
		next = cols.bus
	} else {
		d.box = s.boxOf(l, d.wide, "")
	}
	d.text = s.runTextOf(l, d.x2-d.x1)
	for _, k := range l.limbs {
		d.limbs = append(d.limbs, s.measure(k, cols, next))
	}
	d.stack()
	return d
}

// stack works out the room a limb takes above and below its line.
func (d *drawn) stack() {
	if d.run != nil {
		d.above, d.below = d.text.above(), 8
	}
	if d.wide > 0 {
		d.above = math.Max(d.above, boxLead)
		d.below = d.box.height() - boxLead
	}
	below := 0.0
	for i, k := range d.limbs {
		if i == 0 {
			d.above = math.Max(d.above, k.above)
		} else {
			below += rowGap + k.above
		}
		below += k.below
	}
	d.below = math.Max(d.below, below)
	if d.run != nil {
		d.below = math.Max(d.below, d.text.under)
	}
	if d.run != nil && d.isBus() {
		d.above += nameTop
	}
}

// put gives a limb and all beyond it their lines.
func (d *drawn) put(y float64) {
	d.y = y
	for i, k := range d.limbs {
		if i > 0 {
			y += rowGap + k.above
		}
		k.put(y)
		y += k.below
	}
}

// limb draws a limb and all beyond it.
func (s *sketch) limb(d *drawn) {
	s.level(d.limb, d.text, d.x1, d.x2, d.y)
	trunk, class := d.x2, "likely"
	if d.isBus() {
		s.c.text(strong, d.x2, d.y-d.above+13, "middle", d.busName())
	} else {
		d.box.draw(s.c, d.x2, d.y, d.wide)
		trunk, class = d.x2+d.wide, "reach"
	}
	last := d.y
	for _, k := range d.limbs {
		s.limb(k)
		last = k.y
	}
	if d.isBus() {
		s.c.line(class, trunk, d.y-10, trunk, last+10)
	} else if last > d.y {
		s.c.line(class, trunk, d.y, trunk, last)
	}
}

// busName is what the bus bars are called on the diagram.
func (l *limb) busName() string {
	if l.node.Detail == "" {
		return strong.longest(110, l.node.Name, "bus bars")
	}
	return strong.longest(110, l.node.Detail, "bus bars")
}
