package cell

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
)

// column reads one numeric column of a CSV file with a header.
func column(t *testing.T, path, name string) []float64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var values []float64
	for k, head := range rows[0] {
		if head != name {
			continue
		}
		for _, row := range rows[1:] {
			v, err := strconv.ParseFloat(row[k], 64)
			if err != nil {
				t.Fatal(err)
			}
			values = append(values, v)
		}
	}
	if len(values) == 0 {
		t.Fatalf("%s has no column %s", path, name)
	}
	return values
}

// TestEveryCurveFollowsItsPublishedTable reads each published table point by
// point: 2 mV, where 10 mV are asked.
func TestEveryCurveFollowsItsPublishedTable(t *testing.T) {
	tables := map[string]string{
		"nca": "ocv-nca-kim2011.csv", "nmc532": "ocv-nmc532-mohtat2020.csv", "nmc811": "ocv-nmc811-chen2020.csv",
		"nmc811-21700": "ocv-nmc811-21700-sunil2025.csv", "nickel-rich-18650": "ocv-nickel-rich-18650-sunil2025.csv",
		"nickel-rich-21700-a": "ocv-nickel-rich-21700-a-sunil2025.csv", "nickel-rich-21700-b": "ocv-nickel-rich-21700-b-sunil2025.csv",
		"nco-pouch": "ocv-nco-ecker2015.csv", "lmo-blend-pouch": "ocv-lmo-blend-pouch-33ah.csv",
		"lfp": "ocv-lfp-18650-sunil2025.csv", "lfp-prada": "ocv-lfp-prada2013.csv",
		"lead-acid-flooded": "ocv-lead-acid-12v.csv", "lead-acid-agm": "ocv-lead-acid-12v.csv",
	}
	for _, name := range Names() {
		t.Run(name, func(t *testing.T) {
			path := shared.Path(t, "reference/"+tables[name])
			c, cells := find(t, name), 1.0
			if c.Family == LeadAcid {
				cells = 6
			}
			soc, volt := column(t, path, "soc_fraction"), column(t, path, "voltage_v")
			for k := range soc {
				near.Equal(t, "volts at "+text(soc[k], ""), c.Curve.Voltage(soc[k]), volt[k]/cells, 0.002)
			}
		})
	}
}

// TestCurvesAgainstAnIndependentMeasurement states how far two library curves
// lie from a measurement by others of the same kind of cell. It must not be more
// than the doubt the library admits.
func TestCurvesAgainstAnIndependentMeasurement(t *testing.T) {
	path := shared.Path(t, "data/battery/lgm50-ocv-25c.csv")
	percent, volt := column(t, path, "soc_pct"), column(t, path, "ocv_v")
	for _, name := range []string{"nmc811", "nmc811-21700"} {
		c := find(t, name)
		sum, worst, n := 0.0, 0.0, 0.0
		for k := range percent {
			if percent[k] < 5 || percent[k] > 98 {
				continue
			}
			d := math.Abs(c.Curve.Voltage(percent[k]/100) - volt[k])
			sum, worst, n = sum+d, max(worst, d), n+1
		}
		t.Logf("%s: %.0f mV on average, %.0f mV at most", name, 1e3*sum/n, 1e3*worst)
		if sum/n > c.RestDoubtV.Value+0.003 {
			t.Errorf("%s lies %.0f mV away on average, the library admits %.0f mV", name, 1e3*sum/n, 1e3*c.RestDoubtV.Value)
		}
	}
}

func TestEveryCurveFileNamesItsSource(t *testing.T) {
	files, err := curveFiles.ReadDir("curves")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		text, err := curveFiles.ReadFile("curves/" + f.Name())
		if err != nil {
			t.Fatal(err)
		}
		first, rest, _ := strings.Cut(string(text), "\n")
		if !strings.HasPrefix(first, "# ") || len(first) < 40 {
			t.Errorf("%s starts with %q", f.Name(), first)
		}
		if !strings.HasPrefix(rest, "soc_fraction,voltage_v\n") {
			t.Errorf("%s has no header", f.Name())
		}
	}
}
