package hourly

import (
	"fmt"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/weather"
)

// nsrdbRows is a made-up file of some days of 2019, sampled at minutes of the
// hour.
func nsrdbRows(days int, minutes ...int) string {
	var b strings.Builder
	b.WriteString("Source,Location ID,Latitude,Longitude,Time Zone,Elevation,Local Time Zone\n")
	b.WriteString("NSRDB,1,40.5,-105.25,-7,1500,-7\n")
	b.WriteString("Year,Month,Day,Hour,Minute,DHI,DNI,GHI,Temperature,Wind Speed\n")
	n := 0
	for m, length := range weather.MonthDays {
		for d := range length {
			if n++; n > days {
				return b.String()
			}
			for h := range 24 {
				for _, minute := range minutes {
					fmt.Fprintf(&b, "2019,%d,%d,%d,%d,%d,0,%d,%d,2\n", m+1, d+1, h, minute, h+minute, h+minute, -minute)
				}
			}
		}
	}
	return b.String()
}

func nsrdbDay(minutes ...int) string { return nsrdbRows(1, minutes...) }

func TestNSRDB(t *testing.T) {
	h, err := Read("x", strings.NewReader(nsrdbRows(365, 30)))
	if err != nil || !h.Whole() || h.Basis.Years != "2019" {
		t.Fatal(err, h)
	}
	near.Equal(t, "LightAt", h.LightAt, 0.5, 0)
	near.Equal(t, "13 h", h.GHI[13], 43, 0)
	near.Equal(t, "longitude", h.Place.Longitude, -105.25, 0)
	h, err = Read("x", strings.NewReader(nsrdbRows(365, 0, 30)))
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "LightAt of two rows an hour", h.LightAt, 0.25, 0)
	near.Equal(t, "mean of two rows", h.GHI[13], 28, 0)
	near.Equal(t, "mean temperature", h.TempC[13], -15, 0)
	if e := refused(t, nsrdbDay(30)); e.Line != 27 || !strings.Contains(e.Message, "ends before") {
		t.Error(e)
	}
	if e := refused(t, strings.Replace(nsrdbDay(30), "2019,1,1,5,30", "2019,1,1,5,45", 1)); e.Line != 9 {
		t.Error(e)
	}
}
