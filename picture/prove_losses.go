package picture

import (
	"fmt"
	"math"

	"ampstead/prove"
)

// GroupLosses draws, side by side for every group, the charge that balancing
// would bring back and the charge that is lost.
func GroupLosses(res *prove.Result, o Options) string {
	c, height := groupLosses(res, o)
	return c.finish(o, height, "Recoverable and lost charge of each group", describeGroups(res, func(g prove.Group) string {
		return fmt.Sprintf("recoverable %.1f Ah ± %.1f, lost %.1f Ah ± %.1f", g.Recoverable, g.OffsetErr, g.LostAh, g.LostErr)
	}))
}

func groupLosses(res *prove.Result, o Options) (*canvas, float64) {
	c := newCanvas("losses", o)
	list := measured(res.Groups, func(g prove.Group) bool {
		return g.CapacityAh > 0 && plausible(g.Recoverable) && plausible(g.OffsetErr) && plausible(g.LostAh) && plausible(g.LostErr)
	})
	if len(list) == 0 {
		return c, caption(c, 0, "The log does not let capacity and offset of single groups be told apart.")
	}
	t := newRows(c, o)
	top := t.title(0, "What each group lacks, Ah", "with one standard error to either side")
	t.halves(list)
	top = t.heads(top)
	foot := top + rowTall*float64(len(list))
	for i, g := range list {
		y := top + rowTall*(float64(i)+0.5)
		t.name(g, y, g.Number == res.Limiting)
		t.lack(t.x, y, g.Recoverable, g.OffsetErr, false)
		t.lack(t.other, y, g.LostAh, g.LostErr, true)
	}
	c.path("axis", (&trace{}).move(t.x.p0, top).to(t.x.p0, foot).move(t.other.p0, top).to(t.other.p0, foot))
	return c, foot + 6
}

// halves lays the two scales side by side, equal in Ah a px, with room for the
// numbers behind the longest bar.
func (t *rowChart) halves(list []prove.Group) {
	most, text := 0.1, 0.0
	for _, g := range list {
		most = math.Max(most, math.Max(g.Recoverable+math.Max(0, g.OffsetErr), g.LostAh+math.Max(0, g.LostErr)))
		text = math.Max(text, math.Max(strong.measure(ampHours(g.Recoverable, g.OffsetErr)), strong.measure(ampHours(g.LostAh, g.LostErr))))
	}
	gap := 14.0
	wide := (t.c.width - t.left - gap) / 2
	text += 9
	t.x = linear{0, most, t.left, t.left + wide - text}
	t.other = linear{0, most, t.left + wide + gap, t.left + wide + gap + wide - text}
}

// heads names the two columns.
func (t *rowChart) heads(top float64) float64 {
	room := t.other.p0 - t.x.p0 - 10
	a := newLabel(words{}, 0, room, words{strong, "comes back by balancing"})
	b := newLabel(words{}, 0, t.c.width-t.other.p0, words{hot, "lost for good"})
	a.draw(t.c, t.x.p0, top)
	b.draw(t.c, t.other.p0, top)
	return top + math.Max(a.height, b.height) + 6
}

// lack draws one amount as a bar with its error and its number.
func (t *rowChart) lack(x linear, y, ah, err float64, lost bool) {
	v := math.Max(0, ah)
	class := "tone"
	if lost {
		class = "hot"
	}
	t.c.rect(class, box{x.p0, y - 6, x.at(v) - x.p0, 12})
	end := x.at(math.Min(x.v1, math.Max(0, v+math.Max(0, err))))
	t.errorBar(x, y, v, err, false)
	t.c.text(strong, end+8, y+4, "start", ampHours(ah, err))
}

// ampHours writes an amount with its error.
func ampHours(ah, err float64) string {
	switch {
	case err >= 0.05:
		return fmt.Sprintf("%.1f ± %.1f", math.Max(0, ah), err)
	case ah < 0.05:
		return "none"
	}
	return fmt.Sprintf("%.1f", ah)
}
