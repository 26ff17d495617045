package synthetic

import (
	"testing"

	"ampstead/weather"
	"ampstead/weather/climate"
)

func inverness(t testing.TB) weather.Monthly { return at(t, 57.5, -4.2, 30) }

func at(t interface{ Fatal(...any) }, lat, lon, elevation float64) weather.Monthly {
	m, err := climate.At(lat, lon, elevation)
	if err != nil {
		t.Fatal(err)
	}
	return m
}
