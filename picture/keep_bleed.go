package picture

import (
	"fmt"
	"math"

	"ampstead/keep"
)

// Bleed draws, side by side for every group, the charge to bleed so that all
// stand with the lowest, and the charge to add so that all stand with the
// highest.
func Bleed(res *keep.Result, o Options) string {
	c, height := bleed(res, o)
	return c.finish(o, height, "What levels the groups", describeBleed(res))
}

// levelled is one group's row.
type levelled struct {
	number    int
	bleed     float64
	add       float64
	marked    bool
	told, two bool // whether bleed, and add as well, is known
}

func levels(res *keep.Result) []levelled {
	var list []levelled
	for i := range max(len(res.Groups), len(res.Balance.BleedAh), len(res.Balance.AddAh)) {
		l := levelled{number: i + 1}
		if i < len(res.Groups) {
			g := res.Groups[i]
			l.number, l.bleed, l.marked, l.told = g.Number, g.BleedAh, g.Drifts, true
		}
		if i < len(res.Balance.BleedAh) {
			l.bleed, l.told = res.Balance.BleedAh[i], true
		}
		if i < len(res.Balance.AddAh) {
			l.add, l.two = res.Balance.AddAh[i], true
		}
		if plausible(l.bleed) && plausible(l.add) && (l.told || l.two) {
			list = append(list, l)
		}
	}
	return list
}

func bleed(res *keep.Result, o Options) (*canvas, float64) {
	c := newCanvas("bleed", o)
	list := levels(res)
	if len(list) == 0 {
		return c, caption(c, 0, "No reading at rest tells yet how the groups stand.")
	}
	t := newRows(c, o)
	top := t.title(0, "To level the groups, Ah", bleedSaid(res))
	t.levelScales(list)
	top = t.levelHeads(top)
	foot := top + rowTall*float64(len(list))
	for i, l := range list {
		y := top + rowTall*(float64(i)+0.5)
		s := plain
		if l.marked {
			s = hot
		}
		c.text(s, 0, y+4, "start", groupName(l.number))
		t.amount(t.x, y, l.bleed, "tone")
		t.amount(t.other, y, l.add, "wash")
	}
	c.path("axis", (&trace{}).move(t.x.p0, top).to(t.x.p0, foot).move(t.other.p0, top).to(t.other.p0, foot))
	return c, foot + 6
}

// levelScales lays the two scales side by side, equal in Ah a px.
func (t *rowChart) levelScales(list []levelled) {
	most, text := 0.1, 0.0
	for _, l := range list {
		most = math.Max(most, math.Max(l.bleed, l.add))
		text = math.Max(text, strong.measure(plainAh(l.bleed)))
		text = math.Max(text, strong.measure(plainAh(l.add)))
	}
	gap := 14.0
	wide := (t.c.width - t.left - gap) / 2
	text += 9
	t.x = linear{0, most, t.left, t.left + wide - text}
	t.other = linear{0, most, t.left + wide + gap, t.left + wide + gap + wide - text}
}

func (t *rowChart) levelHeads(top float64) float64 {
	a := newLabel(words{}, 0, t.other.p0-t.x.p0-10, words{strong, "bleed, down to the lowest"})
	b := newLabel(words{}, 0, t.c.width-t.other.p0, words{strong, "or add, up to the highest"})
	a.draw(t.c, t.x.p0, top)
	b.draw(t.c, t.other.p0, top)
	return top + math.Max(a.height, b.height) + 6
}

func (t *rowChart) amount(x linear, y, ah float64, class string) {
	v := math.Max(0, ah)
	bar := box{x.p0, y - 6, x.at(v) - x.p0, 12}
	t.c.rect(class, bar)
	if class == "wash" && bar.w > 0 {
		t.c.path("frame", (&trace{}).move(bar.x, bar.y).by(bar.w, 0).by(0, bar.h).by(-bar.w, 0).close())
	}
	t.c.text(strong, x.at(v)+8, y+4, "start", plainAh(ah))
}

func plainAh(ah float64) string {
	if ah < 0.05 {
		return "none"
	}
	return fmt.Sprintf("%.1f", ah)
}

func bleedSaid(res *keep.Result) string {
	b := res.Balance
	if !b.Wanted {
		return "not worth the trouble today"
	}
	text := ""
	if plausible(b.Hours) && b.Hours > 0 {
		text = fmt.Sprintf("%s h with the balancer of the rig", short(b.Hours))
	}
	if plausible(b.GainWh/1000) && b.GainWh >= 1 {
		if text != "" {
			text += "; "
		}
		text += fmt.Sprintf("brings %.0f Wh", b.GainWh)
	}
	return text
}

func describeBleed(res *keep.Result) string {
	text := ""
	for i, l := range levels(res) {
		if i == 24 {
			text += "and more; "
			break
		}
		text += fmt.Sprintf("%s: bleed %s, or add %s; ", groupName(l.number), plainAh(l.bleed), plainAh(l.add))
	}
	if said := bleedSaid(res); said != "" {
		text += said + "."
	}
	return text
}
