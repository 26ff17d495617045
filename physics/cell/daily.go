package cell

import "ampstead/source"

// WithDaily returns a cell like c whose owner wants another window for daily use,
// V per cell at rest; 0 keeps that end. Errors: *OwnError, when the window is
// empty or leaves the cell's limits.
func (c *Cell) WithDaily(high, low float64) (*Cell, error) {
	own := c.clone()
	if high != 0 {
		own.DailyHighV = known(high, source.Owner, "recommended is "+volts(c.DailyHighV.Value))
	}
	if low != 0 {
		own.DailyLowV = known(low, source.Owner, "recommended is "+volts(c.DailyLowV.Value))
	}
	top, bottom := own.DailyHighV.Value, own.DailyLowV.Value
	switch {
	case !(top <= c.MaxV.Value && top > c.MinV.Value):
		return nil, &OwnError{"high", volts(top) + " per cell is outside the cell's limits", volts(c.MinV.Value) + " to " + volts(c.MaxV.Value)}
	case !(bottom >= c.MinV.Value && bottom < c.MaxV.Value):
		return nil, &OwnError{"low", volts(bottom) + " per cell is outside the cell's limits", volts(c.MinV.Value) + " to " + volts(c.MaxV.Value)}
	case !(top > bottom):
		field := "high"
		if high == 0 {
			field = "low"
		}
		return nil, &OwnError{field, "daily use from " + volts(bottom) + " to " + volts(top) + " leaves nothing", "a top above the bottom"}
	}
	return own, nil
}
