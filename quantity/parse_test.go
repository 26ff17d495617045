package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ampstead/internal/near"
)

func TestParse(t *testing.T) {
	tests := []struct {
		d    *Dimension
		text string
		want float64
	}{
		{WattHours, "5.2 kWh", 5200}, {WattHours, "1.2 MWh", 1.2e6}, {WattHours, "18 MJ", 5000}, {WattHours, "3600 J", 1},
		{AmpereHours, "94 Ah", 94}, {AmpereHours, "94Ah", 94},
		{AmpereHours, "2900 mAh", 2.9}, {AmpereHours, "94 A h", 94}, {AmpereHours, "94 A·h", 94},
		{Celsius, "25 °F", -35.0 / 9}, {Celsius, "77 degF", 25}, {Celsius, "5 °C", 5}, {Celsius, "5C", 5},
		{Celsius, "298.15 K", 25}, {Celsius, "5 º C", 5}, {Celsius, "-459.67 °F", -273.15},
		{Kelvins, "2 °C", 2}, {Kelvins, "9 °F", 5}, {Kelvins, "2 K", 2}, {Kelvins, "-3 K", -3},
		{VoltsPerKelvin, "-3 mV/K", -0.003}, {VoltsPerKelvin, "-30 mV/°C", -0.03}, {VoltsPerKelvin, "−5 mV/°F", -0.009},
		{PerKelvin, "-0.29 %/K", -0.0029}, {PerKelvin, "-0.2 %/°F", -0.0036},
		{Metres, "18 ft", 5.4864}, {Metres, `6"`, 0.1524}, {Metres, "6'", 1.8288}, {Metres, "25 mm", 0.025},
		{Metres, "1 mi", 1609.344}, {Metres, "7 ″", 0.1778},
		{SquareMetres, "35 mm2", 35e-6}, {SquareMetres, "35 mm²", 35e-6}, {SquareMetres, "35 mm^2", 35e-6}, {SquareMetres, "1 ft2", 0.09290304},
		{SquareMillimetres, "35 mm2", 35}, {CircularMils, "211.6 kcmil", 211600},
		// 4/0 AWG is a circle of 0.46 in (ASTM B258): 107.219 mm².
		{SquareMillimetres, "211600 cmil", math.Pi / 4 * 11.684 * 11.684}, {CircularMils, "1 mm2", 4 / math.Pi / (0.0254 * 0.0254)},
		{Kilograms, "55 lb", 24.94758035}, {Kilograms, "16 oz", 0.45359237}, {Kilograms, "0.05 t", 50},
		{Fraction, "1.5 %", 0.015}, {Fraction, "1.5%", 0.015}, {Fraction, "5 ‰", 0.005}, {Percent, "3 %", 3},
		{Volts, "28.8 V", 28.8}, {Volts, "+28.8V", 28.8}, {Volts, ".5 V", 0.5}, {Volts, "5. V", 5}, {Volts, "2e1 V", 20}, {Volts, "  5 V ", 5},
		{Volts, "5\u00a0V", 5}, {Volts, "5\u2009V", 5}, {Volts, "5\u202fV", 5}, {Volts, "5\u2007V", 5}, {Volts, "–5 mV", -0.005}, {Volts, "− 5 mV", -0.005},
		{Ohms, "1.2 mΩ", 0.0012}, {Ohms, "1.2 m\u2126", 0.0012}, {Ohms, "1.2 mohm", 0.0012}, {Ohms, "350 μΩ", 350e-6}, {Ohms, "350 \u00b5Ω", 350e-6}, {Ohms, "2 ohms", 2},
		{OhmsPerMetre, "0.386 Ω/km", 0.386e-3}, {OhmsPerMetre, "1.24 ohm/kft", 1.24 / 304.8}, {OhmsPerMetre, "1.24 ohm/1000 ft", 1.24 / 304.8},
		{Seconds, "60 min", 3600}, {Seconds, "0.5 h", 1800}, {Seconds, "3 days", 259200}, {Hours, "90 min", 1.5},
		{Farads, "20 mF", 0.02}, {Farads, "10000 uF", 0.01},
		{JoulesPerKgK, "0.24 Btu/lb/°F", 0.24 * 4186.8}, {JoulesPerKgK, "950 J/(kg K)", 950}, {JoulesPerKgK, "950 J/(kg·K)", 950}, {JoulesPerKgK, "0.95 kJ/kg/K", 950},
		{WattsPerMetreK, "0.2 Btu in/h/ft2/F", 0.0288455785}, {WattsPerMetreK, "0.035 W/(m·K)", 0.035},
		{WattsPerKelvin, "2 Btu/h/°F", 1.0550558526}, {WattsPerM2, "900 W/m2", 900},
		{DegreesNorth, "37.2 °N", 37.2}, {DegreesNorth, "33.9 S", -33.9}, {DegreesNorth, "-33.9 °", -33.9}, {DegreesNorth, "-33.9 deg", -33.9},
		{DegreesEast, "7.6 °W", -7.6}, {DegreesEast, "7.6E", 7.6}, {DegreesEast, "7.6degW", -7.6}, {Degrees, "30 degrees", 30},
		{PerHour, "0.5 C", 0.5}, {PerHour, "0.5 /h", 0.5}, {Plain, "7", 7}, {Plain, "-0", 0},
	}
	for _, tt := range tests {
		got, err := tt.d.Parse(tt.text)
		if err != nil {
			t.Errorf("%s: %v", tt.d.Name, err)
			continue
		}
		near.Equal(t, tt.d.Name+" "+tt.text, got, tt.want, 1e-9*math.Max(1, math.Abs(tt.want)))
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		d    *Dimension
		text string
		why  string
	}{
		{Volts, "", "is empty"},
		{Volts, " ", "is empty"},
		{Volts, "28.8", "has no unit"},
		{Volts, "V", "does not start with a number"},
		{Volts, "60 A", "is a current"},
		{Volts, "94 Ah", "is a charge"},
		{Volts, "5.2 kwh", "is an energy"},
		{Volts, "25 °F", "is a temperature"},
		{Volts, "2/0 AWG", "is a conductor size"},
		{Volts, "28.8 volts each", `has a unit "volts each" that is not known here`},
		{Volts, "28,8 V", "comma"},
		{Volts, "1,000 V", "comma"},
		{Volts, "1 000 V", "has a space inside its number"},
		{Volts, "1\u202f000 V", "has a space inside its number"},
		{Volts, "1_000 V", "is not a plain decimal number"},
		{Volts, "0x1p4 V", "is not a plain decimal number"},
		{Volts, "1'000 V", "is not a plain decimal number"},
		{Volts, "1.2.3 V", "does not start with a number that can be read"},
		{Volts, "NaN V", "does not start with a number"},
		{Volts, "Inf V", "does not start with a number"},
		{Volts, "-infinity V", "does not start with a number"},
		{Volts, "1e400 V", "is too large"},
		{Volts, "1e308 kV", "is too large"},
		{Volts, "--5 V", "does not start with a number"},
		{Volts, "about 5 V", "does not start with a number"},
		{Celsius, "-274 °C", "is below absolute zero"},
		{Celsius, "-460 °F", "is below absolute zero"},
		{Celsius, "-1 K", "is below absolute zero"},
		{Celsius, "5", "has no unit"},
		{Kilograms, "3 ft", "is a length"},
		{Metres, "5 A", "is a current"},
		{Metres, "35 mm2", "is an area"},
		{Plain, "5 V", "is a voltage"},
		{Plain, "5 ·", "not known here"},
		{Fraction, "0.5", "has no unit"},
		{Volts, "5 ·", "not known here"},
	}
	for _, tt := range tests {
		got, err := tt.d.Parse(tt.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%s %q: got %g, %v; want an *Error", tt.d.Name, tt.text, got, err)
			continue
		}
		if !strings.Contains(e.Why, tt.why) {
			t.Errorf("%s %q: refused because it %q, want %q", tt.d.Name, tt.text, e.Why, tt.why)
		}
		if e.Text != tt.text || !strings.Contains(e.Want, tt.d.Example) || !strings.Contains(e.Want, tt.d.Article) {
			t.Errorf("%s %q: error %+v lacks text, article or example", tt.d.Name, tt.text, e)
		}
	}
}

