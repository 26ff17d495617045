package quantity

import (
	"errors"
	"math"
	"testing"
)

func seeds(f *testing.F) {
	for _, s := range []string{"", "5.2 kWh", "94 Ah", "25 °F", "-3 mV/K", "2/0 AWG", "35 mm2", "18 ft", "55 lb", "1.5 %",
		"−5\u00a0mV", "5\u2009\u2126", "1e400 V", "1e-400 V", "0x1p4 V", "NaN V", "1,5 V", "1_0 V", "5 MV", "7.6E", "7.6e5", "-459.67 °F",
		"AWG #10", "00 SAE", "480 EUR", "480 kWh", "·", "5 ·", "- ", "+", ".", "5 \xff", "5 \u212a"} {
		f.Add(s)
	}
}

// FuzzParse checks that every dimension either refuses a text with an *Error
// or reads a finite value whose own text is read again.
func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		for _, d := range every() {
			v, err := d.Parse(text)
			if err != nil {
				mustBeError(t, err)
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: %q was read as %g", d.Name, text, v)
			}
			if d == Celsius && v < -270 {
				continue // rounding what is shown may fall below absolute zero
			}
			for _, s := range []System{Metric, US} {
				if _, err := d.Parse(d.Text(v, s)); err != nil && math.Abs(v) < 1e300 {
					t.Fatalf("%s: %q was read but not its own text: %v", d.Name, text, err)
				}
			}
		}
	})
}

// FuzzParseSize checks that every size that is read can be written and read again.
func FuzzParseSize(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseSize(text)
		if err != nil {
			mustBeError(t, err)
			return
		}
		if back, err := ParseSize(s.String()); err != nil || back != s {
			t.Fatalf("%q was read as %+v and written %q, read as %+v, %v", text, s, s.String(), back, err)
		}
	})
}

// FuzzParseMoney checks that every amount that is read can be written and read again.
func FuzzParseMoney(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ParseMoney(text)
		if err != nil {
			mustBeError(t, err)
			return
		}
		if back, err := ParseMoney(m.String()); err != nil || back != m {
			t.Fatalf("%q was read as %+v and written %q, read as %+v, %v", text, m, m.String(), back, err)
		}
	})
}

func mustBeError(t *testing.T, err error) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || e.Why == "" || e.Want == "" {
		t.Fatalf("%#v is not an *Error with a reason and an expectation", err)
	}
}
