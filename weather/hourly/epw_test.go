package hourly

import (
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/physics/sun"
	"ampstead/weather"
)

// One publisher's files hold samples of universal time under another zone.
func TestSampledEPW(t *testing.T) {
	epw := strings.Replace(text(t, "epw-chicago-tmy3.epw.gz"), "TMY3,725300,41.98,-87.92,-6.0", "ECMWF/ERA,725300,41.98,-87.92,1.0", 1)
	h, err := Read("x", strings.NewReader(epw))
	if err != nil {
		t.Fatal(err)
	}
	if !h.Sampled || h.Start != sun.At(typicalYear, 1, 1, 0) {
		t.Errorf("sampled %v from %v", h.Sampled, h.Start)
	}
	near.Equal(t, "LightAt", h.LightAt, 0.17, 0)
	near.Equal(t, "AirAt", h.AirAt, 0, 0)
}

// A file of a leap year has 8784 hours.
func TestLeapYear(t *testing.T) {
	lines := strings.SplitAfter(text(t, "epw-chicago-tmy3.epw.gz"), "\n")
	march := epwHeader + 59*24
	var day []string
	for _, l := range lines[march-24 : march] {
		day = append(day, strings.Replace(l, ",2,28,", ",2,29,", 1))
	}
	leap := strings.Join(lines[:march], "") + strings.Join(day, "") + strings.Join(lines[march:], "")
	h, err := Read("x", strings.NewReader(leap))
	if err != nil || h.Len() != 8784 || !h.Whole() {
		t.Fatal(err, h)
	}
	near.Equal(t, "29 February", h.TempC[59*24], h.TempC[58*24], 0)
}

// Without any wind a steady one is assumed, and the basis says so.
func TestNoWind(t *testing.T) {
	lines := strings.SplitAfter(text(t, "epw-chicago-tmy3.epw.gz"), "\n")
	for i := epwHeader; i < len(lines)-1; i++ {
		f := strings.Split(lines[i], ",")
		f[21] = "999"
		lines[i] = strings.Join(f, ",")
	}
	h, err := Read("x", strings.NewReader(strings.Join(lines, "")))
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "wind", h.Wind[5000], weather.AssumedWind, 0)
	if !h.Basis.Weak() || !strings.Contains(strings.Join(h.Basis.Notes, ";"), "no wind") {
		t.Errorf("%+v", h.Basis)
	}
}
