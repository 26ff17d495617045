package quantity_test

import (
	"fmt"

	"ampstead/quantity"
)

func ExampleParse() {
	energy, _ := quantity.Parse[quantity.Energy]("5.2 kWh")
	slope, _ := quantity.Parse[quantity.VoltageSlope]("-3 mV/K")
	fmt.Println(float64(energy), float64(slope))

	_, err := quantity.Parse[quantity.Voltage]("94 Ah")
	fmt.Println(err)
	_, err = quantity.Parse[quantity.Temperature]("25")
	fmt.Println(err)
	// Output:
	// 5200 -0.003
	// "94 Ah" is a charge; expected a voltage such as "28.8 V"
	// "25" has no unit; expected a temperature such as "5 °C"
}

func ExampleText() {
	frost, _ := quantity.Parse[quantity.Temperature]("25 °F")
	cable, _ := quantity.Parse[quantity.Length]("18 ft")
	fmt.Println(quantity.Text(frost, quantity.Metric), quantity.Text(frost, quantity.US))
	fmt.Println(quantity.Text(cable, quantity.Metric), quantity.Text(cable, quantity.US))
	// Output:
	// -3.889 °C 25 °F
	// 5.486 m 18 ft
}

// Two degrees as a place on the thermometer and as a difference are not the
// same thing.
func ExampleTemperatureStep() {
	place, _ := quantity.Parse[quantity.Temperature]("9 °F")
	step, _ := quantity.Parse[quantity.TemperatureStep]("9 °F")
	fmt.Println(quantity.Text(place, quantity.Metric), quantity.Text(step, quantity.Metric))
	// Output: -12.78 °C 5 K
}

func ExampleDimension_Fixed() {
	for _, v := range []float64{4.2, 4.0834, 3.55} {
		fmt.Println(quantity.Volts.Fixed(v, "V", 3))
	}
	// Output:
	// 4.200 V
	// 4.083 V
	// 3.550 V
}

func ExampleParseSize() {
	size, _ := quantity.ParseSize("00 awg")
	fmt.Println(size)
	_, err := quantity.ParseSize("35 mm")
	fmt.Println(err)
	// Output:
	// 2/0 AWG
	// "35 mm" is a length; a cross-section is in mm2; expected a conductor size such as "2/0 AWG", "10 SAE" or "35 mm2"
}

func ExampleParseMoney() {
	price, _ := quantity.ParseMoney("480 EUR")
	fmt.Println(price.Amount, price.Currency)
	// Output: 480 EUR
}
