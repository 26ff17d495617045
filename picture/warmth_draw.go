package picture

import (
	"math"

	"ampstead/fit"
)

const (
	barRow   = 13.0 // px across the strip for each row of tolerance bars
	wordsRow = 20.0 // px across the strip for the names of zones
)

// level lays the strip from left to right, labels standing above it like flags.
func (s *slip) level(c *canvas) float64 {
	x := linear{s.low, s.high, 0, c.width}
	const flag = 12.0 // from the pole to the next label
	wide := math.Min(150, c.width/float64(len(s.marks))-flag)
	var want, size []float64
	var labels []label
	tall := 0.0
	for _, m := range s.marks {
		l := s.label(m, wide-7)
		labels = append(labels, l)
		want, size = append(want, x.at(m.TempC)), append(size, l.width+7)
		tall = math.Max(tall, l.height)
	}
	left := spread(want, size, flag, 1, c.width)
	top := tall + 26
	foot := top + wordsRow + barRow*float64(s.count) + 4
	for _, z := range s.zones {
		s.levelZone(c, z, x.at(z.low), x.at(z.high), top, foot)
	}
	c.rect("frame", box{0.5, top, c.width - 1, foot - top})
	for i, m := range s.marks {
		at := x.at(m.TempC)
		c.path("leader", (&trace{}).move(at, top).to(left[i], tall+8).to(left[i], 2))
		labels[i].draw(c, left[i]+7, 0)
		levelMark(c, m, x, top+barRow*(float64(s.rows[i])+0.5)+2, top, foot)
	}
	s.levelTicks(c, x, foot)
	return foot + 24
}

func (s *slip) levelZone(c *canvas, z warmZone, from, to, top, foot float64) {
	ground, words := "wash", small
	if z.harm {
		ground, words = "warn", alert
	}
	c.rect(ground, box{from, top, to - from, foot - top})
	if z.harm {
		c.path("shade bad", slanted(from, to, top, foot-wordsRow, 7))
	}
	if words.measure(z.name)+8 < to-from {
		c.text(words, (from+to)/2, foot-6, "middle", z.name)
	}
}

// levelMark draws where a mark is set and how far it may be out.
func levelMark(c *canvas, m fit.Mark, x linear, y, top, foot float64) {
	at := x.at(m.TempC)
	c.line(marked("rung", m.Device == "cell"), at, top, at, foot-wordsRow)
	if from, to := x.at(m.LowC), x.at(m.HighC); to > from {
		c.path("reach", (&trace{}).move(from, y).to(to, y).move(from, y-3.5).to(from, y+3.5).move(to, y-3.5).to(to, y+3.5))
	}
}

func (s *slip) levelTicks(c *canvas, x linear, y float64) {
	unit, every, list := s.scale(60 * (s.high - s.low) / c.width)
	for _, v := range list {
		at, text := x.at(celsius(v, unit)), tickText(v, every)+" "+unit
		if w := tick.measure(text); at < w/2 || at > c.width-w/2 {
			continue
		}
		c.line("axis", at, y, at, y+4)
		c.text(tick, at, y+18, "middle", text)
	}
}

// upright lays the strip from bottom to top, labels beside it.
func (s *slip) upright(c *canvas) float64 {
	const left = 52.0
	wide := barRow*float64(s.count) + 16
	labelX := left + wide + leaderRun
	var want, size []float64
	labels := make([]label, len(s.marks))
	for i := range s.marks {
		labels[i] = s.label(s.marks[i], c.width-labelX-4)
	}
	for i := len(labels) - 1; i >= 0; i-- {
		size = append(size, labels[i].height)
	}
	tall := math.Max(380, total(size, labelGap)+2*labelGap)
	y := linear{s.high, s.low, 4, 4 + tall}
	for i := len(s.marks) - 1; i >= 0; i-- {
		want = append(want, y.at(s.marks[i].TempC)-middle)
	}
	tops := spread(want, size, labelGap, 6, 2+tall)
	for _, z := range s.zones {
		s.uprightZone(c, z, box{left, y.at(z.high), wide, y.at(z.low) - y.at(z.high)})
	}
	c.rect("frame", box{left, y.p0, wide, tall})
	for i, m := range s.marks {
		top := tops[len(tops)-1-i]
		leader(c, "leader", left+wide, y.at(m.TempC), left+wide+6, labelX, top+middle)
		uprightMark(c, m, y, left, left+wide, left+8+barRow*(float64(s.rows[i])+0.5))
		labels[i].draw(c, labelX, top)
	}
	s.uprightTicks(c, y, left)
	return tall + 10
}

func (s *slip) uprightZone(c *canvas, z warmZone, r box) {
	if !z.harm {
		c.rect("wash", r)
		return
	}
	c.rect("warn", r)
	c.path("shade bad", slanted(r.x, r.x+r.w, r.y, r.y+r.h, 7))
}

func uprightMark(c *canvas, m fit.Mark, y linear, left, right, x float64) {
	at := y.at(m.TempC)
	c.line(marked("rung", m.Device == "cell"), left, at, right, at)
	if top, foot := y.at(m.HighC), y.at(m.LowC); foot > top {
		c.path("reach", (&trace{}).move(x, top).to(x, foot).move(x-3.5, top).to(x+3.5, top).move(x-3.5, foot).to(x+3.5, foot))
	}
}

func (s *slip) uprightTicks(c *canvas, y linear, x float64) {
	unit, every, list := s.scale(30 * (s.high - s.low) / (y.p1 - y.p0))
	for _, v := range list {
		at := y.at(celsius(v, unit))
		if at < y.p0+6 || at > y.p1-6 {
			continue
		}
		c.line("axis", x-4, at, x, at)
		c.text(tick, x-7, at+4, "end", tickText(v, every)+unit)
	}
}
