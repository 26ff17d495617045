package picture

import (
	"strings"

	q "ampstead/quantity"
	"ampstead/wire"
)

// OneLine draws the one-line diagram: the bank with its strings, main fuse,
// contactor and bus bars, and a branch for everything that hangs on them. One line
// stands for both conductors of a run. Lengths are in the units of the options.
func OneLine(res *wire.Result, o Options) string {
	tree := grown(res)
	c, height := oneLine(res, tree, o)
	return c.finish(o, height, "One-line diagram", tree.describe())
}

// sketch is a diagram while it is drawn.
type sketch struct {
	c   *canvas
	sys q.System
	res *wire.Result
}

func oneLine(res *wire.Result, tree *tree, o Options) (*canvas, float64) {
	s := &sketch{c: newCanvas("oneline", o), sys: o.Units, res: res}
	y := 0.0
	switch {
	case tree.root == nil:
	case o.narrow() || !tree.fitsAcross():
		y = s.down(tree, y)
	default:
		y = s.across(tree, y)
	}
	for i, l := range tree.adrift {
		if i == 0 {
			s.c.text(head, 0, y+34, "start", "Not connected to the bank")
			y += 40
		}
		y = s.alone(l, y)
	}
	return s.c, caption(s.c, y+14, tree.legend())
}

// legend says how to read what is drawn.
func (t *tree) legend() string {
	if t.root == nil && len(t.adrift) == 0 {
		return "No circuit can be drawn yet."
	}
	text := "One line stands for both conductors, and a length is one way."
	if t.dashed {
		text += " Dashed is proposed here and not in the file."
	}
	if t.broken {
		text += " In the accent stands what breaks a rule."
	}
	return text
}

// describe is the diagram in words, for those who do not see it.
func (t *tree) describe() string {
	var b strings.Builder
	if t.strings != nil {
		b.WriteString(t.strings.said() + ". ")
	}
	var tell func(l *limb)
	tell = func(l *limb) {
		if l.run != nil {
			b.WriteString(l.said() + ". ")
		}
		for _, k := range l.limbs {
			tell(k)
		}
	}
	if t.root != nil {
		tell(t.root)
	}
	for _, l := range t.adrift {
		tell(l)
	}
	return strings.TrimSpace(b.String())
}

// said is one run in words: its ends, its fuse and what is wrong with it.
func (l *limb) said() string {
	text := l.run.Name + ": " + l.run.From + " to " + l.run.To
	if l.run.Size != "" {
		text += ", " + l.run.Size
	}
	if l.run.FuseA > 0 {
		text += ", fuse " + short(l.run.FuseA) + " A " + l.run.FuseClass
	}
	for _, list := range [][]string{l.cableSays, l.fuseSays, l.switchSays, l.nodeSays} {
		for _, w := range list {
			text += ", " + w
		}
	}
	return text
}
