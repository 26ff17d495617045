package cell

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// RestVoltage is the figure of a cell's rest voltage.
var RestVoltage = &figure.Figure{
	Name:    "rest-voltage",
	Answers: "What does one cell show at rest at this state of charge?",
	Inputs:  []figure.Input{ofCell, input("soc", quantity.Fraction, "state of charge, of the range between the ends of the cell's curve")},
	Outputs: []figure.Output{output("voltage_v", quantity.Volts, "rest voltage of one cell at 25 °C"),
		output("curve", nil, "where the cell's curve comes from")},
	Equation: "voltage = U(soc), the published table of the cell read as straight lines between its points; for sets of half-cell " +
		"equations U = Up(y0 + soc·(y100 − y0)) − Un(x0 + soc·(x100 − x0))",
	Source:  source.CellCurves,
	Range:   "soc 0 to 1, about 25 °C, rested at least 30 min; a salvaged module differs from the curve by 10 mV and more, most below 10 %; each cell's own source stands in its listing",
	Compute: restVoltage,
	Checks:  restChecks(),
}

func restVoltage(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	soc := a.Num("soc")
	if err := within("soc", soc, 0, 1, ""); err != nil {
		return nil, err
	}
	return figure.Results{"voltage_v": c.Curve.Voltage(soc), "curve": cite(c.CurveSource)}, nil
}

// SoCFromRest is the figure that reads a rest voltage backwards, with the band
// that the meter and the cell leave open.
var SoCFromRest = &figure.Figure{
	Name:    "soc-from-rest",
	Answers: "How full is a cell that rests at this voltage, and how surely can one tell?",
	Inputs: []figure.Input{ofCell, input("voltage", quantity.Volts, "rest voltage of one cell; for lead-acid of one 2 V cell"),
		with(input("meter-error", quantity.Volts, "how far the meter may be wrong"), "5 mV")},
	Outputs: []figure.Output{
		output("soc_fraction", quantity.Fraction, "state of charge on the curve"),
		output("soc_low_fraction", quantity.Fraction, "lowest that fits"),
		output("soc_high_fraction", quantity.Fraction, "highest that fits"),
		output("note", nil, "what limits the answer"),
	},
	Equation: "soc = U⁻¹(voltage); low and high = U⁻¹(voltage ∓ (meter-error + doubt)), doubt being hysteresis and the difference from " +
		"cell to cell; a band that touches the flat part of the curve spans all of it",
	Source: source.CellCurves,
	Range: "rested at least 1 h at about 25 °C; refused beyond the ends of the curve. Iron-phosphate between 30 and 97 % cannot be read " +
		"from rest voltage: the band says so",
	Compute: socFromRest,
	Checks: []figure.Check{
		check(source.Equation, "nmc811: 50 % less 1.059 % is 10 mV less", "soc_fraction", 0.48941, 0.0005, "cell=nmc811", "voltage=3.7409 V"),
		check(source.Equation, "nmc532 at 3.650 V", "soc_fraction", 0.3377, 0.001, "cell=nmc532", "voltage=3.650 V"),
		check(source.Equation, "nmc532 at 3.700 V", "soc_fraction", 0.4685, 0.001, "cell=nmc532", "voltage=3.700 V"),
		check(source.Equation, "nmc532 at 3.750 V", "soc_fraction", 0.5569, 0.001, "cell=nmc532", "voltage=3.750 V"),
		check(source.Equation, "nmc532 at 4.000 V", "soc_fraction", 0.8292, 0.001, "cell=nmc532", "voltage=4.000 V"),
		check(source.Equation, "nmc532 at 4.050 V", "soc_fraction", 0.8762, 0.001, "cell=nmc532", "voltage=4.050 V"),
		check(source.AcidGravity, "six cells at 12.102 V are half full", "soc_fraction", 0.5, 0.02, "cell=lead-acid-flooded", "voltage=2.017 V"),
		check(source.Sunil2025, "lfp on its plateau: the band spans all of it", "soc_high_fraction", 0.97, 1e-9, "cell=lfp", "voltage=3.3 V"),
	},
}

func socFromRest(a figure.Args) (figure.Results, error) {
	c, err := Lookup(a.Text("cell"))
	if err != nil {
		return nil, err
	}
	meter := a.Num("meter-error")
	if err := within("meter-error", meter, 0, 1, "V"); err != nil {
		return nil, err
	}
	b, err := c.Rest(a.Num("voltage"), meter)
	if err != nil {
		return nil, err
	}
	return figure.Results{"soc_fraction": b.SoC, "soc_low_fraction": b.Low, "soc_high_fraction": b.High, "note": b.note()}, nil
}

// Band is a state of charge read from rest voltage with what it may be at least
// and at most, fractions.
type Band struct {
	SoC, Low, High float64
	Flat           bool // the flat part of the curve lies in the band: rest voltage tells next to nothing
}

func (b Band) note() string {
	if b.Flat {
		return "on the flat part of the curve: rest voltage does not tell the state of charge; count from a full charge"
	}
	return "within the stated meter error and the cell's own doubt"
}

// Rest reads a rest voltage (V) backwards, with a meter that may be wrong by
// meterError (V). Error: a voltage beyond the ends of the curve by more than the
// doubt (wraps figure.ErrRange).
func (c *Cell) Rest(voltage, meterError float64) (Band, error) {
	doubt := meterError + c.RestDoubtV.Value
	low, high := c.Curve.Span()
	if err := within("voltage", voltage, low-doubt, high+doubt, "V"); err != nil {
		return Band{}, fmt.Errorf("%w; either it has not rested or it lies outside this cell's range", err)
	}
	b := Band{SoC: c.Curve.SoC(voltage), Low: c.Curve.SoC(voltage - doubt), High: c.Curve.SoC(voltage + doubt)}
	if c.FlatTo > 0 && b.Low < c.FlatTo && b.High > c.FlatFrom {
		b.Flat = true
		b.Low, b.High = min(b.Low, c.FlatFrom), max(b.High, c.FlatTo)
	}
	return b, nil
}
