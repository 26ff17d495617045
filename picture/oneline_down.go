package picture

import "math"

// Geometry of the diagram with its trunk down the left side, px.
const (
	trunkAt    = 16.0
	nestAt     = 14.0 // from a box's left edge to the line that goes down from it
	nestRun    = 46.0 // from there to the next box
	leastBox   = 76.0
	stackGap   = 16.0
	boxLeft    = 168.0 // left edge of the boxes on a phone
	boxFurther = 300.0
)

// boxesAt is the left edge of the first boxes.
func (s *sketch) boxesAt() float64 {
	return math.Max(boxLeft-20, math.Min(0.43*s.c.width, boxFurther))
}

// down draws the tree with its trunk down the left side and returns its foot.
func (s *sketch) down(tree *tree, y float64) float64 {
	y, bottom := s.bankDown(tree, y)
	trunk := y
	limbs := tree.root.limbs
	last := y
	var bus *limb
	for _, l := range limbs {
		if l.isBus() && bus == nil {
			bus = l
			continue
		}
		last, bottom = s.row(l, bottom+stackGap)
	}
	if bus == nil {
		s.c.line("reach", trunkAt, trunk, trunkAt, last)
		return bottom
	}
	top := s.mainDown(bus, along{x: trunkAt, y: bottom + stackGap, down: true})
	s.c.line(lineClass("reach", bus.run.Proposed, len(bus.cableSays) > 0), trunkAt, trunk, trunkAt, bottom+stackGap)
	s.c.text(strong, trunkAt+runPad+2, top+14, "start", bus.busName())
	last, bottom = top+16, top+20
	for _, l := range bus.limbs {
		last, bottom = s.row(l, bottom+stackGap)
	}
	s.c.line("likely", trunkAt, top, trunkAt, last+10)
	return math.Max(bottom, last+12)
}

// bankDown draws the strings of modules at the head of the trunk; y is where the
// trunk begins.
func (s *sketch) bankDown(tree *tree, y float64) (trunk, bottom float64) {
	x := s.boxesAt()
	text := s.bankText(tree, s.c.width-x-cellsLong-14)
	line := y + 14.0
	if tree.strings == nil {
		s.c.line("reach", trunkAt, line, x, line)
		s.c.drawCells(x, line, true)
		text.draw(s.c, x+cellsLong+12, line-12)
		return line, math.Max(line+16, line-12+text.height)
	}
	run := s.runTextOf(tree.strings, x-trunkAt)
	line = y + math.Max(run.above(), 14)
	trunk, bottom = line, line-12+text.height
	text.draw(s.c, x+cellsLong+12, line-12)
	s.c.drawCells(x, line, true)
	s.level(tree.strings, run, trunkAt, x, line)
	bottom = math.Max(bottom, line+run.under)
	for k := 1; k < tree.rows(); k++ {
		at := line + run.under + 20 + float64(k-1)*rowOfString
		s.c.drawCells(x, at, true)
		s.alike(tree.strings, run, trunkAt, x, at)
		bottom = math.Max(bottom, at+14)
	}
	return trunk, bottom
}

// mainDown draws the run to the bus bars as a piece of the trunk, words beside it,
// and returns its foot.
func (s *sketch) mainDown(l *limb, d along) float64 {
	room := s.c.width - trunkAt - 40
	at := d.y
	put := func(text label, least float64) (top float64) {
		top = at
		text.draw(s.c, trunkAt+30, top)
		at += math.Max(text.height, least) + 8
		return top
	}
	put(newLabel(words{}, 0, room, s.cableWords(l)...), 0)
	fused := newLabel(words{}, 0, room, s.fuseWords(l)...)
	if l.fused() {
		s.c.drawFuse(along{x: d.x, y: put(fused, fuseLong) + 2, down: true}, l.run.FuseProposed, len(l.fuseSays) > 0)
	} else if fused.height > 0 {
		put(fused, 0)
	}
	contactAt := 0.0
	if l.contact != nil {
		at += 8
		top := put(newLabel(words{}, 0, room, s.contactWords(l)...), contactLong+12) + 4
		contactAt = top - d.y
		s.contact(l, along{x: d.x, y: top, down: true})
	}
	s.wire(l, d, at-d.y, contactAt)
	return at
}

// row draws a branch from the trunk with all beyond it beneath, and returns its
// line and its foot.
func (s *sketch) row(l *limb, y float64) (line, foot float64) {
	x := s.boxesAt()
	text := s.runTextOf(l, x-trunkAt)
	line = y + math.Max(text.above(), boxLead)
	s.level(l, text, trunkAt, x, line)
	return line, s.stacked(l, x, line, line+text.under)
}

// stacked draws a limb's box with its line met at y and all beyond it beneath,
// and returns the foot. The words of its own run end at textFoot.
func (s *sketch) stacked(l *limb, x, y, textFoot float64) float64 {
	wide, beyond := math.Min(s.c.width-x-1, 320), ""
	next := x + nestAt + nestRun
	fits := s.c.width-next >= leastBox
	if !fits && len(l.limbs) > 0 {
		var names []string
		for _, k := range l.limbs {
			names = append(names, k.node.Name)
		}
		beyond = "and beyond it " + listing(names)
	}
	b := s.boxOf(l, wide, beyond)
	b.draw(s.c, x, y, wide)
	from := y - boxLead + b.height()
	foot, last := math.Max(from, textFoot), from
	if !fits {
		return foot
	}
	for _, k := range l.limbs {
		last, foot = s.nested(k, x+nestAt, foot+10)
	}
	if last > from {
		s.c.line("reach", x+nestAt, from, x+nestAt, last)
	}
	return foot
}

// nested draws a branch beneath a box: its words in the column beside the trunk,
// its symbols on a short line.
func (s *sketch) nested(l *limb, x, y float64) (line, foot float64) {
	list := append(s.cableWords(l), s.fuseWords(l)...)
	text := newLabel(words{}, 0, s.boxesAt()-trunkAt-runPad-8, append(list, s.contactWords(l)...)...)
	line = y + boxLead
	text.draw(s.c, trunkAt+runPad, line-12)
	s.wire(l, along{x: x, y: line}, nestRun, nestRun-contactLong-4)
	switch {
	case l.contact != nil:
		s.c.drawContact(along{x: x + nestRun - contactLong - 4, y: line}, len(l.switchSays) > 0)
	case l.fused():
		s.c.drawFuse(along{x: x + 9, y: line}, l.run.FuseProposed, len(l.fuseSays) > 0)
	}
	return line, s.stacked(l, x+nestRun, line, line-12+text.height)
}

// alone draws what the bank does not reach.
func (s *sketch) alone(l *limb, y float64) float64 {
	return s.stacked(l, s.boxesAt(), y+boxLead+4, y)
}
