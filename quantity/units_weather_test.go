package quantity

import (
	"testing"

	"ampstead/internal/near"
)

func TestWeatherUnits(t *testing.T) {
	for _, v := range []struct {
		d    *Dimension
		text string
		want float64
	}{
		{Pascals, "820 mbar", 82000}, {Pascals, "1013.25 hPa", 101325}, {Pascals, "29.9213 inHg", 101325.2}, {Pascals, "14.69595 psi", 101325},
		{MetresPerSecond, "36 km/h", 10}, {MetresPerSecond, "10 mph", 4.4704}, {MetresPerSecond, "10 kn", 5.1444}, {MetresPerSecond, "10 ft/s", 3.048},
		{WattHoursPerM2, "33.8 MJ/m2", 9388.9}, {WattHoursPerM2, "4.2 kWh/m²", 4200},
	} {
		got, err := v.d.Parse(v.text)
		if err != nil {
			t.Error(err)
		}
		near.Relative(t, v.text, got, v.want, 1e-5)
	}
	if got := Pascals.Text(82000, Metric) + ", " + Pascals.Text(101325, US) + ", " + MetresPerSecond.Text(4.4704, US); got != "820 hPa, 29.92 inHg, 10 mph" {
		t.Error(got)
	}
}
