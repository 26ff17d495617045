package quantity

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/near"
)

func TestText(t *testing.T) {
	tests := []struct {
		d          *Dimension
		v          float64
		metric, us string
	}{
		{Volts, 49.0, "49 V", "49 V"}, {Volts, 4.083, "4.083 V", "4.083 V"}, {Volts, 48.62, "48.62 V", "48.62 V"},
		{Volts, 0.02, "20 mV", "20 mV"}, {Volts, -0.025, "-25 mV", "-25 mV"}, {Volts, 0, "0 V", "0 V"}, {Volts, 0.1544, "0.1544 V", "0.1544 V"},
		{Amperes, 8200, "8200 A", "8200 A"}, {Amperes, 20000, "20 kA", "20 kA"}, {Amperes, 0.004, "4 mA", "4 mA"},
		{WattHours, 5200, "5.2 kWh", "5.2 kWh"}, {WattHours, 640.04, "640 Wh", "640 Wh"},
		{Watts, 330, "330 W", "330 W"}, {Ohms, 0.0062, "6.2 mΩ", "6.2 mΩ"}, {Ohms, 16.69, "16.69 Ω", "16.69 Ω"},
		{Celsius, -35.0 / 9, "-3.889 °C", "25 °F"}, {Celsius, 0, "0 °C", "32 °F"}, {Celsius, 25, "25 °C", "77 °F"},
		{Kelvins, 5, "5 K", "9 °F"}, {Kelvins, 0, "0 K", "0 °F"}, {VoltsPerKelvin, -0.003, "-3 mV/K", "-1.667 mV/°F"},
		{Metres, 5.4864, "5.486 m", "18 ft"}, {Metres, 0.025, "25 mm", "0.9843 in"}, {Metres, 1200, "1200 m", "3937 ft"},
		{SquareMillimetres, 33.631, "33.63 mm²", "66372 cmil"}, {CircularMils, 6270.8, "6271 cmil", "6271 cmil"},
		{Kilograms, 24.94758, "24.95 kg", "55 lb"}, {Fraction, 0.015, "1.5 %", "1.5 %"}, {Percent, 3, "3 %", "3 %"},
		{Seconds, 3600, "60 min", "60 min"}, {Seconds, 0.2, "200 ms", "200 ms"}, {Seconds, 9000, "2.5 h", "2.5 h"}, {Hours, 1.99, "119.4 min", "119.4 min"},
		{OhmsPerMetre, 0.386e-3, "0.386 Ω/km", "0.1177 Ω/kft"},
		{JoulesPerKgK, 1040, "1040 J/kg/K", "0.2484 Btu/lb/°F"}, {WattsPerMetreK, 0.029, "0.029 W/m/K", "0.2011 Btu in/h/ft²/°F"},
		{DegreesNorth, -33.9249, "33.9249 °S", "33.9249 °S"}, {DegreesEast, -117.1611, "117.161 °W", "117.161 °W"}, {DegreesNorth, 37.2, "37.2 °N", "37.2 °N"},
		{Plain, 7, "7", "7"}, {Plain, -1e-12, "0", "0"}, {Volts, 1e-17, "0 mV", "0 mV"}, {Volts, math.Inf(1), "+Inf V", "+Inf V"},
	}
	for _, tt := range tests {
		if got := tt.d.Text(tt.v, Metric); got != tt.metric {
			t.Errorf("%s %g metric: got %q, want %q", tt.d.Name, tt.v, got, tt.metric)
		}
		if got := tt.d.Text(tt.v, US); got != tt.us {
			t.Errorf("%s %g US: got %q, want %q", tt.d.Name, tt.v, got, tt.us)
		}
	}
	if got := Text(Charge(94), US); got != "94 Ah" {
		t.Errorf("Text of a charge: %q", got)
	}
}

