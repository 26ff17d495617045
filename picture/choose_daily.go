package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ampstead/choose"
)

// Windows draws what each daily window brings in years, and what it costs in hours
// short: now, and after ten years.
func Windows(res *choose.Result, o Options) string {
	c, height := windowsTried(res, o)
	return c.finish(o, height, "Years and hours short of each daily window", describeWindows(res))
}

// tried are the daily windows while they are drawn, one row each.
type tried struct {
	c     *canvas
	list  []*choose.WindowChoice
	names float64 // px for their names
}

func windowsTried(res *choose.Result, o Options) (*canvas, float64) {
	c := newCanvas("windows", o)
	t := &tried{c: c, names: 210}
	for i := range res.Window {
		w := &res.Window[i]
		if sound(w.ShortHours) && sound(w.ShortLate) && sound(w.ByCapacity.Middle) && w.ShortHours >= 0 && w.ShortLate >= 0 && w.ByCapacity.Middle >= 0 {
			t.list = append(t.list, w)
		}
	}
	if len(t.list) == 0 {
		return c, caption(c, 0, "No daily window was tried.")
	}
	if o.narrow() {
		t.names = 126
		y := t.panel(0, t.names, c.width, "Years by capacity", "the line is the band of the model", t.yearScale, t.life)
		return c, t.panel(y+14, t.names, c.width, "Hours short a year", "dot now, ring after ten years", t.hourScale, t.hours)
	}
	half := (c.width - t.names - 40) / 2
	t.panel(0, t.names, t.names+half, "Years by capacity", "the line is the band of the model", t.yearScale, t.life)
	return c, t.panel(0, t.names+half+40, c.width, "Hours short a year", "dot now, ring after ten years", t.hourScale, t.hours)
}

// panel draws one number of every window; names stand before the first column.
func (t *tried) panel(y, left, right float64, title, said string, scale func(left, right float64) linear, draw func(x linear, y float64, w *choose.WindowChoice)) float64 {
	at := left
	if left == t.names {
		at = 0
	}
	l := newLabel(words{}, 0, right-at, words{strong, title}, words{small, said})
	if at == 0 && t.c.width >= narrowBelow {
		at = left
	}
	l.draw(t.c, at, y)
	y += l.height + 8
	x, top := scale(left, right), y
	for _, w := range t.list {
		tall := t.rowTall(w)
		if left == t.names {
			t.name(w, y, tall)
		}
		draw(x, y+tall/2, w)
		y += tall
	}
	t.c.line("axis", left, top, left, y)
	return y + 2
}

// label is what a window is called.
func (t *tried) label(w *choose.WindowChoice) label {
	name, list := plain, []words{}
	if w.Pick {
		name = hot
	}
	list = append(list, words{name, cellSpan(w)})
	if !strings.HasPrefix(w.Name, cellSpan(w)) && w.Name != "" {
		list = append(list, words{small, w.Name})
	}
	if w.Pick {
		list = append(list, words{alert, "serves best"})
	}
	return newLabel(words{}, 0, t.names-14, list...)
}

func (t *tried) rowTall(w *choose.WindowChoice) float64 {
	return math.Max(26, t.label(w).height+8)
}

func (t *tried) name(w *choose.WindowChoice, y, tall float64) {
	l := t.label(w)
	l.draw(t.c, 0, y+(tall-l.height)/2)
}

// yearScale leaves room for the number behind the longest band.
func (t *tried) yearScale(left, right float64) linear {
	most, text := 1.0, 0.0
	for _, w := range t.list {
		_, high := bandOfYears(w)
		most, text = math.Max(most, high), math.Max(text, strong.measure(yearsWords(reach{middle: w.ByCapacity.Middle})))
	}
	return linear{0, most, left + 1, right - text - 10}
}

func bandOfYears(w *choose.WindowChoice) (low, high float64) {
	b := w.ByCapacity
	if sound(b.Low) && sound(b.High) && 0 <= b.Low && b.Low <= b.Middle && b.Middle <= b.High {
		return b.Low, b.High
	}
	return b.Middle, b.Middle
}

// life draws the years of a window with their band.
func (t *tried) life(x linear, y float64, w *choose.WindowChoice) {
	s, class := plain, "tone"
	if w.Pick {
		s, class = hot, "hot"
	}
	t.c.rect(class, box{x.p0, y - 5, x.at(w.ByCapacity.Middle) - x.p0, 10})
	low, high := bandOfYears(w)
	if high > low {
		a, b := x.at(low), x.at(high)
		t.c.path("reach", (&trace{}).move(a, y).to(b, y).move(a, y-4).to(a, y+4).move(b, y-4).to(b, y+4))
	}
	t.c.text(s, x.at(high)+8, y+4, "start", yearsWords(reach{middle: w.ByCapacity.Middle}))
}

// hourScale leaves room for the number behind the furthest ring.
func (t *tried) hourScale(left, right float64) linear {
	most, text := 1.0, 0.0
	for _, w := range t.list {
		most, text = math.Max(most, math.Max(w.ShortHours, w.ShortLate)), math.Max(text, strong.measure(hoursSaid(w)))
	}
	return linear{0, most, left + 8, right - text - 14}
}

// hours draws the hours short of a window now and later.
func (t *tried) hours(x linear, y float64, w *choose.WindowChoice) {
	s, line, dot := plain, "reach", "solid"
	if w.Pick {
		s, line, dot = hot, "strong", "hot"
	}
	now, late := x.at(w.ShortHours), x.at(w.ShortLate)
	t.c.line(line, now, y, late, y)
	t.c.dot("bare", late, y, 4.5)
	t.c.dot(dot, now, y, 4.5)
	t.c.text(s, math.Max(now, late)+10, y+4, "start", hoursSaid(w))
}

func hoursSaid(w *choose.WindowChoice) string {
	return tickText(math.Round(w.ShortHours), 1) + ", then " + tickText(math.Round(w.ShortLate), 1)
}

func cellSpan(w *choose.WindowChoice) string {
	return strconv.FormatFloat(w.LowV, 'f', 2, 64) + " to " + strconv.FormatFloat(w.HighV, 'f', 2, 64) + " V"
}

func describeWindows(res *choose.Result) string {
	text := ""
	for i := range res.Window {
		w := &res.Window[i]
		pick := ""
		if w.Pick {
			pick = ", recommended"
		}
		text += fmt.Sprintf("%s a cell: %s years, %.0f h short a year now, %.0f h after ten years%s. ", cellSpan(w), short(figures(w.ByCapacity.Middle, 2)), w.ShortHours, w.ShortLate, pick)
	}
	return strings.TrimSpace(text)
}
