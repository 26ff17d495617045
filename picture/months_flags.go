package picture

import (
	"math"
	"slices"
)

// flag names a part: a label above the columns and a pole that ends in the part,
// in the month in which it is largest.
type flag struct {
	x    float64 // px of the pole
	to   float64 // kWh at which it ends
	text []words
	at   box // of the label
}

// plan gathers the flags, places their labels and returns the height they take.
func (m *stack) plan() float64 {
	for k := range m.parts {
		m.set = append(m.set, m.partFlag(k))
	}
	m.set = append(m.set, m.askedFlag())
	if short := m.shortFlag(); short != nil {
		m.set = append(m.set, *short)
	}
	slices.SortStableFunc(m.set, func(a, b flag) int { return int(math.Copysign(1, a.x-b.x)) })
	m.shift()
	return m.abreast()
}

// partFlag points at a part in the month in which it is largest.
func (m *stack) partFlag(k int) flag {
	p, best, most := m.parts[k], 0, -1.0
	for i := range m.res.Months {
		if v := p.of(&m.res.Months[i].Energies); v > most {
			best, most = i, v
		}
	}
	left, right := m.sides(best)
	from, to := m.bounds(best, k)
	name := plain
	if p.lines == "shade bad" {
		name = style{"accent", plain.size, plain.wide}
	}
	return flag{x: left + (right-left)*(float64(k)+1)/float64(len(m.parts)+1), to: (from + to) / 2,
		text: []words{{name, p.name}, {small, energy(p.sum, m.units) + " a year"}}}
}

// askedFlag points at the line of what was asked for, beside the first column.
func (m *stack) askedFlag() flag {
	return flag{x: m.x.p0 + 2, to: m.res.Months[0].Load / 1000,
		text: []words{{strong, "asked for by the appliances"}, {small, energy(m.res.Year.Load, m.units) + " a year"}}}
}

// shortFlag points at the worst month's energy that was not served.
func (m *stack) shortFlag() *flag {
	worst, most, sum := 0, 0.0, 0.0
	for i := range m.res.Months {
		v := m.res.Months[i].Unserved
		if sum += v; v > most {
			worst, most = i, v
		}
	}
	if most < leastWh {
		return nil
	}
	e := &m.res.Months[worst].Energies
	return &flag{x: m.x.at(float64(worst)+1) - 3, to: (e.Load - e.Unserved/2) / 1000,
		text: []words{{hot, "not served"}, {small, energy(sum, m.units) + " a year"}}}
}

// shift keeps poles apart from each other.
func (m *stack) shift() {
	var want, size []float64
	for _, f := range m.set {
		want, size = append(want, f.x), append(size, 0)
	}
	for i, x := range spread(want, size, 2.5, m.x.p0, m.x.p1) {
		m.set[i].x = x
	}
}

// abreast sets the labels side by side.
func (m *stack) abreast() float64 {
	var want, size []float64
	var labels []label
	tall := 0.0
	for _, f := range m.set {
		l := newLabel(words{}, 0, math.Min(150, m.c.width/float64(len(m.set))-16), f.text...)
		labels = append(labels, l)
		want, size = append(want, f.x-7), append(size, l.width+7)
		tall = math.Max(tall, l.height)
	}
	for i, left := range spread(want, size, 9, 0, m.c.width) {
		m.set[i].at = box{left, m.above, labels[i].width + 7, tall}
	}
	return tall + 24
}

// flags draws them.
func (m *stack) flags() {
	for _, f := range m.set {
		end := m.b.y(f.to)
		foot := f.at.y + f.at.h
		m.c.path("leader", (&trace{}).move(f.x, end).to(f.x, foot+16).to(f.at.x, foot+4).to(f.at.x, f.at.y+2))
		newLabel(words{}, 0, f.at.w-6, f.text...).draw(m.c, f.at.x+7, f.at.y)
		m.c.dot("solid", f.x, end, 2)
	}
}
