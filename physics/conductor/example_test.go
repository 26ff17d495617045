package conductor_test

import (
	"fmt"

	"ampstead/figure"
	"ampstead/physics/conductor"
	"ampstead/quantity"
)

func ExampleResistance() {
	size, _ := quantity.ParseSize("50 mm2")
	for _, tempC := range []float64{20, 75} {
		perM, _ := conductor.Resistance(size, tempC)
		fmt.Println(quantity.OhmsPerMetre.Text(perM, quantity.Metric))
	}
	// Output:
	// 0.386 Ω/km
	// 0.4694 Ω/km
}

func ExampleRate() {
	size, _ := quantity.ParseSize("35 mm2")
	r, _ := conductor.Rate(size, 105, conductor.Engine, 1)
	fmt.Printf("%.1f A\n%s\n", r.Amperes, r.Basis)
	// Output:
	// 178.5 A
	// ISO 10133 annex A, 105 °C column, from memory; not above the 215.6 A of 33 CFR 183.425 table 5, 105 °C column, interpolated at its area; × 0.85 for an engine space
}

func ExampleConductorForDrop() {
	use, _ := conductor.ConductorForDrop.Use(figure.N("length", 3.2004), figure.N("current", 10.0),
		figure.N("voltage", 12.0), figure.N("drop-percent", 3.0))
	fmt.Printf("%.1f cmil: %v, %v or %v\n", use.Num("area_cmil"), use.Out["size"], use.Out["size_sae"], use.Out["size_mm2"])
	// Output: 6270.8 cmil: 12 AWG, 10 SAE or 4 mm²
}

// A shorted module and the same behind two metres of loop.
func ExampleShortCircuit() {
	bare, _ := conductor.ShortCircuit.Read([]string{"voltage=28.7 V", "bank-resistance=3.5 mΩ"})
	cabled, _ := conductor.ShortCircuit.Read([]string{"voltage=28.7 V", "bank-resistance=3.5 mΩ", "size=50 mm2", "length=1 m"})
	fmt.Printf("%.0f A, %.0f A\n", bare.Num("current_a"), cabled.Num("current_a"))
	// Output: 8200 A, 6718 A
}