func TestFixed(t *testing.T) {
	tests := []struct {
		d        *Dimension
		v        float64
		unit     string
		decimals int
		want     string
	}{
		{Volts, 49, "V", 1, "49.0 V"}, {Volts, 4.0834, "V", 3, "4.083 V"}, {Volts, 0.0204, "mV", 0, "20 mV"},
		{Volts, -0.0001, "V", 2, "0.00 V"}, {Volts, 49, "Ah", 1, "49.0 V"}, {Fraction, 0.5, "Ah", 0, "50 %"},
		{Celsius, 5, "°F", 1, "41.0 °F"}, {Plain, 2.5, "", 1, "2.5"},
	}
	for _, tt := range tests {
		if got := tt.d.Fixed(tt.v, tt.unit, tt.decimals); got != tt.want {
			t.Errorf("Fixed(%g, %q, %d) of %s = %q, want %q", tt.v, tt.unit, tt.decimals, tt.d.Name, got, tt.want)
		}
	}
}

// every is every dimension, plain numbers included.
func every() []*Dimension { return append(All(), Plain) }

// What Text shows, Parse reads back to within half of the last digit shown.
func TestTextRoundTrips(t *testing.T) {
	for _, d := range every() {
		for _, s := range []System{Metric, US} {
			t.Run(fmt.Sprint(d.Name, " ", d.Base, " ", s), func(t *testing.T) {
				rapid.Check(t, func(t *rapid.T) { roundTrip(t, d, s, drawValue(t)) })
			})
		}
	}
}

// drawValue spreads values over many orders of magnitude, but not below
// absolute zero.
func drawValue(t *rapid.T) float64 {
	exponent := rapid.Float64Range(-9, 9).Draw(t, "exponent")
	if rapid.Bool().Draw(t, "negative") {
		return -math.Pow(10, math.Min(exponent, 2.43))
	}
	return math.Pow(10, exponent)
}

func roundTrip(t *rapid.T, d *Dimension, s System, v float64) {
	text := d.Text(v, s)
	back, err := d.Parse(text)
	if err != nil {
		t.Fatalf("%g is shown as %q, which is refused: %v", v, text, err)
	}
	unit := d.Show(v, s)
	shown, _ := d.In(v, unit)
	readBack, _ := d.In(back, unit)
	half := 0.5 * math.Pow(10, -float64(decimalsFor(shown, max(d.figures, 4))))
	if math.Abs(readBack-shown) > half*(1+1e-9)+1e-12*math.Abs(shown) {
		t.Fatalf("%g is shown as %q and read back as %g, more than half of its last digit away", v, text, back)
	}
}

// Every unit a text may be written in converts there and back.
func TestUnitsConvertBack(t *testing.T) {
	for _, d := range every() {
		for _, unit := range d.Units {
			for _, name := range unit.Names {
				v, err := d.Parse(strings.TrimSpace("73.5 " + name))
				if err != nil {
					t.Errorf("%s: %v", d.Name, err)
					continue
				}
				back, ok := d.In(v, name)
				if !ok {
					t.Errorf("%s: In does not know %q", d.Name, name)
				}
				near.Equal(t, d.Name+" "+name, back, 73.5, 1e-9)
			}
		}
	}
	if _, ok := Volts.In(1, "Ah"); ok {
		t.Error("a voltage converts to Ah")
	}
}

func TestShownUnitsExist(t *testing.T) {
	for _, d := range every() {
		names := []string{d.Base, d.below}
		for _, st := range append(append([]step{}, d.metric...), d.us...) {
			names = append(names, st.unit)
		}
		for _, n := range names {
			if _, ok := d.exact(n); !ok && n != "" {
				t.Errorf("%s shows the unit %q, which is not in its table", d.Name, n)
			}
		}
	}
}

func TestSystem(t *testing.T) {
	for _, s := range []System{Metric, US} {
		got, err := ParseSystem(strings.ToUpper(s.String()))
		if err != nil || got != s {
			t.Errorf("%v: read as %v, %v", s, got, err)
		}
	}
	if _, err := ParseSystem("imperial"); err == nil {
		t.Error("imperial was read")
	}
}
