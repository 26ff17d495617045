package conductor

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
)

// enclosed is the rating in a raceway, cable or wall in air of 30 °C, with not
// more than three conductors. Insulation rated above 90 °C counts as 90 °C, the
// last column. Gauges and metric sizes not listed are interpolated at the area
// of their copper; 120 mm² counts as the thinner 4/0 AWG.
func enclosed(size quantity.Size, insulationC float64) (Rating, error) {
	column := columnFor(enclosedColumns, insulationC)
	if column < 0 {
		return Rating{}, fmt.Errorf("enclosed, insulation rated %g °C is not tabulated, only from 75 °C: %w", insulationC, figure.ErrRange)
	}
	mm2, err := Copper(size)
	if err != nil {
		return Rating{}, err
	}
	table := enclosedTables[column]
	r := Rating{Basis: fmt.Sprintf("NFPA 70 table 310.16, %g °C column", enclosedColumns[column])}
	if last := table[len(table)-1]; mm2 > last.x {
		mm2 = last.x
	}
	var ok bool
	if r.Amperes, ok = between(table, mm2); !ok {
		return Rating{}, noAmpacity(size)
	}
	if r.Weak = column == 0 && mm2 < awgArea(14)*(1-1e-9); r.Weak {
		r.Basis += ", below 14 AWG derived here"
	}
	if size.Gauge != quantity.AWG {
		r.Basis += ", interpolated at the area of its copper"
	}
	return r, nil
}

// Copper is the copper in a size, mm²: of metric sizes what their resistance
// proves, which is about a tenth less than their name. Errors as Area and Resistance.
func Copper(size quantity.Size) (float64, error) {
	if size.Gauge != quantity.MM2 {
		return Area(size)
	}
	perM, err := resistance20(size)
	if err != nil {
		return 0, err
	}
	return Resistivity / perM, nil
}