func TestErrorText(t *testing.T) {
	_, err := Volts.Parse("60 A")
	want := `"60 A" is a current; expected a voltage such as "28.8 V"`
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	_, err = Volts.Parse(strings.Repeat("x", 5000))
	if len(err.Error()) > 200 {
		t.Errorf("an error quotes %d bytes of what was written", len(err.Error()))
	}
}

func TestParseGeneric(t *testing.T) {
	step, err := Parse[TemperatureStep]("2 °C")
	if err != nil || step != 2 {
		t.Errorf("a difference of 2 °C is %v K, %v", step, err)
	}
	place, err := Parse[Temperature]("36 °F")
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "36 °F", float64(place), 20.0/9, 1e-12)
}

// Every exported type must be tied to a dimension that reads its own example.
func TestEveryTypeReadsItsExample(t *testing.T) {
	types := []dimensioned{Voltage(0), Current(0), Charge(0), Energy(0), Power(0), Resistance(0), Capacitance(0),
		Temperature(0), TemperatureStep(0), Length(0), Area(0), Mass(0), Duration(0), Ratio(0), Number(0), Rate(0),
		VoltageSlope(0), RatioSlope(0), HeatLoss(0), SpecificHeat(0), Conductivity(0), ResistancePer(0),
		Irradiance(0), Angle(0), Latitude(0), Longitude(0)}
	seen := map[*Dimension]bool{}
	for _, q := range types {
		d := q.Dimension()
		if seen[d] {
			t.Errorf("%T shares the dimension %s with another type", q, d.Name)
		}
		seen[d] = true
		if _, err := d.Parse(d.Example); err != nil {
			t.Errorf("%T: %v", q, err)
		}
	}
}

// dimensioned is the part of Quantity an interface value can have.
type dimensioned interface{ Dimension() *Dimension }
