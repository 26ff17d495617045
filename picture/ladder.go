package picture

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"ampstead/fit"
)

// Ladder draws the ladder of limits to scale: the volts of the cell nearest to
// harm upward, the bank's volts beside them, each recommended set-point as a
// rung with its tolerance, and beside it the same ladder as set today.
func Ladder(res *fit.Result, o Options) string {
	c, height := ladder(res, o)
	return c.finish(o, height, "Ladder of limits", describeLadder(res))
}

func ladder(res *fit.Result, o Options) (*canvas, float64) {
	c := newCanvas("ladder", o)
	lanes := lanesOf(res)
	y := 0.0
	if o.narrow() {
		lanes = once(lanes)
		for i := range lanes {
			if i > 0 {
				y += 28
			}
			y = drawPanel(c, res, lanes[i:i+1], y)
		}
	} else {
		y = drawPanel(c, res, lanes, y)
	}
	return c, caption(c, y+10, "Each rung is a set-point. Its bar shows where the cell nearest to harm can be when the device acts: thick, the likely reach; thin, with every tolerance against you. Bank volts are cell volts times "+strconv.Itoa(max(1, res.Cell.Series))+".")
}

// caption sets a note over the whole width and returns its foot.
func caption(c *canvas, y float64, text string) float64 {
	l := newLabel(words{}, 0, math.Min(c.width, 760), words{small, text})
	l.draw(c, 0, y)
	return y + l.height + 2
}

// lane is one of the ladders that stand side by side.
type lane struct {
	title string
	note  string // what no device does
	rungs []rung // from the top
}

// lanesOf returns the recommended ladder and, when the rig has settings, the
// one of today.
func lanesOf(res *fit.Result) []lane {
	lim := limitsOf(res)
	first := lane{title: "Recommended", rungs: rungsOf(res.Layers, lim)}
	if missing := absent(res.Layers); len(missing) > 0 {
		first.note = "No device here acts at: " + listing(missing) + "."
	}
	var today []rung
	for _, r := range rungsOf(res.Today, lim) {
		if !r.harm {
			today = append(today, r)
		}
	}
	if len(today) == 0 {
		return []lane{first}
	}
	today = append(today, unset(res.Today, res.Layers)...)
	slices.SortStableFunc(today, fromTop)
	return []lane{first, {title: "As set today", rungs: today}}
}

// once keeps one of two ladders that are alike: today's settings are the
// recommended ones.
func once(lanes []lane) []lane {
	if len(lanes) < 2 {
		return lanes
	}
	ofCell := func(r rung) bool { return r.harm }
	first := slices.DeleteFunc(slices.Clone(lanes[0].rungs), ofCell)
	same := func(a, b rung) bool { return a.value == b.value && a.name == b.name }
	if !slices.EqualFunc(first, lanes[1].rungs, same) {
		return lanes
	}
	lanes[0].title = "As recommended"
	return lanes[:1]
}

// describeLadder is the ladder in words, for those who do not see it.
func describeLadder(res *fit.Result) string {
	var b strings.Builder
	for _, l := range lanesOf(res) {
		b.WriteString(l.title + ", from the top: ")
		for i, r := range l.rungs {
			if i > 0 {
				b.WriteString("; ")
			}
			b.WriteString(r.value + " " + r.name)
			if r.remark != "" {
				b.WriteString(" (" + r.remark + ")")
			}
		}
		b.WriteString(". ")
		if l.note != "" {
			b.WriteString(l.note + " ")
		}
	}
	return strings.TrimSpace(b.String())
}
