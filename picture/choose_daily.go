package picture

import (
	"fmt"
	"math"
	"strconv"

	"ampstead/choose"
)

// Windows draws what each daily window brings in years and costs in hours short:
// now, and after ten years.
func Windows(res *choose.Result, o Options) string {
	c, height := windowsTried(res, o)
	return c.finish(o, height, "Years against hours short, for each daily window", describeWindows(res))
}

func windowsTried(res *choose.Result, o Options) (*canvas, float64) {
	c := newCanvas("windows", o)
	var list []*choose.WindowChoice
	for i := range res.Window {
		w := &res.Window[i]
		if sound(w.ShortHours) && sound(w.ShortLate) && sound(w.ByCapacity.Middle) {
			list = append(list, w)
		}
	}
	if len(list) == 0 {
		return c, caption(c, 0, "No daily window was tried.")
	}
	s := &scatter{c: c}
	l := newLabel(words{}, 0, c.width, words{strong, "Years by capacity"}, words{small, "higher and further left is better; the dot is now, the ring after ten years; upright, the band of the model"})
	l.draw(c, 0, 0)
	s.over(list, l.height+14, o)
	foot := s.axes("Hours short a year", tickText, tickText)
	for _, w := range list {
		s.window(w)
	}
	left := ""
	for _, pick := range []bool{true, false} {
		for _, w := range list {
			if w.Pick == pick && !s.windowName(w, o) {
				left += ", " + w.Name
			}
		}
	}
	if left != "" {
		foot = caption(c, foot, "Not named for want of room: "+left[2:]+".")
	}
	return c, foot
}

// over scales the plot.
func (s *scatter) over(list []*choose.WindowChoice, top float64, o Options) {
	var xs, ys []float64
	for _, w := range list {
		xs, ys = append(xs, w.ShortHours, w.ShortLate), append(ys, w.ByCapacity.Middle)
		if low, high, ok := bandOfYears(w); ok {
			ys = append(ys, low, high)
		}
	}
	tall := 320.0
	if o.narrow() {
		tall = 360
	}
	s.x.v0, s.x.v1 = reachOf(xs)
	low, high := reachOf(ys)
	s.y = band{low, high, top, top + tall}
	s.x.p0, s.x.p1 = math.Max(20, tick.measure(tickText(high, step(34*(high-low)/tall))))+12, s.c.width-20
}

func bandOfYears(w *choose.WindowChoice) (low, high float64, ok bool) {
	b := w.ByCapacity
	return b.Low, b.High, sound(b.Low) && sound(b.High) && b.Low <= b.Middle && b.Middle <= b.High && b.Low < b.High
}

func (s *scatter) window(w *choose.WindowChoice) {
	x, y, late := s.x.at(w.ShortHours), s.y.y(w.ByCapacity.Middle), s.x.at(w.ShortLate)
	class, dot := "reach", "solid"
	if w.Pick {
		class, dot = "strong", "hot"
	}
	if low, high, ok := bandOfYears(w); ok {
		s.c.path(class, (&trace{}).move(x, s.y.y(low)).to(x, s.y.y(high)).move(x-4, s.y.y(low)).to(x+4, s.y.y(low)).move(x-4, s.y.y(high)).to(x+4, s.y.y(high)))
		for at := s.y.y(high); at <= s.y.y(low); at += 6 {
			s.taken(x, at, 2)
		}
	}
	s.c.line("dash", x, y, late, y)
	onTheWay(x, y, late, y, func(x, y float64) bool { s.taken(x, y, 1); return true })
	s.c.dot("bare", late, y, 4)
	s.taken(late, y, 4)
	s.c.dot(dot, x, y, 5.5)
	s.taken(x, y, 5.5)
}

func (s *scatter) windowName(w *choose.WindowChoice, o Options) bool {
	name, wide := strong, 190.0
	if w.Pick {
		name = hot
	}
	if o.narrow() {
		wide = 120
	}
	title := w.Name
	if w.Pick {
		title += ": serves best"
	}
	list := []label{newLabel(words{}, 0, wide, words{name, title}), newLabel(words{}, 0, wide, words{name, w.Name})}
	if !o.narrow() {
		list = append([]label{newLabel(words{}, 0, wide, words{name, title}, words{small, cellSpan(w)})}, list...)
	}
	return s.name(s.x.at(w.ShortHours), s.y.y(w.ByCapacity.Middle), 5.5, list...)
}

func cellSpan(w *choose.WindowChoice) string {
	return strconv.FormatFloat(w.LowV, 'f', 2, 64) + " to " + strconv.FormatFloat(w.HighV, 'f', 2, 64) + " V a cell"
}

func describeWindows(res *choose.Result) string {
	text := ""
	for i := range res.Window {
		w := &res.Window[i]
		pick := ""
		if w.Pick {
			pick = ", recommended"
		}
		text += fmt.Sprintf("%s, %s: %s years, %.0f h short a year now, %.0f h after ten years%s. ", w.Name, cellSpan(w), short(figures(w.ByCapacity.Middle, 2)), w.ShortHours, w.ShortLate, pick)
	}
	return text
}
