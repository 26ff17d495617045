package sun

import (
	"testing"

	"ampstead/figure"
	"ampstead/internal/figuretest"
	"ampstead/internal/near"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestFiguresRefuse(t *testing.T) {
	here := "latitude=40|longitude=0|time=2026-06-01T12:00:00Z"
	refuse := func(f *figure.Figure, in, says string) { figuretest.Refuse(t, f, in, says) }
	refuse(SunPosition, "latitude=40|longitude=0", "needs time")
	refuse(SunPosition, "latitude=40|longitude=0|time=noon", "is not a date and time")
	refuse(SunPosition, "latitude=91|longitude=0|time=2026-06-01T12:00:00Z", "latitude must be from -90 to 90")
	refuse(SunPosition, here+"|elevation=20 km", "elevation must be")
	refuse(SunPosition, here+"|temperature=200 °C", "temperature must be")
	refuse(SunPosition, here+"|delta-t=soon", "expected seconds")
	refuse(SunTimes, here+"|delta-t=67 V", "expected seconds")
	refuse(SunTimes, "latitude=40|longitude=0|time=2026-06-01", "is not a date and time")
	refuse(SolarDay, "latitude=40|day=0", "from 1 to 366")
	refuse(SolarDay, "latitude=95|day=10", "latitude must be")
	refuse(ExtraterrestrialNormal, "day=1.5", "whole number")
	refuse(ExtraterrestrialNormal, "day=1|constant=1.367 W/m2", "constant must be")
	refuse(AirMassAt, "zenith=-1 °", "zenith must be")
	refuse(ClearSky, here+"|turbidity=0.5", "turbidity must be")
	refuse(ClearSky, "latitude=40|longitude=999|time=2026-06-01T12:00:00Z", "longitude must be")
	refuse(ClearSkyAt, "zenith=20 °|day=1|turbidity=0", "turbidity must be")
	refuse(ClearSkyAt, "zenith=200 °|day=1", "zenith must be")
	refuse(DiffuseShare, "clearness=1.2", "clearness must be")
	refuse(DiffuseShare, "clearness=0.5|period=week", "expected hour, day or month")
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
