package convert

// Inverter holds the coefficients of the model of King et al. 2007
// (SAND2007-5036), which was made for inverters that feed a grid; its shape, a
// standing loss and a curve, serves one on a battery.
type Inverter struct {
	RatedAC, RatedDC, RatedV float64 // W, W, V at which the ratings hold
	Start                    float64 // W of dc at which it starts, its own loss
	C0                       float64 // 1/W, curve of ac over dc
	C1, C2, C3               float64 // 1/V, change of RatedDC, Start and C0
	Night                    float64 // W of ac drawn while off
}

// AC returns the power in W it gives from dc power at a voltage: at most RatedAC,
// and minus Night while the dc power is below Start.
func (v Inverter) AC(volts, dc float64) float64 {
	if dc < v.Start {
		return -v.Night
	}
	off := volts - v.RatedV
	a := v.RatedDC * (1 + v.C1*off)
	b := v.Start * (1 + v.C2*off)
	c := v.C0 * (1 + v.C3*off)
	over := dc - b
	return min(v.RatedAC, (v.RatedAC/(a-b)-c*(a-b))*over+c*over*over)
}

// PartLoad returns the ac power in W of an inverter known by its nominal
// efficiency and its rated dc power only (Dobos 2014): at most both multiplied.
// Below what it needs for itself it gives none.
func PartLoad(dc, ratedDC, nominal float64) float64 {
	if dc <= 0 {
		return 0
	}
	const reference = 0.9637
	load := dc / ratedDC
	efficiency := nominal / reference * (-0.0162*load - 0.0059/load + 0.9858)
	return max(0, min(nominal*ratedDC, efficiency*dc))
}
