package travel

import (
	"os"
	"strconv"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
	q "ampstead/quantity"
	"ampstead/weather/hourly"
)

// A year from an hourly file onto a plane agrees with the reference sums within
// 1 %: the same light that is stepped, without glass, shade and losses.
func TestPlaneSumsOfFiles(t *testing.T) {
	files := map[string]string{"tmy3-greensboro": "tmy3-greensboro-nc.csv.gz", "epw-chicago": "epw-chicago-tmy3.epw.gz"}
	for _, row := range shared.Rows(t, "data/weather/reference-year-sums.csv") {
		file := files[row["file"]]
		if file == "" {
			continue
		}
		f, err := os.Open(shared.Path(t, "data/weather/"+file))
		if err != nil {
			t.Fatal(err)
		}
		hours, err := hourly.Read(file, f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		r := bare(t)
		r.Route[0].Tilt, r.Route[0].Facing = quantityOf[q.Angle](number(t, row["tilt_deg"])), quantityOf[q.Angle](number(t, row["facing_deg"]))
		s := ready(t, r, Options{Weather: hours})
		l := newLight()
		l.fillThrough(s.route, s.skies.year(0), func(float64) float64 { return 1 })
		sum := 0.0
		for _, w := range l.plane {
			sum += float64(w) / 60e3 / afterLosses
		}
		near.Relative(t, row["file"]+", "+row["surface"], sum, number(t, row["poa_perez"]), 0.01)
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
