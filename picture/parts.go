package picture

import "math"

// A ladder's scale is drawn in parts: the upper and the lower end of the cell's
// range to one scale, with the uneventful middle left out where it would only
// take room, and a shelf without scale beyond either end for marks that lie far
// outside.
type parts struct {
	upper, lower band // equal when nothing is left out
	shelfTop     box  // zero height when not needed; x and w unused
	shelfBottom  box
	perVolt      float64 // px
	bottom       float64
}

// room is what one end of the scale must show.
type room struct {
	low, high float64 // V
	labels    float64 // px its labels need
	shelf     float64 // px of labels beyond the scale
}

const (
	tear      = 36.0 // px of the gap where something is left out
	wanted    = 540.0
	leastEnd  = 120.0 // px either end gets
	tallest   = 1000.0
	shelfPads = 16.0
)

// arrange lays the parts out from y downward.
func arrange(y float64, up, down room) parts {
	spanUp, spanDown := math.Max(up.high-up.low, 1e-3), math.Max(down.high-down.low, 1e-3)
	perVolt := wanted / (spanUp + spanDown)
	perVolt = math.Max(perVolt, leastEnd/math.Min(spanUp, spanDown))
	perVolt = math.Min(perVolt, tallest/(spanUp+spanDown))

	p := parts{perVolt: perVolt}
	if up.shelf > 0 {
		p.shelfTop = box{y: y, h: up.shelf + shelfPads}
		y += p.shelfTop.h + tear
	}
	highTall, lowTall := math.Max(spanUp*perVolt, up.labels), math.Max(spanDown*perVolt, down.labels)
	if (up.high-down.low)*perVolt < highTall+lowTall+2*tear {
		y = p.whole(y, up, down)
	} else {
		p.upper = band{up.high - highTall/perVolt, up.high, y, y + highTall}
		y += highTall + tear
		p.lower = band{down.low, down.low + lowTall/perVolt, y, y + lowTall}
		y += lowTall
	}
	if down.shelf > 0 {
		p.shelfBottom = box{y: y + tear, h: down.shelf + shelfPads}
		y += tear + p.shelfBottom.h
	}
	p.bottom = y
	return p
}

// whole shows everything as one unbroken part, tall enough for all labels.
func (p *parts) whole(y float64, up, down room) float64 {
	tall := math.Max((up.high-down.low)*p.perVolt, up.labels+down.labels)
	p.perVolt = tall / (up.high - down.low)
	p.upper = band{down.low, up.high, y, y + tall}
	p.lower = p.upper
	return y + tall
}

func (p parts) broken() bool { return p.upper != p.lower }

// bands lists the parts with a scale, from the top.
func (p parts) bands() []band {
	if p.broken() {
		return []band{p.upper, p.lower}
	}
	return []band{p.upper}
}

// tears lists the top edges of the gaps, from the top.
func (p parts) tears() []float64 {
	var tops []float64
	if p.shelfTop.h > 0 {
		tops = append(tops, p.shelfTop.y+p.shelfTop.h)
	}
	if p.broken() {
		tops = append(tops, p.upper.bottom)
	}
	if p.shelfBottom.h > 0 {
		tops = append(tops, p.shelfBottom.y-tear)
	}
	return tops
}
