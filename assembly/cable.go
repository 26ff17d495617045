package assembly

import (
	"fmt"
	"slices"

	"ampstead/circuit"
	"ampstead/physics/conductor"
	"ampstead/rig"
)

// warmCable is the conductor temperature cables are reckoned at, °C.
const warmCable = 40.0

// mainOhm is the resistance from bank to bus, out and back.
func (b *builder) mainOhm() (float64, error) {
	way := circuit.Way(b.rig.Cables, circuit.AtBank, circuit.AtBus)
	if way == nil {
		b.assume("cables: none leads from bank to bus: taken as without resistance")
	}
	return sum(way)
}

// ownOhm is the resistance of a device's own cables: those of its way from the
// bank that do not lead to the bus.
func (b *builder) ownOhm(device string) (float64, error) {
	main := circuit.Way(b.rig.Cables, circuit.AtBank, circuit.AtBus)
	var own []*rig.Cable
	for _, c := range circuit.Way(b.rig.Cables, circuit.AtBank, device) {
		if !slices.Contains(main, c) {
			own = append(own, c)
		}
	}
	return sum(own)
}

func sum(way []*rig.Cable) (float64, error) {
	total := 0.0
	for _, c := range way {
		perM, err := conductor.Resistance(*c.Size, warmCable)
		if err != nil {
			return 0, fmt.Errorf("cables.%s: %w", c.Name, err)
		}
		total += 2 * float64(*c.Length) * perM
	}
	return total, nil
}
