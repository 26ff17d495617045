package quantity

import (
	"strings"
	"testing"

	"ampstead/internal/near"
)

func TestCaseSlipsWithOneMeaning(t *testing.T) {
	tests := []struct {
		d    *Dimension
		text string
		want float64
	}{
		{WattHours, "5.2 KWH", 5200}, {WattHours, "5.2 kwh", 5200}, {WattHours, "5.2 wh", 5.2}, {WattHours, "1 MWH", 1e6},
		{AmpereHours, "94 ah", 94}, {AmpereHours, "94 AH", 94}, {AmpereHours, "94 mah", 0.094},
		{Volts, "12 v", 12}, {Volts, "12 mv", 0.012}, {Volts, "12 Volts", 12}, {Volts, "1 KV", 1000},
		{Amperes, "12 a", 12}, {Amperes, "12 Amps", 12}, {Amperes, "12 AMPS", 12},
		{Watts, "12 w", 12}, {Watts, "12 KW", 12000},
		{Celsius, "5 °c", 5}, {Celsius, "5 c", 5}, {Celsius, "41 f", 5}, {Celsius, "278.15 k", 5}, {Celsius, "5 degc", 5},
		{Seconds, "5 Min", 300}, {Seconds, "5 MIN", 300}, {Seconds, "5 H", 18000}, {Seconds, "5 mS", 0.005},
		{Metres, "5 FT", 1.524}, {Metres, "5 M", 5}, {Metres, "5 Cm", 0.05}, {Metres, "1 Miles", 1609.344},
		{Kilograms, "5 KG", 5}, {Kilograms, "10 LBS", 4.5359237}, {Kilograms, "5 G", 0.005},
		{Ohms, "5 OHM", 5}, {Ohms, "5 mOhm", 0.005}, {VoltsPerKelvin, "-3 mv/k", -0.003}, {DegreesNorth, "37.2 n", 37.2},
	}
	for _, tt := range tests {
		got, err := tt.d.Parse(tt.text)
		if err != nil {
			t.Errorf("%s: %v", tt.d.Name, err)
			continue
		}
		near.Equal(t, tt.d.Name+" "+tt.text, got, tt.want, 1e-9)
	}
}

// m and M are a factor of 10⁹ apart, so the case of a prefix is never guessed.
func TestPrefixSlipsAreRefusedWithAHint(t *testing.T) {
	tests := []struct {
		d          *Dimension
		text, hint string
	}{
		{Volts, "12 MV", `"mV"`}, {Volts, "12 Mv", `"mV"`}, {Amperes, "12 MA", `"mA"`}, {AmpereHours, "94 MAh", `"mAh"`},
		{AmpereHours, "94 MAH", `"mAh"`}, {Watts, "3 MW", `"mW"`}, {WattHours, "3 mWh", `"MWh"`}, {WattHours, "3 mj", `"MJ"`},
		{Ohms, "3 MΩ", `"mohm"`}, {Ohms, "3 Mohm", `"mohm"`}, {Farads, "20 MF", `"mF"`}, {Seconds, "5 Ms", `"ms"`},
		{Metres, "5 MM", `"mm"`}, {VoltsPerKelvin, "-3 MV/K", `"mV/K"`},
	}
	for _, tt := range tests {
		got, err := tt.d.Parse(tt.text)
		if err == nil {
			t.Errorf("%s %q was read as %g", tt.d.Name, tt.text, got)
			continue
		}
		if !strings.Contains(err.Error(), "is written "+tt.hint) {
			t.Errorf("%v: has no hint at %s", err, tt.hint)
		}
	}
}

// Two units of one dimension that differ in case alone and in scale must each
// be written exactly; the tables hold none today but a rig's reader may add one.
func TestAmbiguousCaseIsRefused(t *testing.T) {
	d := &Dimension{Article: "a thing", Base: "x", Example: "1 ab", Units: []Unit{u(1, "ab"), u(5, "aB")}}
	if _, err := d.Parse("1 AB"); err == nil || !strings.Contains(err.Error(), `could mean "ab" or "aB"`) {
		t.Errorf("got %v", err)
	}
	if v, err := d.Parse("1 aB"); err != nil || v != 5 {
		t.Errorf("exact spelling: got %v, %v", v, err)
	}
}

// The reader relies on a plain spelling of every unit being in the table.
func TestEveryUnitHasAPlainName(t *testing.T) {
	for _, d := range All() {
		for _, unit := range d.Units {
			if p := plain(unit.Names[0]); !hasName(unit, p) && unit.Names[0] != p {
				t.Errorf("%s: %q has no plain name %q", d.Name, unit.Names[0], p)
			}
		}
	}
}

func hasName(unit Unit, name string) bool {
	for _, n := range unit.Names {
		if n == name {
			return true
		}
	}
	return false
}

// Inside a dimension no name may stand for two units.
func TestNamesAreUnique(t *testing.T) {
	for _, d := range All() {
		seen := map[string]bool{}
		for _, unit := range d.Units {
			for _, n := range unit.Names {
				if seen[n] {
					t.Errorf("%s has two units %q", d.Name, n)
				}
				seen[n] = true
			}
		}
	}
}
