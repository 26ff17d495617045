package picture

import (
	"math"
	"strconv"

	q "ampstead/quantity"
)

// runText is what stands at a run: the cable above its line, fuse and contactor
// below their symbols.
type runText struct {
	cable, fuse, contact label
	fuseAt, contactAt    float64 // px of each symbol from where the run begins
	under                float64 // px the texts below the line take
}

const (
	runPad    = 12.0 // px between a trunk and the text of a run
	textDrop  = 9.0  // px between a line and the text below it
	cableLift = 6.0  // px between a line and the text above it
)

// runTextOf sets the texts of a run that is long px.
func (s *sketch) runTextOf(l *limb, long float64) runText {
	room := math.Max(40, long-runPad-8)
	t := runText{fuseAt: runPad + 2, contactAt: runPad + 2, cable: newLabel(words{}, 0, room, s.cableWords(l)...)}
	fused, contact := s.fuseWords(l), s.contactWords(l)
	if len(fused) > 0 && len(contact) > 0 {
		room = room/2 - 4
		t.contactAt += room + 12
	}
	t.fuse, t.contact = newLabel(words{}, 0, room, fused...), newLabel(words{}, 0, math.Max(30, room-6), contact...)
	t.under = math.Max(8, math.Max(t.fuse.height+textDrop, t.contact.height+s.contactDrop(l)))
	return t
}

func (t runText) above() float64 { return math.Max(t.cable.height+cableLift, 13) }

// contactDrop is the room of the contactor's symbol below the line.
func (s *sketch) contactDrop(l *limb) float64 {
	if s.loops(l) {
		return loopDeep + 8
	}
	return textDrop
}

// loops reports whether the pre-charge stands beside a run's contactor.
func (s *sketch) loops(l *limb) bool {
	return l.contact != nil && s.res.PreCharge != nil && s.res.PreCharge.Contactor == l.contact.Name
}

// cableWords says size and length, and what is wrong with them.
func (s *sketch) cableWords(l *limb) []words {
	size := l.run.Size
	if size == "" {
		size = "no size"
	}
	if l.run.Count > 1 {
		size = short(float64(l.run.Count)) + " × " + size
	}
	text := size + ", " + s.metres(l.run.LengthM)
	if l.run.LengthAssumed {
		text += " assumed"
	}
	style := plain
	if len(l.cableSays) > 0 {
		style = hot
	}
	return append([]words{{style, text}}, alerts(l.cableSays)...)
}

// metres writes a length as a tape measure gives it.
func (s *sketch) metres(m float64) string {
	unit, scale := q.Metres.Show(m, s.sys), 100.0
	v, ok := q.Metres.In(m, unit)
	if !ok {
		return q.Metres.Text(m, s.sys)
	}
	if s.sys == q.US || math.Abs(v) >= 100 {
		scale = 10
	}
	return strconv.FormatFloat(math.Round(v*scale)/scale+0, 'f', -1, 64) + " " + unit
}

func alerts(says []string) []words {
	var list []words
	for _, w := range says {
		list = append(list, words{alert, w})
	}
	return list
}

// fuseWords says rating, class and what the fuse must interrupt; nil where none
// stands in the run.
func (s *sketch) fuseWords(l *limb) []words {
	switch {
	case l.run.FuseShared && l.run.FuseName != "":
		return append([]words{{small, "behind " + l.run.FuseName + ", " + short(l.run.FuseA) + " A"}}, alerts(l.fuseSays)...)
	case !l.fused():
		return alerts(l.fuseSays)
	}
	list := []words{{small, short(l.run.FuseA) + " A " + l.run.FuseClass}}
	if l.run.InterruptA >= 1 {
		if l.fuse != nil && l.fuse.InterruptA > 0 {
			list = append(list, words{small, "interrupts " + amperes(l.fuse.InterruptA)}, words{small, amperes(l.run.InterruptA) + " needed"})
		} else {
			list = append(list, words{small, "must interrupt " + amperes(l.run.InterruptA)})
		}
	}
	return append(list, alerts(l.fuseSays)...)
}

// fused reports whether a fuse is drawn in the run.
func (l *limb) fused() bool { return l.run.FuseA > 0 && !l.run.FuseShared }

func (s *sketch) contactWords(l *limb) []words {
	if l.contact == nil {
		return nil
	}
	list := []words{{small, l.contact.Name}}
	if l.contact.ContinuousA > 0 {
		list = append(list, words{small, short(l.contact.ContinuousA) + " A"})
	}
	if s.loops(l) {
		p := s.res.PreCharge
		text := "pre-charge " + short(p.Ohm) + " Ω"
		if p.GivenOhm == 0 {
			text += ", proposed"
		}
		list = append(list, words{small, text})
	}
	return append(list, alerts(l.switchSays)...)
}

// amperes writes a current of a short circuit: kA above a thousand.
func amperes(a float64) string {
	if a >= 1000 {
		return short(a/1000) + " kA"
	}
	return short(math.Round(a)) + " A"
}

// level draws a run from x1 to x2 with its texts.
func (s *sketch) level(l *limb, t runText, x1, x2, y float64) {
	s.wire(l, along{x: x1, y: y}, x2-x1, t.contactAt+6)
	t.cable.draw(s.c, x1+runPad, y-t.cable.height-cableLift)
	if l.fused() {
		s.c.drawFuse(along{x: x1 + t.fuseAt, y: y}, l.run.FuseProposed, len(l.fuseSays) > 0)
	}
	t.fuse.draw(s.c, x1+runPad, y+textDrop-2)
	if l.contact == nil {
		return
	}
	s.contact(l, along{x: x1 + t.contactAt + 6, y: y})
	t.contact.draw(s.c, x1+t.contactAt, y+s.contactDrop(l)-2)
}

// wire draws the line of a run, open where its contactor stands.
func (s *sketch) wire(l *limb, d along, long, contactAt float64) {
	class := lineClass("reach", l.run.Proposed, len(l.cableSays) > 0)
	if l.contact == nil {
		s.c.path(class, d.stroke(0, 0, long, 0))
		return
	}
	s.c.path(class, d.stroke(0, 0, contactAt, 0))
	s.c.path(class, d.stroke(contactAt+contactLong, 0, long, 0))
}

// contact draws the contactor of a run and its pre-charge.
func (s *sketch) contact(l *limb, d along) {
	bad := len(l.switchSays) > 0
	if s.loops(l) {
		s.c.drawLoop(d, s.res.PreCharge.GivenOhm == 0, bad)
	}
	s.c.drawContact(d, bad)
}

// alike draws a further run like one that has its words already.
func (s *sketch) alike(l *limb, t runText, x1, x2, y float64) {
	s.c.line(lineClass("reach", l.run.Proposed, len(l.cableSays) > 0), x1, y, x2, y)
	if l.fused() {
		s.c.drawFuse(along{x: x1 + t.fuseAt, y: y}, l.run.FuseProposed, len(l.fuseSays) > 0)
	}
}
