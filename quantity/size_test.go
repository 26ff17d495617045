package quantity

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseSize(t *testing.T) {
	tests := []struct {
		text string
		want Size
	}{
		{"2/0 AWG", Size{AWG, -1}}, {"2/0AWG", Size{AWG, -1}}, {"2/0 awg", Size{AWG, -1}}, {"AWG 2/0", Size{AWG, -1}},
		{"00 AWG", Size{AWG, -1}}, {"0 AWG", Size{AWG, 0}}, {"1/0 AWG", Size{AWG, 0}}, {"0000 AWG", Size{AWG, -3}},
		{"10 AWG", Size{AWG, 10}}, {"#10 AWG", Size{AWG, 10}}, {"AWG10", Size{AWG, 10}}, {"AWG #10", Size{AWG, 10}}, {"08 AWG", Size{AWG, 8}},
		{"10 SAE", Size{SAE, 10}}, {"4/0 SAE", Size{SAE, -3}}, {"10\u00a0AWG", Size{AWG, 10}},
		{"35 mm2", Size{MM2, 35}}, {"35 mm²", Size{MM2, 35}}, {"35mm^2", Size{MM2, 35}}, {"35 sq mm", Size{MM2, 35}},
		{"2.5 MM2", Size{MM2, 2.5}}, {" 0.75\u2009mm2 ", Size{MM2, 0.75}},
	}
	for _, tt := range tests {
		got, err := ParseSize(tt.text)
		if err != nil || got != tt.want {
			t.Errorf("%q: got %+v, %v; want %+v", tt.text, got, err, tt.want)
		}
	}
}

func TestParseSizeRefuses(t *testing.T) {
	tests := []struct{ text, why string }{
		{"", "is empty"}, {"35", "has no gauge system"}, {"2/0", "has no gauge system"}, {"AWG", "is not a whole gauge number"},
		{"35 mm", "is a length; a cross-section is in mm2"}, {"35 V", "is a voltage"}, {"250 kcmil", "is a cross-section"},
		{"5/0 AWG", "is not between 1/0 and 4/0"}, {"0/0 AWG", "is not between 1/0 and 4/0"}, {"00000 AWG", "is not between 1/0 and 4/0"},
		{"-1 AWG", "is not a whole gauge number"}, {"2.5 AWG", "is not a whole gauge number"}, {"41 AWG", "is not a whole gauge number"},
		{"0x1 AWG", "is not a whole gauge number"}, {"nan AWG", "is not a whole gauge number"}, {"1_0 SAE", "is not a whole gauge number"},
		{"2/0 mm2", "is not a number of mm2"}, {"0 mm2", "is not between"}, {"-4 mm2", "is not between"}, {"1001 mm2", "is not between"},
		{"nan mm2", "does not start with a number"}, {"inf mm2", "does not start with a number"}, {"0x10 mm2", "is not a plain decimal number"},
		{"2,5 mm2", "has a comma"}, {"thick", "does not start with a number"}, {"10 gauge", "not known here"},
	}
	for _, tt := range tests {
		got, err := ParseSize(tt.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q: got %+v, %v; want an *Error", tt.text, got, err)
			continue
		}
		if !strings.Contains(e.Why, tt.why) || !strings.Contains(e.Want, "2/0 AWG") {
			t.Errorf("%v: want a reason with %q and an example", err, tt.why)
		}
	}
}

func TestSizeRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Size{Gauge: rapid.SampledFrom([]Gauge{AWG, SAE, MM2}).Draw(t, "gauge")}
		if s.Gauge == MM2 {
			s.Number = float64(rapid.IntRange(1, 100000).Draw(t, "hundredths")) / 100
		} else {
			s.Number = float64(rapid.IntRange(-3, 40).Draw(t, "number"))
		}
		back, err := ParseSize(s.String())
		if err != nil || back != s {
			t.Fatalf("%+v is written %q and read as %+v, %v", s, s.String(), back, err)
		}
	})
	if got := (Size{}).String(); got != "" {
		t.Errorf("no size is written %q", got)
	}
}
