package conductor

// ShortCurrent returns the current in A that voltage drives through a dead short
// behind the resistance of bank and loop in Ω: Ohm's law, without inductance.
func ShortCurrent(voltage, bankOhm, loopOhm float64) float64 { return voltage / (bankOhm + loopOhm) }
