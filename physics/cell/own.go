package cell

import (
	"fmt"
	"strconv"
	"strings"

	"ampstead/source"
)

// OwnError says what about a cell of the owner's does not hold together.
type OwnError struct {
	Field    string // "max voltage", "min voltage", "curve" or "charge temperatures"
	Message  string // what is wrong
	Expected string // what would do
}

func (e *OwnError) Error() string {
	return fmt.Sprintf("%s: %s; expected %s", e.Field, e.Message, e.Expected)
}

// sense is what can be a limit at all, V per cell, by chemistry.
func (f Family) sense() (low, high float64) {
	switch f {
	case LFP:
		return 2.0, 3.65
	case LeadAcid:
		return 1.5, 2.8
	}
	return 2.0, 4.40
}

// With returns a cell like c with what its owner knows better. An Empty curve, a
// zero voltage or an empty title keep c's. The daily range is narrowed with the
// limits and never widened. The new cell's Name describes it in full, so that
// Lookup, and with it every figure, understands it: see Lookup.
//
// Errors, all *OwnError: a limit outside physical sense for the chemistry, max
// not above min, a curve that does not reach the limits (its top more than 0.1 V
// below max, its bottom more than 0.5 V above min, lead-acid excepted), less
// than a tenth of the charge between the limits.
func (c *Cell) With(curve Curve, maxV, minV float64, title string) (*Cell, error) {
	own := c.clone()
	if title != "" {
		own.Title = title
	}
	if !curve.Empty() {
		own.Curve, own.CurveSource, own.CurveNote = curve, source.Owner, ""
	}
	if maxV != 0 && maxV != c.MaxV.Value {
		own.MaxV = known(maxV, source.Owner, replaced(c.MaxV))
	}
	if minV != 0 && minV != c.MinV.Value {
		own.MinV = known(minV, source.Owner, replaced(c.MinV))
	}
	if err := own.checkLimits(); err != nil {
		return nil, err
	}
	if err := own.narrowDaily(); err != nil {
		return nil, err
	}
	own.Name = own.describe()
	return own, nil
}

func replaced(k Known) string { return "the library has " + volts(k.Value) }

func volts(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) + " V" }

// WithChargeBetween returns a cell like c that is charged only strictly between
// two cell temperatures, °C. Error (*OwnError): the range is empty or outside
// c's own.
func (c *Cell) WithChargeBetween(minC, maxC float64) (*Cell, error) {
	if !(minC >= c.ChargeMinC.Value && maxC <= c.ChargeMaxC.Value && minC < maxC) {
		return nil, &OwnError{"charge temperatures", fmt.Sprintf("%g to %g °C", minC, maxC),
			fmt.Sprintf("a range within %g to %g °C", c.ChargeMinC.Value, c.ChargeMaxC.Value)}
	}
	own := c.clone()
	if minC != c.ChargeMinC.Value {
		own.ChargeMinC = known(minC, source.Owner, fmt.Sprintf("the library has %g °C", c.ChargeMinC.Value))
	}
	if maxC != c.ChargeMaxC.Value {
		own.ChargeMaxC = known(maxC, source.Owner, fmt.Sprintf("the library has %g °C", c.ChargeMaxC.Value))
	}
	own.Name = own.describe()
	return own, nil
}

func (c *Cell) checkLimits() error {
	low, high := c.Family.sense()
	span := fmt.Sprintf("%s to %s for %s", volts(low), volts(high), c.Family)
	switch maxV, minV := c.MaxV.Value, c.MinV.Value; {
	case !(maxV >= low && maxV <= high):
		return &OwnError{"max voltage", volts(maxV) + " per cell is outside physical sense", span}
	case !(minV >= low && minV <= high):
		return &OwnError{"min voltage", volts(minV) + " per cell is outside physical sense", span}
	case !(maxV > minV):
		return &OwnError{"max voltage", fmt.Sprintf("%s is not above the min voltage %s", volts(maxV), volts(minV)), "a higher one"}
	}
	return c.checkCurve()
}

func (c *Cell) checkCurve() error {
	bottom, top := c.Curve.Span()
	maxV, minV := c.MaxV.Value, c.MinV.Value
	if c.Family != LeadAcid && top < maxV-0.1 {
		return &OwnError{"curve", fmt.Sprintf("it ends at %s, the max voltage is %s", volts(top), volts(maxV)), "a curve up to the max voltage"}
	}
	if c.Family != LeadAcid && bottom > minV+0.5 {
		return &OwnError{"curve", fmt.Sprintf("it starts at %s, the min voltage is %s", volts(bottom), volts(minV)), "a curve from near the min voltage"}
	}
	if charge, _ := c.Window(minV, maxV); charge < 0.1 {
		return &OwnError{"curve", fmt.Sprintf("only %.0f %% of the charge lies between %s and %s", charge*100, volts(minV), volts(maxV)),
			"limits and a curve of the same cell"}
	}
	return nil
}

// base is the library cell a cell is or is like.
func (c *Cell) base() *Cell {
	name, _, _ := strings.Cut(c.Name, " ")
	return library().cells[name]
}

// narrowDaily keeps at least half of the library's distance between the daily
// range and the limits.
func (c *Cell) narrowDaily() error {
	base := c.base()
	c.DailyHighV, c.DailyLowV = base.DailyHighV, base.DailyLowV
	if top := c.MaxV.Value - (base.MaxV.Value-base.DailyHighV.Value)/2; top < base.DailyHighV.Value {
		c.DailyHighV = known(top, source.CellPractice, "lowered with the owner's max voltage")
	}
	if bottom := c.MinV.Value + (base.DailyLowV.Value-base.MinV.Value)/2; bottom > base.DailyLowV.Value {
		c.DailyLowV = known(bottom, source.CellPractice, "raised with the owner's min voltage")
	}
	if c.DailyLowV.Value >= c.DailyHighV.Value {
		c.DailyLowV = known(c.MinV.Value, source.CellPractice, "the limits leave no room above it")
	}
	if c.DailyLowV.Value >= c.DailyHighV.Value {
		return &OwnError{"min voltage", fmt.Sprintf("%s and %s leave no room for daily use", volts(c.MinV.Value), volts(c.MaxV.Value)),
			"limits further apart"}
	}
	return nil
}

// describe writes the cell as its library cell and what differs.
func (c *Cell) describe() string {
	base := c.base()
	words := []string{base.Name}
	add := func(key string, value, standard float64) {
		if value != standard {
			words = append(words, key+"="+strconv.FormatFloat(value, 'g', -1, 64))
		}
	}
	add("max", c.MaxV.Value, base.MaxV.Value)
	add("min", c.MinV.Value, base.MinV.Value)
	add("charge-above", c.ChargeMinC.Value, base.ChargeMinC.Value)
	add("charge-below", c.ChargeMaxC.Value, base.ChargeMaxC.Value)
	if c.CurveSource == source.Owner {
		words = append(words, "curve="+c.Curve.String())
	}
	return strings.Join(words, " ")
}
