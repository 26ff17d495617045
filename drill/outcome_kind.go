package drill

import (
	"ampstead/assembly"
	"ampstead/device"
)

// kind is what a part of the engine is to the one who watches.
type kind struct {
	what    what
	name    string
	targets []int // parts a guard stops
}

type what uint8

const (
	other what = iota
	relayPart
	meterPart
	cutoutPart
	sourcePart
	consumerPart
)

// kindsOf tells the parts of an assembly apart.
func kindsOf(a *assembly.Assembly) []kind {
	parts := make([]kind, len(a.Engine.Names()))
	for k, name := range a.Engine.Names() {
		parts[k].name = name
	}
	for _, c := range a.Chargers {
		parts[c.Part].what = sourcePart
	}
	for _, c := range a.Converters {
		parts[c.Part].what = consumerPart
	}
	for _, c := range a.Inverters {
		parts[c.Part].what = consumerPart
	}
	for _, g := range a.Guards {
		switch g.Device.(type) {
		case *device.Relay:
			parts[g.Part].what = relayPart
		case *device.Meter:
			parts[g.Part].what = meterPart
		case *device.Cutout:
			parts[g.Part].what = cutoutPart
		}
		for _, to := range g.Stops {
			parts[g.Part].targets = append(parts[g.Part].targets, a.Engine.Index(to))
		}
	}
	return parts
}
