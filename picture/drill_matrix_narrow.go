package picture

import (
	"math"

	"ampstead/drill"
)

// narrowly lists the faults one below another for a phone: the name over its
// marks, one column for each scene, named by letters.
func (m *grid) narrowly(y float64) float64 {
	m.each = m.c.width / float64(len(m.res.Scenes))
	y = m.letters(y)
	device := ""
	if m.plain.Worst != nil {
		y = m.deviceWithLetters(y, "")
		y = m.entry(y, &m.plain, false)
	}
	for i := range m.rows {
		r := &m.rows[i]
		if r.Fault.Device != device {
			device = r.Fault.Device
			y = m.deviceWithLetters(y, device)
		}
		y = m.entry(y, r, i+1 < len(m.rows) && m.rows[i+1].Fault.Device == device)
	}
	return y + 8
}

// letters says which scene each letter is.
func (m *grid) letters(y float64) float64 {
	half := (m.c.width - 12) / 2
	var foot [2]float64
	foot[0], foot[1] = y, y
	for i, s := range m.res.Scenes {
		side := 0
		if i >= (len(m.res.Scenes)+1)/2 {
			side = 1
		}
		l := newLabel(words{strong, letter(i)}, 18, half-20, words{plain, s.Name})
		l.draw(m.c, float64(side)*(half+12), foot[side])
		foot[side] += l.height + 3
	}
	return math.Max(foot[0], foot[1]) + 4
}

func (m *grid) deviceWithLetters(y float64, name string) float64 {
	if name == "" {
		m.c.line("axis", 0, y, m.c.width, y)
	} else {
		y = m.device(y+6, name)
	}
	for i := range m.res.Scenes {
		m.c.text(small, (float64(i)+0.5)*m.each, y+11, "middle", letter(i))
	}
	m.c.line("hair", 0, y+15, m.c.width, y+15)
	return y + 17
}

func (m *grid) entry(y float64, r *drill.Row, more bool) float64 {
	wide := m.c.width
	if worst, style := m.worst(r); worst != nil {
		text := style.fit(0.4*m.c.width, worst.Nearness(), harmBrief(worst))
		m.c.text(style, m.c.width, y+13, "end", text)
		wide -= style.measure(text) + 10
	}
	name := nameOf(r)
	if r.Silent {
		name += ", silent"
	}
	l := newLabel(words{}, 0, wide, words{plain, name})
	l.draw(m.c, 0, y+1)
	at := y + l.height + 13
	foot := at + 14
	for i := range r.Cells {
		x := (float64(i) + 0.5) * m.each
		m.mark(r, i, x, at, box{x - m.each/2, y, m.each, foot - y})
	}
	if more {
		m.c.line("hair", 0, foot, m.c.width, foot)
	}
	return foot + 2
}
