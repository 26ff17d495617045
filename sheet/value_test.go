package sheet

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	q "ampstead/quantity"
)

func TestSettingText(t *testing.T) {
	for _, c := range []struct {
		v    any
		d    *q.Dimension
		unit string
		step float64
		sys  q.System
		want string
	}{
		{49.0, q.Volts, "V", 0.1, q.Metric, "49.0 V"},
		{49.0, q.Volts, "V", 0.01, q.Metric, "49.00 V"},
		{49.0, q.Volts, "V", 0, q.Metric, "49.0 V"},
		{47.25, q.Volts, "V", 0.1, q.Metric, "47.25 V"}, // finer than the device: shown, not hidden
		{48.999999999, q.Volts, "V", 0.1, q.Metric, "49.0 V"},
		{4.13, q.Volts, "V", 0, q.Metric, "4.13 V"},
		{4.125, q.Volts, "V", 0.01, q.Metric, "4.125 V"},
		{0.05, q.Volts, "V", 0.01, q.Metric, "50 mV"},
		{3600.0, q.Seconds, "s", 0, q.Metric, "60 min"},
		{2.0, q.Seconds, "s", 0, q.Metric, "2 s"},
		{5.0, q.Celsius, "°C", 0, q.Metric, "5 °C"},
		{5.0, q.Celsius, "°C", 0, q.US, "41 °F"},
		{-0.12, q.VoltsPerKelvin, "V/K", 0, q.Metric, "-120 mV/K"},
		{8.0, nil, "A", 0, q.Metric, "8 A"}, // no dimension: by its unit
		{"off", nil, "", 0, q.Metric, "off"},
		{nil, nil, "", 0, q.Metric, "not given"},
	} {
		if got := setting(c.v, c.d, c.unit, c.step, c.sys); got != c.want {
			t.Errorf("setting(%v, step %g) = %q, want %q", c.v, c.step, got, c.want)
		}
	}
}

// What is shown is never further from the value than half of its last place,
// and never has more places than asked for.
func TestPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-100, 100).Draw(t, "v")
		n := places(v, 1, 3)
		if n < 1 || n > 3 {
			t.Fatalf("%d places", n)
		}
		shown, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', n, 64), 64)
		if err != nil || math.Abs(shown-v) > 0.00051 {
			t.Fatalf("%g shows as %g", v, shown)
		}
	})
}

func TestMillivolts(t *testing.T) {
	for mv, want := range map[float64]string{41.6: "42 mV", -0.2: "0 mV", -12.4: "-12 mV"} {
		if got := millivolts(mv); got != want {
			t.Errorf("millivolts(%g) = %q, want %q", mv, got, want)
		}
	}
}
