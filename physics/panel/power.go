package panel

import (
	"fmt"

	"ampstead/figure"
)

// Power returns what a panel of rated W gives in W at an irradiance and cell
// temperature: P = rated·G/1000·(1 + coefficient·(T - 25 °C)), the coefficient
// being a fraction per K (Dobos 2014). Never below zero.
func Power(irradiance, cellC, rated, coefficient float64) float64 {
	return max(0, rated*irradiance/1000*(1+coefficient*(cellC-25)))
}

// Loss is one way in which an array gives less than its panels' rating, in
// percent.
type Loss struct {
	Name    string
	Percent float64
}

// UsualLosses are the defaults of Dobos 2014 for an array fixed to the ground or
// a house. A flat roof of a vehicle has more shade.
func UsualLosses() []Loss {
	return []Loss{{"soiling", 2}, {"shading", 3}, {"snow", 0}, {"mismatch", 2}, {"wiring", 2}, {"connections", 0.5},
		{"light-induced", 1.5}, {"nameplate", 1}, {"age", 0}, {"availability", 3}}
}

// TotalLoss returns the losses together in percent: 100·(1 - Π(1 - L/100)).
func TotalLoss(losses []Loss) float64 {
	keep := 1.0
	for _, l := range losses {
		keep *= 1 - l.Percent/100
	}
	return 100 * (1 - keep)
}

// coldRow is a row of NFPA 70 table 690.7(A): the factor down to a temperature.
type coldRow struct{ downTo, factor float64 }

var coldTable = []coldRow{{20, 1.02}, {15, 1.04}, {10, 1.06}, {5, 1.08}, {0, 1.10}, {-5, 1.12}, {-10, 1.14}, {-15, 1.16},
	{-20, 1.18}, {-25, 1.20}, {-30, 1.21}, {-35, 1.23}, {-40, 1.25}}

// ColdFactor returns the factor of NFPA 70 table 690.7(A) on the open-circuit
// voltage of a crystalline silicon panel at the coldest ambient temperature in
// °C; between rows that of the colder one, 1 from 25 °C. Errors: figure.ErrRange
// below -40 °C.
func ColdFactor(coldest float64) (float64, error) {
	if coldest >= 25 {
		return 1, nil
	}
	for _, r := range coldTable {
		if coldest >= r.downTo {
			return r.factor, nil
		}
	}
	return 0, fmt.Errorf("the table ends at -40 °C; use the maker's coefficient: %w", figure.ErrRange)
}

// ColdVoltage returns the voltage in V of panels in series without load at the
// coldest ambient temperature, from the open-circuit voltage of one and its
// coefficient as a fraction per K. At sunrise the cells are as cold as the air.
func ColdVoltage(voc, series, coldest, coefficient float64) float64 {
	return voc * series * (1 + coefficient*(coldest-25))
}
