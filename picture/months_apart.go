package picture

import (
	"math"
	"slices"

	"ampstead/travel"
)

// apart draws each share as a row of bars under its name, all to one scale.
func (m *stack) apart() float64 {
	m.x.p0 = 0
	short := 0.0
	for i := range m.res.Months {
		short += m.res.Months[i].Unserved
	}
	said := energy(m.res.Year.Load, m.units) + " a year"
	if short >= leastWh {
		said += ", of it not served " + energy(short, m.units)
	}
	rows := slices.Clone(m.parts)
	slices.Reverse(rows)
	foot := 0.0
	slices.SortStableFunc(rows, func(a, b part) int { return rank(a) - rank(b) })
	foot = m.row(foot, part{name: "Asked for by the appliances", of: func(e *travel.Energies) float64 { return e.Load }, fill: "solid"}, said)
	for _, p := range rows {
		foot = m.row(foot+12, p, energy(p.sum, m.units)+" a year")
	}
	m.names(foot, m.starts(), m.titles())
	return foot + 20
}

// rank puts what came in before what was lost.
func rank(p part) int {
	if p.name == "caught from the sun" || p.name == "mains" || p.name == "alternator" {
		return 0
	}
	return 1
}

const tallRow = 150.0 // px of the highest column when all its shares stand on each other

func (m *stack) row(top float64, p part, said string) float64 {
	most := 0.0
	for i := range m.res.Months {
		most = math.Max(most, p.of(&m.res.Months[i].Energies)/1000)
	}
	top = m.title(top, capital(p.name), said)
	b := band{0, most, top, top + math.Max(3, tallRow*most/m.most)}
	for i := range m.res.Months {
		e := &m.res.Months[i].Energies
		left, right := m.sides(i)
		y := b.y(p.of(e) / 1000)
		m.c.rect(p.fill, box{left, y, right - left, b.bottom - y})
		if p.hatch != nil {
			m.c.path(p.lines, p.hatch(left, right, y, b.bottom))
		}
		if p.fill == "solid" && e.Unserved >= leastWh {
			m.c.rect("hot", box{left, y, right - left, math.Max(1.5, b.y(e.Served/1000)-y)})
		}
	}
	m.c.line("axis", m.x.p0, b.bottom, m.x.p1, b.bottom)
	return b.bottom
}
