package assembly

import (
	"testing"

	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

// What was measured of groups stands in the bank: capacity, place and leak.
func TestMeasuredGroups(t *testing.T) {
	r := load(t, "curlew")
	r.Bank.Measured.Groups = make([]rig.GroupReading, r.Bank.Series)
	for k := range r.Bank.Measured.Groups {
		ah := q.Charge(170)
		r.Bank.Measured.Groups[k].Capacity = &ah
	}
	behind, leak := q.Charge(3.4), q.Current(0.0007)
	r.Bank.Measured.Groups[2].Behind, r.Bank.Measured.Groups[2].Leak = &behind, &leak

	a := assemble(t, r, Options{SoC: 1, TempC: 20})
	near.Equal(t, "capacity", a.Bank.CapacityAh(2), 170, 1e-9)
	near.Equal(t, "the fullest", a.Bank.SoCs()[0], 1, 1e-9)
	near.Equal(t, "the one behind", a.Bank.SoCs()[2], 1-3.4/170, 1e-9)

	// At half of the bank's 168 Ah every group has given 84 Ah.
	a = assemble(t, r, Options{SoC: 0.5, TempC: 20})
	near.Equal(t, "half", a.Bank.SoCs()[0], 1-84.0/170, 1e-9)
	near.Equal(t, "half, behind", a.Bank.SoCs()[2], 1-87.4/170, 1e-9)

	before := a.Bank.SoCs()[2]
	for range 100 {
		a.Bank.Step(0, 3600, 20, 0)
	}
	near.Equal(t, "leaked", before-a.Bank.SoCs()[2], 0.07/170, 1e-9)
	near.Equal(t, "the others keep theirs", a.Bank.SoCs()[0], 1-84.0/170, 1e-9)
}

// Without a place of their own, groups of no known capacity still start spread.
func TestBehindReplacesTheAssumedSpread(t *testing.T) {
	r := load(t, "curlew")
	r.Bank.Measured.Groups = make([]rig.GroupReading, r.Bank.Series)
	none := q.Charge(0)
	r.Bank.Measured.Groups[0].Behind = &none
	a := assemble(t, r, Options{SoC: 0.5, TempC: 20})
	for _, soc := range a.Bank.SoCs() {
		near.Equal(t, "level", soc, 0.5, 1e-9)
	}
}
