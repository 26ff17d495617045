package picture

import "math"

// Lengths of the symbols along their line, px.
const (
	fuseLong    = 28.0
	fuseThick   = 11.0
	contactLong = 26.0
	cellsLong   = 34.0
	loopDeep    = 20.0 // of the pre-charge beside the contactor
)

// along is a direction to draw a symbol in: to the right or downward.
type along struct {
	x, y float64 // where the symbol begins
	down bool
}

// at is the point a px along the line and b px beside it: below a level one,
// right of one that goes down.
func (d along) at(a, b float64) (x, y float64) {
	if d.down {
		return d.x + b, d.y + a
	}
	return d.x + a, d.y + b
}

func (d along) stroke(points ...float64) *trace {
	t := &trace{}
	for i := 0; i+1 < len(points); i += 2 {
		x, y := d.at(points[i], points[i+1])
		if i == 0 {
			t.move(x, y)
		} else {
			t.to(x, y)
		}
	}
	return t
}

// lineClass is the class of a run's line; symbols have finer ones.
func lineClass(class string, dashed, bad bool) string {
	if dashed {
		class += " ghost"
	}
	if bad {
		class += " bad"
	}
	return class
}

// drawFuse is a box around the line.
func (c *canvas) drawFuse(d along, dashed, bad bool) {
	c.path(lineClass("fine", dashed, bad), d.stroke(0, -fuseThick/2, fuseLong, -fuseThick/2, fuseLong, fuseThick/2, 0, fuseThick/2).close())
}

// drawContact is an open contact: two terminals and the blade lifted off.
func (c *canvas) drawContact(d along, bad bool) {
	fill := "solid"
	if bad {
		fill = "hot"
	}
	for _, a := range []float64{0, contactLong} {
		x, y := d.at(a, 0)
		c.dot(fill, x, y, 2.4)
	}
	c.path(lineClass("reach", false, bad), d.stroke(0, 0, contactLong-3, -11))
}

// drawLoop is the pre-charge beside the contactor: a resistor with a contact of
// its own, from before the main contact to behind it.
func (c *canvas) drawLoop(d along, dashed, bad bool) {
	const out = 9.0 // before and behind the contact
	class := lineClass("fine", dashed, bad)
	c.path(class, d.stroke(-out, 0, -out, loopDeep, -4, loopDeep))
	zig := []float64{-4, loopDeep}
	for k := range 6 {
		zig = append(zig, -2+float64(k)*3.4, loopDeep+4*math.Pow(-1, float64(k)))
	}
	c.path(lineClass("fine", false, bad), d.stroke(append(zig, 17, loopDeep)...))
	c.path(class, d.stroke(17, loopDeep, contactLong+out, loopDeep-6))
	c.path(class, d.stroke(contactLong+out, loopDeep-2, contactLong+out, 0))
}

// drawCells is a battery: long thin and short thick strokes in turn, its end at x
// to the right, or to the left when it faces left.
func (c *canvas) drawCells(x, y float64, left bool) {
	for k := range 3 {
		for j, half := range []float64{12, 6} {
			a := float64(k)*11.5 + float64(j)*5
			if !left {
				a = cellsLong - a
			}
			class := []string{"fine", "rung"}[j]
			c.line(class, x+a, y-half, x+a, y+half)
		}
	}
}
