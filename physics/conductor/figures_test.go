package conductor

import (
	"errors"
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/internal/figuretest"
	"ampstead/internal/near"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestPercentIsReadAsPercent(t *testing.T) {
	run := []string{"length=10.5 ft", "current=10 A", "voltage=12 V"}
	for _, written := range []string{"3", "3 %", "3%", "3 percent"} {
		use, err := ConductorForDrop.Read(append([]string{"drop-percent=" + written}, run...))
		if err != nil {
			t.Errorf("%s: %v", written, err)
			continue
		}
		near.Equal(t, "area at "+written, use.Num("area_cmil"), 6270.8, 0.05)
	}
	use, err := ConductorForDrop.Use(figure.N("length", 3.2004), figure.N("current", 10.0), figure.N("voltage", 12.0), figure.N("drop-percent", 3.0))
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "area with a number", use.Num("area_cmil"), 6270.8, 0.05)
	if _, err = ConductorForDrop.Read(append(run, "drop-percent=0.03")); !errors.Is(err, figure.ErrRange) || !strings.Contains(err.Error(), "write 3 or 3 %") {
		t.Errorf("a fraction is answered with %v", err)
	}
}

func TestFiguresRefuse(t *testing.T) {
	tests := []struct {
		f    *figure.Figure
		in   string
		want string
	}{
		{Conductor, "", "needs size"},
		{Conductor, "size=35", "has no gauge system"},
		{Conductor, "size=500 mm2", "no resistance is tabulated"},
		{Conductor, "size=20 AWG", "no ampacity is tabulated"},
		{Conductor, "size=3 SAE", "no area is tabulated"},
		{Conductor, "size=35 mm2|place=roof", "expected open, enclosed or engine"},
		{Conductor, "size=35 mm2|insulation=40 °C", "is not between 60 and 200"},
		{Conductor, "size=35 mm2|bundle=2.5", "whole number"},
		{Conductor, "size=35 mm2|bundle=0", "whole number"},
		{Conductor, "size=35 mm2|temperature=400 °C", "is not between -60 and 250"},
		{VoltageDrop, "size=35 mm2|length=2 m|current=100 A|voltage=0 V", "voltage must be more than zero"},
		{VoltageDrop, "size=35 mm2|length=-2 m|current=100 A|voltage=12 V", "length must not be less"},
		{VoltageDrop, "size=0.5 mm2|length=200 m|current=100 A|voltage=12 V", "cannot carry that current"},
		{VoltageDrop, "size=thick|length=2 m|current=1 A|voltage=12 V", "conductor size"},
		{ConductorForDrop, "length=200 m|current=400 A|voltage=12 V", "shorten the run"},
		{ConductorForDrop, "length=2 m|current=0 A|voltage=12 V", "current must be more than zero"},
		{ConductorForDrop, "length=2 m|current=1 A|voltage=12 V|drop-percent=60", "not between 0.1 and 50"},
		{ShortCircuit, "voltage=12 V|bank-resistance=0 Ω", "must be more than zero"},
		{ShortCircuit, "voltage=12 V|bank-resistance=5 mΩ|length=1 m", "needs its size"},
		{ShortCircuit, "voltage=12 V|bank-resistance=5 mΩ|length=-1 m|size=50 mm2", "must not be less"},
		{ShortCircuit, "voltage=12 V|bank-resistance=5 mΩ|length=1 m|size=thick", "conductor size"},
		{ShortCircuit, "voltage=12 V|bank-resistance=5 mΩ|length=1 m|size=500 mm2", "no resistance is tabulated"},
	}
	for _, tt := range tests {
		var in []string
		if tt.in != "" {
			in = strings.Split(tt.in, "|")
		}
		use, err := tt.f.Read(in)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s %v: got %v, %v; want an error with %q", tt.f.Name, in, use.Out, err, tt.want)
		}
	}
}

func TestLargestSizes(t *testing.T) {
	// 2 m out and back at 12 V and 3 %: 1 A asks for 391.8 cmil, so 530 A for
	// 207 680, above 4/0 SAE (205 500) and below 4/0 AWG (211 600).
	use, err := ConductorForDrop.Read([]string{"length=2 m", "current=530 A", "voltage=12 V"})
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{"size": "4/0 AWG", "size_sae": "none large enough", "size_mm2": "120 mm²"} {
		if use.Out[key] != want {
			t.Errorf("%s = %v, want %s", key, use.Out[key], want)
		}
	}
}

func TestNoCurrentNoDrop(t *testing.T) {
	use, err := VoltageDrop.Use(figure.T("size", "16 mm²"), figure.N("length", 0.0), figure.N("current", 0.0), figure.N("voltage", 48.0))
	if err != nil || use.Num("drop_v") != 0 {
		t.Errorf("got %v, %v", use.Out, err)
	}
}
