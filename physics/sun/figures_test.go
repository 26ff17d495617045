package sun

import (
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/internal/near"
)

func TestEveryCheckPasses(t *testing.T) {
	for _, f := range Figures() {
		if len(f.Checks) == 0 {
			t.Errorf("%s has no check", f.Name)
		}
		for _, o := range f.Verify() {
			if !o.Pass {
				t.Errorf("%s: %s (%s): got %v, want %v within %g", f.Name, o.Note, o.Source, o.Got, o.Expected, o.Tolerance)
			}
		}
	}
}

func TestOutputsAreDeclared(t *testing.T) {
	for _, f := range Figures() {
		use, err := f.Read(f.Checks[0].In)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		for _, o := range f.Outputs {
			if _, ok := use.Out[o.Key]; !ok || len(use.Out) != len(f.Outputs) {
				t.Errorf("%s gives %v, declares %s", f.Name, use.Out, o.Key)
			}
		}
	}
}

func TestFiguresRefuse(t *testing.T) {
	here := "latitude=40|longitude=0|time=2026-06-01T12:00:00Z"
	tests := []struct {
		f        *figure.Figure
		in, want string
	}{
		{SunPosition, "latitude=40|longitude=0", "needs time"},
		{SunPosition, "latitude=40|longitude=0|time=noon", "is not a date and time"},
		{SunPosition, "latitude=91|longitude=0|time=2026-06-01T12:00:00Z", "latitude must be from -90 to 90"},
		{SunPosition, here + "|elevation=20 km", "elevation must be"},
		{SunPosition, here + "|temperature=200 °C", "temperature must be"},
		{SunPosition, here + "|delta-t=soon", "expected seconds"},
		{SunTimes, here + "|delta-t=67 V", "expected seconds"},
		{SunTimes, "latitude=40|longitude=0|time=2026-06-01", "is not a date and time"},
		{SolarDay, "latitude=40|day=0", "from 1 to 366"},
		{SolarDay, "latitude=95|day=10", "latitude must be"},
		{ExtraterrestrialNormal, "day=1.5", "whole number"},
		{ExtraterrestrialNormal, "day=1|constant=1.367 W/m2", "constant must be"},
		{AirMassAt, "zenith=-1 °", "zenith must be"},
		{ClearSky, here + "|turbidity=0.5", "turbidity must be"},
		{ClearSky, "latitude=40|longitude=999|time=2026-06-01T12:00:00Z", "longitude must be"},
		{ClearSkyAt, "zenith=20 °|day=1|turbidity=0", "turbidity must be"},
		{ClearSkyAt, "zenith=200 °|day=1", "zenith must be"},
		{DiffuseShare, "clearness=1.2", "clearness must be"},
		{DiffuseShare, "clearness=0.5|period=week", "expected hour, day or month"},
	}
	for _, tt := range tests {
		use, err := tt.f.Read(strings.Split(tt.in, "|"))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s %s: got %v, %v; want an error with %q", tt.f.Name, tt.in, use.Out, err, tt.want)
		}
	}
}

// A bare 820 can only be hPa, and nothing said is the standard atmosphere.
func TestPressureIsRead(t *testing.T) {
	var got []float64
	for _, text := range []string{"820 mbar", "82000", "820", "82 kPa"} {
		in := append([]string{"pressure=" + text}, workedExample[:4]...)
		use, err := SunPosition.Read(append(in, "temperature=11 °C"))
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, use.Num("apparent_elevation_deg"))
		near.Equal(t, text, use.Num("apparent_elevation_deg"), got[0], 1e-12)
	}
	use, err := SunPosition.Read(workedExample[:4])
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "standard air", use.Num("apparent_elevation_deg"), got[0], 5e-4)
}

func TestSunTimesInPolarDayAndNight(t *testing.T) {
	for text, hours := range map[string]float64{"2026-06-21T12:00:00Z": 24, "2026-12-21T12:00:00Z": 0} {
		use, err := SunTimes.Read([]string{"latitude=71", "longitude=25", "time=" + text})
		if err != nil || use.Num("day_length_h") != hours || use.Out["sunrise"] != "none" {
			t.Errorf("%s: %v, %v", text, use.Out, err)
		}
	}
}
