package picture

import "math"

// scatter is a plot of points over two scales that both carry numbers.
type scatter struct {
	c    *canvas
	x    linear
	y    band
	dots []box // what labels keep clear of
}

// frame is the inside of the plot.
func (s *scatter) frame() box {
	return box{s.x.p0, s.y.top, s.x.p1 - s.x.p0, s.y.bottom - s.y.top}
}

// mark is a place on a scale that carries a number.
type mark struct {
	at   float64
	text string
}

// axes draws both scales with hairlines across and the name of the lower one
// below it. It returns the foot.
func (s *scatter) axes(across string, xs, ys []mark) float64 {
	lines := &trace{}
	for _, m := range ys {
		lines.move(s.x.p0, s.y.y(m.at)).to(s.x.p1, s.y.y(m.at))
		s.c.text(tick, s.x.p0-6, s.y.y(m.at)+4, "end", m.text)
	}
	s.c.path("hair", lines)
	s.c.line("axis", s.x.p0, s.y.bottom, s.x.p1, s.y.bottom)
	for _, m := range xs {
		x := s.x.at(m.at)
		s.c.line("axis", x, s.y.bottom, x, s.y.bottom+4)
		s.c.text(tick, math.Min(x, s.c.width-tick.measure(m.text)/2), s.y.bottom+18, "middle", m.text)
	}
	s.c.text(strong, s.x.p1, s.y.bottom+38, "end", across)
	return s.y.bottom + 44
}

// upMarks are even steps of the upright scale.
func (s *scatter) upMarks() []mark {
	every := step(34 * (s.y.high - s.y.low) / (s.y.bottom - s.y.top))
	return marksAt(ticks(s.y.low, s.y.high, every), every)
}

// acrossMarks are even steps of the lower scale.
func (s *scatter) acrossMarks() []mark {
	every := s.everyAcross(tickText)
	return marksAt(ticks(s.x.v0, s.x.v1, every), every)
}

func marksAt(list []float64, every float64) []mark {
	var out []mark
	for _, v := range list {
		out = append(out, mark{v, tickText(v, every)})
	}
	return out
}

// roundHours are the numbers a scale by square roots carries.
var roundHours = []float64{0, 5, 20, 50, 100, 200, 350, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000}

// rootMarks are round numbers on a scale by square roots, as far apart as asked.
func rootMarks(low, high, perPx float64, apart func(text string) float64) []mark {
	var out []mark
	last := math.Inf(-1)
	for _, v := range roundHours {
		text, at := tickText(v, 1), math.Sqrt(v)
		if at >= low && at <= high && at-last >= perPx*apart(text) {
			out, last = append(out, mark{at, text}), at
		}
	}
	return out
}

// everyAcross is a step whose ticks have room beside each other.
func (s *scatter) everyAcross(text func(v, every float64) string) float64 {
	perPx := (s.x.v1 - s.x.v0) / (s.x.p1 - s.x.p0)
	every := step(50 * perPx)
	for range 8 {
		wide := math.Max(tick.measure(text(s.x.v0, every)), tick.measure(text(s.x.v1, every)))
		if every/perPx >= math.Max(wide+14, 1.5*wide) {
			break
		}
		every = step(every * 1.5)
	}
	return every
}

// taken notes where a mark lies.
func (s *scatter) taken(x, y, r float64) {
	s.dots = append(s.dots, box{x - r, y - r, 2 * r, 2 * r})
}

// name writes the first of the labels that finds room beside a mark, with a
// leader where it lies further off; false when none does.
func (s *scatter) name(x, y, r float64, labels ...label) bool {
	for _, l := range labels {
		for _, off := range []float64{6, 18, 34, 54} {
			if off > 6 && l.width < leastLed {
				break
			}
			at, ok := s.room(x, y, r+off, l)
			if !ok {
				continue
			}
			if off > 6 {
				s.lead(x, y, at)
			}
			l.draw(s.c, at.x, at.y)
			return true
		}
	}
	return false
}

// leastLed is the width of a label that is worth a leader: a number alone is not.
const leastLed = 40.0

// room looks for a free place at a distance from a mark: beside it first, then
// over and under it.
func (s *scatter) room(x, y, off float64, l label) (box, bool) {
	level, over, under := y-l.height/2, y-off-l.height, y+off
	right, left := x+off, x-off-l.width
	for _, p := range [][2]float64{{right, level}, {left, level}, {right - off/2, over}, {right - off/2, under}, {left + off/2, over}, {left + off/2, under}, {x - l.width/2, over}, {x - l.width/2, under}} {
		if b := (box{p[0], p[1], l.width, l.height}); s.free(b) && s.reaches(x, y, b) {
			return b, true
		}
	}
	return box{}, false
}

// lead joins a mark to its label; further labels keep off the way.
func (s *scatter) lead(x, y float64, at box) {
	toX, toY := near(x, y, at)
	s.c.line("leader", x, y, toX, toY)
	onTheWay(x, y, toX, toY, func(x, y float64) bool { s.taken(x, y, 1); return true })
}

// reaches reports whether the way from a mark to its label crosses no text.
func (s *scatter) reaches(x, y float64, at box) bool {
	toX, toY := near(x, y, at)
	return onTheWay(x, y, toX, toY, func(x, y float64) bool {
		for _, t := range s.c.texts {
			if t.overlaps(box{x, y, 0, 0}, 2) {
				return false
			}
		}
		return true
	})
}

// near is the place on a box that is nearest to a point.
func near(x, y float64, b box) (nx, ny float64) {
	return math.Max(b.x, math.Min(x, b.x+b.w)), math.Max(b.y, math.Min(y, b.y+b.h))
}

// onTheWay visits points on a way, until one says no.
func onTheWay(x, y, toX, toY float64, visit func(x, y float64) bool) bool {
	steps := math.Ceil(math.Hypot(toX-x, toY-y) / 4)
	for i := 0.0; i <= steps && steps > 0; i++ {
		if !visit(x+(toX-x)*i/steps, y+(toY-y)*i/steps) {
			return false
		}
	}
	return true
}

func (s *scatter) free(b box) bool {
	const gap = 3.0
	f := s.frame()
	if b.x < f.x+gap || b.x+b.w > f.x+f.w+8 || b.y < f.y-10 || b.y+b.h > f.y+f.h-gap {
		return false
	}
	for _, t := range s.c.texts {
		if b.overlaps(t, gap) {
			return false
		}
	}
	for _, d := range s.dots {
		if b.overlaps(d, 1) {
			return false
		}
	}
	return true
}

// reachOf is a scale over some values with room at both ends; zero is on it when
// it is near.
func reachOf(values []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range values {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	if !(low <= high) {
		return 0, 1
	}
	pad := math.Max(0.08*(high-low), 0.02*math.Abs(high))
	pad = math.Max(pad, 0.5)
	if low >= 0 && low < 0.3*high || low-pad < 0 && low >= 0 {
		return 0, high + pad
	}
	return low - pad, high + pad
}

// sound reports whether a number can be drawn at all.
func sound(v float64) bool { return math.Abs(v) < 1e9 }
