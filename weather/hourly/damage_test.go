package hourly

import (
	"fmt"
	"strings"
	"testing"
)

// Each damage is found on its line.
func TestDamage(t *testing.T) {
	replace := func(old, by string) func(string) string {
		return func(s string) string { return strings.Replace(s, old, by, 1) }
	}
	drop := func(string) string { return "" }
	field := func(n int, by string) func(string) string {
		return func(s string) string {
			f := strings.Split(s, ",")
			f[n] = by
			return strings.Join(f, ",")
		}
	}
	tests := []struct {
		file, name string
		line       int
		by         func(string) string
		at         int
		message    string
	}{
		{"epw-chicago-tmy3.epw.gz", "row left out", 100, drop, 100, "the row is of month 1 day 4 hour 20"},
		{"epw-chicago-tmy3.epw.gz", "row cut", 5000, func(s string) string { return s[:60] + "\n" }, 5000, "fields"},
		{"epw-chicago-tmy3.epw.gz", "not a number", 4000, field(13, "abc"), 4000, `global irradiance is "abc"`},
		{"epw-chicago-tmy3.epw.gz", "not finite", 4000, field(13, "NaN"), 4000, `global irradiance is "NaN"`},
		{"epw-chicago-tmy3.epw.gz", "light missing", 4000, field(14, "9999"), 4000, "irradiance is missing"},
		{"epw-chicago-tmy3.epw.gz", "too bright", 4000, field(13, "2100"), 4000, "global irradiance is 2100"},
		{"epw-chicago-tmy3.epw.gz", "too hot", 4000, field(6, "84"), 4000, "temperature is 84"},
		{"epw-chicago-tmy3.epw.gz", "no latitude", 1, field(6, ""), 1, "latitude"},
		{"epw-chicago-tmy3.epw.gz", "latitude", 1, field(6, "99"), 1, "latitude is 99"},
		{"epw-chicago-tmy3.epw.gz", "last row", 8768, drop, 8767, "ends before the year"},
		{"epw-chicago-tmy3.epw.gz", "row too much", 8768, func(s string) string { return s + "1986,13,1,1,0,\n" }, 8769, "the year is over"},
		{"tmy3-greensboro-nc.csv.gz", "month", 3, replace("01/01/1988", "13/01/1988"), 3, "month 13"},
		{"tmy3-greensboro-nc.csv.gz", "no column", 2, replace("GHI (W/m^2)", "GHJ"), 2, "none"},
		{"tmy3-greensboro-nc.csv.gz", "one field", 77, func(string) string { return "x\n" }, 77, "one field"},
		{"tmy3-greensboro-nc.csv.gz", "minutes", 3, replace("01:00", "01:30"), 3, "minute is 30"},
		{"tmy2-miami-fl.tm2.gz", "short", 1234, func(s string) string { return s[:50] + "\n" }, 1234, "has 50"},
		{"tmy2-miami-fl.tm2.gz", "letters", 1234, func(s string) string { return s[:17] + "x" + s[18:] }, 1234, "global irradiance"},
		{"tmy2-miami-fl.tm2.gz", "header", 1, replace("N 25", "Q 25"), 1, "position is Q"},
		{"pvgis-tmy-45N-8E.csv.gz", "gap", 1000, drop, 1000, "the row is of"},
		{"pvgis-tmy-45N-8E.csv.gz", "time", 1000, replace(":", "-"), 1000, "the time is"},
		{"pvgis-tmy-45N-8E.csv.gz", "offset", 4, replace("0.1761", "7"), 4, "is 7"},
		{"surfrad-alamosa-2016-01-01.dat.gz", "gap", 700, drop, 700, "does not follow"},
		{"surfrad-alamosa-2016-01-01.dat.gz", "end", 1442, drop, 1441, "1439 minutes into a day"},
	}
	texts := map[string]string{}
	for _, tt := range tests {
		t.Run(tt.file[:4]+" "+tt.name, func(t *testing.T) {
			if texts[tt.file] == "" {
				texts[tt.file] = text(t, tt.file)
			}
			e := refused(t, change(texts[tt.file], tt.line, tt.by))
			if e.Line != tt.at || !strings.Contains(e.Message, tt.message) || e.File != "x" {
				t.Errorf("%v; want line %d and %q", e, tt.at, tt.message)
			}
		})
	}
}

// JSON has line numbers too.
func TestDamagedJSON(t *testing.T) {
	row := func(hour int, light string) string {
		return fmt.Sprintf(`{"time(UTC)": "20180101:%02d00", "T2m": 1, "G(h)": %s, "Gb(n)": 0, "Gd(h)": 0, "WS10m": 1}`, hour, light)
	}
	doc := func(rows ...string) string {
		return "{\"inputs\": {\"location\": {\"latitude\": 45, \"longitude\": 8}},\n\"outputs\": {\"tmy_hourly\": [\n" + strings.Join(rows, ",\n") + "\n]}}"
	}
	tests := []struct {
		text    string
		line    int
		message string
	}{
		{doc(row(0, "0"), row(1, "5000")), 4, "global irradiance is 5000"},
		{doc(row(0, "0"), row(2, "0")), 4, "the row is of"},
		{doc(row(0, "null")), 3, "irradiance is missing"},
		{doc(row(0, `"a"`)), 3, "hour 1"},
		{doc(row(0, "0")), 3, "ends before the year"},
		{doc(row(0, "0"))[:100], 3, "unexpected end"},
		{doc(), 2, "the file has none"},
		{`{"inputs": {}}`, 0, "no latitude"},
		{`{"inputs": {"location": {"latitude": 45, "longitude": 8}}, "outputs": {"tmy_hourly": {"a": 1}}}`, 1, "not a list"},
		{`{"inputs": {"location": {"latitude": 45, "longitude": 8}}}`, 0, "no hours"},
	}
	for _, tt := range tests {
		if e := refused(t, tt.text); e.Line != tt.line || !strings.Contains(e.Message, tt.message) {
			t.Errorf("%v; want line %d and %q", e, tt.line, tt.message)
		}
	}
}

func TestUnknownFormat(t *testing.T) {
	for _, s := range []string{"", "\n", "hello\nworld\n", "\x1f\x8b broken gzip", strings.Repeat("x", mostLine+1), strings.Repeat("\n", mostLines+1)} {
		refused(t, s)
	}
}

// Short gaps of temperature are bridged and counted, long ones refused.
func TestGaps(t *testing.T) {
	epw := strings.SplitAfter(text(t, "epw-chicago-tmy3.epw.gz"), "\n")
	for _, gap := range []int{longestGap, longestGap + 1} {
		lines := append([]string(nil), epw...)
		for i := range gap {
			f := strings.Split(lines[2000+i], ",")
			f[6] = "99.9"
			lines[2000+i] = strings.Join(f, ",")
		}
		h, err := Read("x", strings.NewReader(strings.Join(lines, "")))
		if gap > longestGap {
			if err == nil || !strings.Contains(err.Error(), "x:2001: temperature is missing") {
				t.Errorf("gap of %d hours: %v", gap, err)
			}
			continue
		}
		if err != nil || !strings.Contains(strings.Join(h.Basis.Notes, ";"), "6 hours of temperature") {
			t.Errorf("gap of %d hours: %v, %v", gap, err, h)
		}
	}
}
