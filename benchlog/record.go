package benchlog

import (
	"fmt"
	"math"
	"strings"
)

// read turns the fields of a line into a record; the time in it is the file's
// own. why says what cannot be read.
func (pl *plan) read(fields [][]byte, rec []float64) (why string) {
	if n := len(fields); n < pl.need || n > pl.shape.width && !blank(fields[pl.shape.width:]) {
		return fmt.Sprintf("it has %s instead of %d", counted(n, "field"), pl.shape.usual)
	}
	v := rec[recordHead:]
	for i := range v {
		v[i] = nan
	}
	if why := pl.readTime(fields, v); why != "" {
		return why
	}
	for i := range pl.targets {
		t := &pl.targets[i]
		if t.field >= len(fields) {
			continue // an empty end that was left off
		}
		if t.state {
			v[t.slot] = pl.state(fields[t.field])
			continue
		}
		x, ok := plainNumber(fields[t.field], pl.shape.mark)
		if ok {
			x = x*t.scale + t.offset
		} else if x, ok = t.slow(fields[t.field], pl.shape.mark); !ok {
			return fmt.Sprintf("%s is %q, not a number", t.name, beginning(fields[t.field]))
		}
		if t.oneWay {
			x = math.Copysign(x, t.scale)
		}
		if t.adds && !math.IsNaN(v[t.slot]) {
			x += v[t.slot]
		}
		v[t.slot] = x
	}
	pl.derive(v)
	return ""
}

var nan = math.NaN()

func blank(fields [][]byte) bool {
	for _, f := range fields {
		if len(f) > 0 {
			return false
		}
	}
	return true
}

func (pl *plan) readTime(fields [][]byte, v []float64) (why string) {
	t := &pl.time
	if t.perRow > 0 {
		v[slotTime] = 0
		return ""
	}
	if max(t.field, t.date, t.clock) >= len(fields) {
		return "it has no time"
	}
	if !t.numeric {
		v[slotTime], why = t.seconds(fields)
	} else {
		x, ok := plainNumber(fields[t.field], pl.shape.mark)
		if !ok {
			x, _, ok = number(fields[t.field], pl.shape.mark)
		}
		if !ok {
			return fmt.Sprintf("%s is %q, not a number", t.name, beginning(fields[t.field]))
		}
		v[slotTime] = x * t.scale
	}
	if why == "" && math.IsNaN(v[slotTime]) {
		return "it has no time"
	}
	return why
}

// slow reads what plainNumber does not: absent values, exponents, and values
// that bring a unit, such as "950 mV" in a column of volts.
func (t *target) slow(field []byte, mark byte) (float64, bool) {
	x, rest, ok := number(field, mark)
	if !ok || len(rest) == 0 {
		return x*t.scale + t.offset, ok
	}
	u, known := unitOf(text(rest))
	if !known || t.unit.dimension != noDimension && u.dimension != t.unit.dimension {
		return 0, false
	}
	scale := u.scale
	if t.scale < 0 {
		scale = -scale
	}
	return x*scale + u.offset, true
}

// derive fills what the file does not have of its own.
func (pl *plan) derive(v []float64) {
	if pl.sums {
		v[slotVolts] = 0
		for _, g := range v[slotGroups : slotGroups+pl.groups] {
			v[slotVolts] += g
		}
	}
	if pl.pair {
		v[slotAmps] = net(v[slotAmps], v[slotOut])
	}
	if pl.powers {
		v[slotAmps] = v[slotPower] / v[slotVolts]
	}
}

// net is charge less discharge current; a column that is empty while the other
// is not stands for none.
func net(in, out float64) float64 {
	switch {
	case math.IsNaN(in) && math.IsNaN(out):
		return nan
	case math.IsNaN(in):
		return -math.Abs(out)
	case math.IsNaN(out):
		return math.Abs(in)
	}
	return math.Abs(in) - math.Abs(out)
}

// state reads a word for what is done: 1 charging, -1 discharging, 0 at rest.
func (pl *plan) state(f []byte) float64 {
	if s, ok := pl.states[string(f)]; ok {
		return s
	}
	s := stateOf(text(f))
	if len(pl.states) < 256 {
		pl.states[string(f)] = s
	}
	return s
}

func stateOf(word string) float64 {
	low := fold(word)
	for _, w := range []struct {
		stem string
		is   float64
	}{{"dis", -1}, {"dch", -1}, {"dsg", -1}, {"entlad", -1}, {"descarg", -1}, {"decharg", -1}, {"load", -1},
		{"cha", 1}, {"chg", 1}, {"chr", 1}, {"lad", 1}, {"carg", 1}, {"rest", 0}, {"paus", 0}, {"ocv", 0}, {"idle", 0}, {"ruhe", 0}, {"wait", 0}, {"stand", 0}, {"repos", 0}} {
		if strings.Contains(low, w.stem) {
			return w.is
		}
	}
	switch low {
	case "d", "-":
		return -1
	case "c", "+":
		return 1
	case "r", "0":
		return 0
	}
	return nan
}

// counted writes "1 field", "3 fields".
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
