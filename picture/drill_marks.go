package picture

import (
	"strconv"

	"ampstead/drill"
)

// verdicts are those of the key of marks, worst first.
var verdicts = []drill.Verdict{drill.Harm, drill.Near, drill.Caught, drill.Nuisance, drill.None}

// outcomeMark draws how a run ended as a mark around x, y: told by its shape first
// and by its tone second. It is pale where the fault changed nothing. Silent runs
// are underlined.
func outcomeMark(c *canvas, x, y float64, v drill.Verdict, pale, silent bool) {
	const r = 5.5
	switch v {
	case drill.Harm:
		c.path(toned("rung bad", "strong", pale), (&trace{}).move(x-r, y-r).to(x+r, y+r).move(x-r, y+r).to(x+r, y-r))
	case drill.Near:
		c.dot("line", x, y, r)
		c.path(toned("solid", "tone", pale), (&trace{}).move(x, y-r).arc(r, x, y+r).close())
	case drill.Caught:
		c.path(toned("curve", "axis", pale), (&trace{}).move(x-r, y).to(x-1.5, y+4).to(x+r, y-4.5))
	case drill.Nuisance:
		c.dot(toned("line", "frame", pale), x, y, r-1)
	case drill.None:
		c.dot("faint", x, y, 1.3)
	}
	if silent {
		c.line("line", x-6, y+9, x+6, y+9)
	}
}

func toned(full, pale string, isPale bool) string {
	if isPale {
		return pale
	}
	return full
}

// arc goes on along a half circle of radius r, to the right.
func (t *trace) arc(r, x, y float64) *trace {
	t.d = append(t.d, 'A')
	for _, v := range []float64{r, r} {
		t.d = append(appendTenth(t.d, v), ' ')
	}
	t.d = append(t.d, "0 0 1 "...)
	t.d = append(appendTenth(t.d, x), ' ')
	t.d = appendTenth(t.d, y)
	return t
}

// markKey explains the marks on as many lines as it takes, from y downward.
func markKey(c *canvas, y float64) float64 {
	x := 0.0
	put := func(v drill.Verdict, pale, silent bool, text string) {
		wide := 22 + plain.measure(text) + 18
		if x > 0 && x+wide-18 > c.width {
			x, y = 0, y+22
		}
		outcomeMark(c, x+8, y+10, v, pale, false)
		if silent {
			c.line("line", x+2, y+13, x+14, y+13)
		}
		c.text(plain, x+22, y+14.5, "start", text)
		x += wide
	}
	for _, v := range verdicts {
		put(v, false, false, v.Words())
	}
	put(drill.Caught, true, false, "pale: as with nothing wrong")
	put("", false, true, plain.longest(c.width-22, "silent: nothing tells anybody; beside a name, in every scene", "silent: nothing tells anybody"))
	return y + 26
}

// letter names a scene by its place: a, b, c ...; by its number beyond z.
func letter(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return strconv.Itoa(i + 1)
}
