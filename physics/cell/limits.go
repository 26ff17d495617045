package cell

import "math"

// gasConstant is R in J/(mol·K), CODATA, shortened as the check values use it.
const gasConstant = 8.31446

// zeroC is 0 °C in kelvin.
const zeroC = 273.15

// ChargeRate returns the highest charge current over capacity (1/h) at a cell
// temperature. It is zero at and below ChargeMinC and at and above ChargeMaxC,
// so that moving either moves the lock.
func (c *Cell) ChargeRate(tempC float64) float64 {
	if !(tempC > c.ChargeMinC.Value && tempC < c.ChargeMaxC.Value) {
		return 0
	}
	return c.ChargeRates.at(tempC)
}

// DischargeRateAt returns the highest discharge current over capacity (1/h) at a
// cell temperature, zero outside the table.
func (c *Cell) DischargeRateAt(tempC float64) float64 { return c.DischargeRate.at(tempC) }

// at interpolates; outside the table and for no number it is zero.
func (r Rates) at(tempC float64) float64 {
	for k, p := range r.Points {
		switch {
		case tempC == p.TempC:
			return p.Rate
		case tempC < p.TempC && k == 0:
			return 0
		case tempC < p.TempC:
			before := r.Points[k-1]
			return before.Rate + (tempC-before.TempC)/(p.TempC-before.TempC)*(p.Rate-before.Rate)
		}
	}
	return 0
}

// Arrhenius returns by what factor a resistance differs from its value at 25 °C:
// exp[Ea/R·(1/T − 1/298.15 K)], Ea in J/mol.
func Arrhenius(activationJ, tempC float64) float64 {
	return math.Exp(activationJ / gasConstant * (1/(tempC+zeroC) - 1/298.15))
}

// ResistanceFactor returns resistance at a cell temperature over that at 25 °C,
// by the cold branch below 25 °C and the warm one above; held outside −40..80 °C.
func (c *Cell) ResistanceFactor(tempC float64) float64 {
	tempC = min(max(tempC, -40), 80)
	if tempC < 25 {
		return Arrhenius(c.ColdEaJ.Value, tempC)
	}
	return Arrhenius(c.WarmEaJ.Value, tempC)
}

// ResistanceOhm returns the typical 10 s resistance (Ω) of one such cell of the
// given capacity (Ah) at a temperature: for when none was measured.
func (c *Cell) ResistanceOhm(capacityAh, tempC float64) float64 {
	return c.ResistanceOhmAh.Value / capacityAh * c.ResistanceFactor(tempC)
}

// Split divides a 10 s resistance (Ω) into the part that acts at once and the
// resistance of the slow branch with time constant SlowTauS, so that a 10 s
// pulse from rest shows exactly ohm10 and a longer one more:
// R(t) = fast + slow·(1 − e^(−t/τ)).
func (c *Cell) Split(ohm10 float64) (fast, slow float64) {
	share := c.SlowShare.Value
	return ohm10 * (1 - share), ohm10 * share / -math.Expm1(-10/c.SlowTauS.Value)
}
