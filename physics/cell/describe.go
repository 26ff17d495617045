package cell

import (
	"fmt"
	"strconv"
	"strings"
)

// String writes the curve as soc:volt pairs, which parsePairs reads back.
func (c Curve) String() string {
	if c.Empty() {
		return ""
	}
	soc, volt := c.Points()
	pairs := make([]string, len(soc))
	for k := range soc {
		pairs[k] = strconv.FormatFloat(soc[k], 'g', -1, 64) + ":" + strconv.FormatFloat(volt[k], 'g', -1, 64)
	}
	return strings.Join(pairs, ",")
}

func parsePairs(text string) (Curve, error) {
	var soc, volt []float64
	for _, pair := range strings.Split(text, ",") {
		s, v, err := parsePoint(strings.Replace(pair, ":", ",", 1))
		if err != nil {
			return Curve{}, fmt.Errorf("%q: expected charge:voltage such as 0.5:3.71", pair)
		}
		soc, volt = append(soc, s), append(volt, v)
	}
	return NewCurve(soc, volt)
}

// change is what a description says beyond the library cell.
type change struct {
	maxV, minV float64
	charge     [2]*float64 // above, below, °C
	curve      Curve
}

func parseChange(words []string) (change, error) {
	var ch change
	for _, word := range words {
		key, value, _ := strings.Cut(word, "=")
		if err := ch.set(key, value); err != nil {
			return change{}, fmt.Errorf("cell: %s: %w", word, err)
		}
	}
	return ch, nil
}

func (ch *change) set(key, value string) (err error) {
	if key == "curve" {
		ch.curve, err = parsePairs(value)
		return err
	}
	v, err := strconv.ParseFloat(value, 64)
	if err != nil || !finite(v) {
		return fmt.Errorf("expected a number such as max=4.15")
	}
	switch key {
	case "max":
		ch.maxV = v
	case "min":
		ch.minV = v
	case "charge-above":
		ch.charge[0] = &v
	case "charge-below":
		ch.charge[1] = &v
	default:
		return fmt.Errorf("expected max, min, charge-above, charge-below or curve")
	}
	return nil
}

// apply makes the described cell.
func (ch change) apply(like *Cell) (*Cell, error) {
	own, err := like.With(ch.curve, ch.maxV, ch.minV, "")
	if err != nil {
		return nil, err
	}
	minC, maxC := own.ChargeMinC.Value, own.ChargeMaxC.Value
	if ch.charge[0] != nil {
		minC = *ch.charge[0]
	}
	if ch.charge[1] != nil {
		maxC = *ch.charge[1]
	}
	return own.WithChargeBetween(minC, maxC)
}
