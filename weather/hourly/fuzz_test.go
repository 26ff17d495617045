package hourly

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// FuzzRead feeds every parser: whatever comes in, it returns whole hours or an
// Error, and never much more than went in.
func FuzzRead(f *testing.F) {
	for _, s := range samples(f) {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		h, err := Read("x", bytes.NewReader(text))
		var e *Error
		if err != nil {
			if !errors.As(err, &e) || e.Line < 0 || e.Line > bytes.Count(text, []byte("\n"))+1 {
				t.Fatalf("%#v", err)
			}
			return
		}
		if err := h.Check(); err != nil {
			t.Fatal(err)
		}
		for i := range h.GHI {
			if h.GHI[i] < 0 || h.GHI[i] > 5000 || h.DNI[i] < 0 || h.DNI[i] > 1500 || h.DHI[i] < 0 {
				t.Fatalf("hour %d: %g, %g, %g W/m²", i, h.GHI[i], h.DNI[i], h.DHI[i])
			}
		}
	})
}

// samples are the heads of each format, and made-up ones.
func samples(f *testing.F) []string {
	list := []string{nsrdbDay(30), nsrdbDay(0, 30),
		`{"inputs": {"location": {"latitude": 45, "longitude": 8}}, "outputs": {"tmy_hourly": [{"time(UTC)": "20180101:0000", "T2m": 1}]}}`}
	for _, name := range []string{"epw-chicago-tmy3.epw.gz", "tmy3-greensboro-nc.csv.gz", "tmy2-miami-fl.tm2.gz",
		"pvgis-tmy-45N-8E.csv.gz", "pvgis-hourly-45N-8E-sample.csv", "pvgis-hourly-45N-8E-sample.json", "surfrad-alamosa-2016-01-01.dat.gz"} {
		s := text(f, name)
		if lines := strings.SplitAfterN(s, "\n", 24); len(lines) == 24 {
			s = strings.Join(lines[:23], "")
		}
		list = append(list, s)
	}
	return append(list, strings.Replace(text(f, "pvgis-hourly-45N-8E-sample.csv"), "Slope: 30", "Slope: 0", 1))
}
