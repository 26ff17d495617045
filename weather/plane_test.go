package weather_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
	"ampstead/physics/panel"
	"ampstead/physics/sun"
	"ampstead/weather"
	"ampstead/weather/hourly"
)

// The files of the stations.
var stationFiles = map[string]string{
	"tmy3-greensboro":  "tmy3-greensboro-nc.csv.gz",
	"tmy3-sand-point":  "tmy3-sand-point-ak.csv.gz",
	"tm2-miami":        "tmy2-miami-fl.tm2.gz",
	"epw-chicago":      "epw-chicago-tmy3.epw.gz",
	"epw-santiago":     "epw-santiago-tmyx.epw.gz",
	"pvgis-tmy-45N-8E": "pvgis-tmy-45N-8E.csv.gz",
}

// readOnce keeps what hoursOf has read; nothing changes it.
var readOnce = map[string]*weather.Hours{}

func hoursOf(t testing.TB, key string) *weather.Hours {
	t.Helper()
	if h := readOnce[key]; h != nil {
		return h
	}
	f, err := os.Open(shared.Path(t, "data/weather/"+stationFiles[key]))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	h, err := hourly.Read(stationFiles[key], f)
	if err != nil {
		t.Fatal(err)
	}
	readOnce[key] = h
	return h
}

// planeSum returns the irradiation of a year on a plane in kWh/m², in steps of
// a part of an hour.
func planeSum(h *weather.Hours, tilt, facing float64, steps int) float64 {
	plane := panel.NewPlane(tilt, facing)
	fine := weather.NewFine(h, 1)
	ups, lights := make([]float64, steps), make([]sun.Irradiance, steps)
	suns := make([]sun.Direction, steps)
	total, step := 0.0, 3600/float64(steps)
	day := sun.NewDay(h.Start, h.Place)
	for d := range h.Len() / 24 {
		walk := day.Walk(step/2, step)
		normal := sun.Extraterrestrial(h.Start.Add((float64(d)+0.5)*86400).DayOfYear(), sun.SolarConstant)
		for i := range 24 {
			for j := range ups {
				suns[j] = walk.Next()
				ups[j] = suns[j].Up
			}
			fine.Hour(24*d+i, ups, normal, lights)
			for j, l := range lights {
				sky := panel.Sky{Sun: suns[j], Light: l, Normal: normal, AirMass: sun.QuickAirMass(ups[j]), Albedo: 0.2}
				total += plane.Perez(&sky).Total() * step / 3600
			}
		}
		day = day.Next(h.Place)
	}
	return total / 1000
}

// Files by the minute, spells of sun and all, agree with the sums an independent
// program computed from the hours.
func TestPlaneSums(t *testing.T) {
	f, err := os.Open(shared.Path(t, "data/weather/reference-year-sums.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	num := func(row []string, i int) float64 {
		v, err := strconv.ParseFloat(row[i], 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, row := range rows[1:] {
		if stationFiles[row[0]] == "" {
			t.Fatalf("no file for %s", row[0])
		}
		got := planeSum(hoursOf(t, row[0]), num(row, 16), num(row, 17), 6)
		near.Relative(t, row[0]+" "+row[15], got, num(row, 20), 0.01)
	}
}
