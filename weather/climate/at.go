package climate

import (
	"errors"
	"fmt"
	"math"

	"ampstead/physics/sun"
	"ampstead/source"
	"ampstead/weather"
)

// Lapse is how much colder the standard atmosphere is per metre of height, K/m.
const Lapse = 0.0065

// The errors of At.
var (
	ErrNowhere = errors.New("no such place")
	ErrOpenSea = errors.New("the climate table covers land and coasts from 60° south to 84° north")
)

// Unknown stands for an elevation that is not known.
var Unknown = math.NaN()

// At returns the climate of a place: degrees north and east, metres above the
// sea. An elevation of Unknown takes the terrain's mean around it, which in
// mountains is not that of a road.
//
// Irradiation is interpolated between cells of 1° (22-year means 1983-2005),
// temperature between nodes of 2.5° (1981-2010) and brought to the elevation by
// Lapse. Estimate adds ranges and spreads. Errors: ErrNowhere, ErrOpenSea.
func At(lat, lon, elevation float64) (weather.Monthly, error) {
	if !(math.Abs(lat) <= 90) || !(math.Abs(lon) <= 360) {
		return weather.Monthly{}, fmt.Errorf("latitude %g°, longitude %g°: %w", lat, lon, ErrNowhere)
	}
	if elevation < -450 || elevation > 9000 {
		return weather.Monthly{}, fmt.Errorf("elevation %g m: %w", elevation, ErrNowhere)
	}
	g, err := unpack()
	if err != nil {
		return weather.Monthly{}, err
	}
	m := weather.Monthly{Place: sun.Place{Latitude: lat, Longitude: lon, Elevation: elevation}}
	if !g.readLight(&m) {
		return weather.Monthly{}, fmt.Errorf("latitude %g°, longitude %g°: %w", lat, lon, ErrOpenSea)
	}
	g.readAir(&m)
	m.DoubtGHI, m.DoubtK = doubtGHI, doubt(&m)
	m.Basis = basis(math.IsNaN(elevation))
	Estimate(&m)
	return m, nil
}

// doubtGHI is how far irradiation may be off, from the six stations of
// docs/weather.md.
const doubtGHI = 0.07

// doubt is how far temperature may be off, K, from that page's table by climate:
// more where winters are cold, which the reanalysis has too mild, and high up.
func doubt(m *weather.Monthly) float64 {
	coldest := m.Months[0].TempC
	for _, v := range m.Months {
		coldest = min(coldest, v.TempC)
	}
	switch {
	case m.Place.Elevation > 1500:
		return 3.5
	case coldest < -3:
		return 3
	}
	return 2
}

// readLight reads irradiation and land, false when there is none around.
func (g grids) readLight(m *weather.Monthly) bool {
	lat, lon := m.Place.Latitude, m.Place.Longitude
	if lat < g.light.South-1 || lat > g.light.South+float64(g.light.Rows) {
		return false
	}
	around := g.light.Around(lat, lon)
	for i := range m.Months {
		v, weight := g.light.Layers[i].At(around)
		if weight == 0 {
			return false
		}
		m.Months[i].GHI = v
	}
	land, weight := g.light.Layers[landLayer].At(around)
	m.Inland = inland(land * weight) // cells left out of the table are sea
	return true
}

// inland turns the share of land around a place into 0 at the coast to 1 inland.
func inland(land float64) float64 {
	const coast, interior = 0.75, 1.0
	return max(0, min(1, (land-coast)/(interior-coast)))
}

// readAir reads temperatures at the place's elevation.
func (g grids) readAir(m *weather.Monthly) {
	around := g.air.Around(m.Place.Latitude, m.Place.Longitude)
	terrain, _ := g.air.Layers[terrainLayer].At(around)
	if math.IsNaN(m.Place.Elevation) {
		m.Place.Elevation = math.Round(terrain)
	}
	for i := range m.Months {
		t, _ := g.air.Layers[i].At(around)
		m.Months[i].TempC = t - Lapse*(m.Place.Elevation-terrain)
	}
}

func basis(elevationUnknown bool) weather.Basis {
	b := weather.Basis{
		Kind: weather.Table, Name: "built-in climate table",
		Years: "irradiation 1983-2005, temperature 1981-2010",
		Sources: []source.Source{source.ClimateGHI, source.ClimateTemperature, source.Terrain, source.LapseRate, source.FAO56,
			source.TemperatureRule, source.SpreadRule, source.ClimateDoubt},
		Notes: []string{"the daily range of temperature is estimated from the sun, the spreads from published persistence"},
	}
	if elevationUnknown {
		b.Notes = append(b.Notes, "the elevation is the mean of the terrain around")
	}
	return b
}
