package quantity

import (
	"fmt"
	"math"
)

// Unit is one way to write a dimension: base = written*Scale + Offset.
type Unit struct {
	Names  []string // the first is the one shown; every other is also read
	Scale  float64
	Offset float64
}

// Dimension is a kind of quantity: what it is called, the unit its numbers are
// kept in and the other units people write it in.
type Dimension struct {
	Name    string // "voltage"
	Article string // "a voltage"
	Base    string // unit shown when nothing else suits; "" for a plain number
	Example string // "28.8 V"
	Units   []Unit

	metric, us []step                 // which unit to show from which size on
	below      string                 // unit to show negative values in, if another
	figures    int                    // significant digits shown; 0 means 4
	refuse     func(v float64) string // why v cannot be, "" when it can
}

// step says which unit to show from a magnitude (in base units) upwards.
type step struct {
	from float64
	unit string
}

// Parse reads text as this dimension and returns the value in its base unit.
// Errors: *Error when the number or the unit is missing, unknown or of another
// dimension, or when the value cannot be.
func (d *Dimension) Parse(text string) (float64, error) {
	v, why := d.parse(text)
	if why != "" {
		return 0, &Error{Text: text, Why: why, Want: d.want()}
	}
	return v, nil
}

func (d *Dimension) want() string {
	return fmt.Sprintf("%s such as %q", d.Article, d.Example)
}

func (d *Dimension) parse(text string) (v float64, why string) {
	number, name, why := split(text)
	if why != "" {
		return 0, why
	}
	if name == "" && d.Base != "" {
		return 0, "has no unit"
	}
	u, why := d.read(name)
	if why != "" {
		return 0, explain(text, name, why)
	}
	v = number*u.Scale + u.Offset
	if math.IsInf(v, 0) {
		return 0, "is too large"
	}
	if d.refuse != nil {
		why = d.refuse(v)
	}
	return v, why
}

// In converts a value in the base unit to the named unit; ok is false for a
// unit that is not of this dimension.
func (d *Dimension) In(v float64, unit string) (converted float64, ok bool) {
	u, why := d.read(unit)
	if why != "" {
		return 0, false
	}
	return (v - u.Offset) / u.Scale, true
}
