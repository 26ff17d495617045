package start

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
	"sync"

	"ampstead/quantity"
	"ampstead/weather"
	"ampstead/weather/climate"
)

// place is where the vehicle stays for half a year.
type place struct {
	name                string
	latitude, longitude float64
	elevation           float64 // m, NaN when not known
	climate             weather.Monthly
}

// region is a place for those who do not want to name one.
type region struct {
	value, label, note             string
	latitude, longitude, elevation float64
}

var regions = []region{
	{"south-iberia", "Southern coast of Iberia", "reckoned at 37.1 °N", 37.1, -7.7, 20},
	{"mediterranean", "Northern shore of the Mediterranean", "reckoned at 43.6 °N", 43.6, 4.2, 20},
	{"mid-europe", "Middle of Europe", "reckoned at 49.5 °N, 250 m up", 49.5, 9, 250},
	{"isles", "Britain and Ireland", "reckoned at 53 °N", 53, -2.5, 60},
	{"south-nordic", "South of Scandinavia", "reckoned at 58.5 °N", 58.5, 13, 60},
	{"far-north", "Far north of Scandinavia", "reckoned at 68.4 °N", 68.4, 17.5, 40},
	{"desert-southwest", "Desert south-west of North America", "reckoned at 33 °N", 33, -114, 100},
	{"rockies", "High country of the Rockies", "reckoned at 44.6 °N, 1800 m up", 44.6, -110.8, 1800},
	{"south-australia", "Southern Australia", "reckoned at 35 °S", -35, 139, 50},
}

func regionChoices() []Choice {
	list := make([]Choice, len(regions))
	for i, r := range regions {
		list[i] = Choice{r.value, r.label, r.note}
	}
	return list
}

// found remembers places that were looked up, for every page of a conversation
// reads all its answers again.
var found = struct {
	sync.Mutex
	places map[string]known
}{places: map[string]known{}}

type known struct {
	place  *place // never changed
	answer string
}

// mostFound is how many places are remembered before all are forgotten.
const mostFound = 200

// findPlace reads a place and returns it with the answer that finds it again.
func findPlace(text string) (*place, string, error) {
	found.Lock()
	k, ok := found.places[text]
	found.Unlock()
	if ok {
		return k.place, k.answer, nil
	}
	p, answer, err := lookUp(text)
	if err != nil {
		return nil, "", err
	}
	found.Lock()
	defer found.Unlock()
	if len(found.places) >= mostFound {
		clear(found.places)
	}
	found.places[text] = known{p, answer}
	return p, answer, nil
}

// lookUp reads a place: a region, a weather station by name or code, or
// latitude and longitude.
func lookUp(text string) (*place, string, error) {
	for _, r := range regions {
		if strings.EqualFold(text, r.value) || strings.EqualFold(text, r.label) {
			p, err := placeAt(r.label, r.latitude, r.longitude, r.elevation)
			return p, r.value, err
		}
	}
	if lat, lon, ok, err := coordinates(text); ok || err != nil {
		if err != nil {
			return nil, "", err
		}
		p, err := placeAt("", lat, lon, climate.Unknown)
		return p, text, err
	}
	s, err := station(text)
	if err != nil {
		return nil, "", err
	}
	p, err := placeAt("near "+s.Name, s.Latitude, s.Longitude, s.Elevation)
	if same, failed := station(s.Name); failed == nil && same.Code == s.Code {
		return p, s.Name, err
	}
	return p, s.Code, err // another place bears its name
}

func placeAt(name string, lat, lon, elevation float64) (*place, error) {
	m, err := climate.At(lat, lon, elevation)
	if err != nil {
		return nil, &Problem{Message: "there is no climate for this place", Expected: "a place on land, from 60° south to 84° north"}
	}
	p := &place{name: name, latitude: lat, longitude: lon, elevation: elevation, climate: m}
	if name == "" {
		p.name = p.where()
	}
	return p, nil
}

// where is the position as one reads it.
func (p *place) where() string {
	return quantity.DegreesNorth.Text(math.Round(p.latitude*100)/100, quantity.Metric) + " " +
		quantity.DegreesEast.Text(math.Round(p.longitude*100)/100, quantity.Metric)
}

var (
	withLetters = regexp.MustCompile(`(?i)^([0-9.]+ ?°? ?[NS])[ ,;]+([0-9.]+ ?°? ?[EW])$`)
	withSigns   = regexp.MustCompile(`^([-+]?[0-9.]+) ?°?[ ,;]+([-+]?[0-9.]+) ?°?$`)
)

// coordinates reads latitude and longitude; ok is false when the text is
// something else.
func coordinates(text string) (lat, lon float64, ok bool, err error) {
	parts := withLetters.FindStringSubmatch(strings.ToUpper(text))
	if parts == nil {
		if parts = withSigns.FindStringSubmatch(text); parts == nil {
			return 0, 0, false, nil
		}
		parts[1], parts[2] = parts[1]+" °", parts[2]+" °"
	}
	if lat, err = amount(quantity.DegreesNorth, parts[1], -90, 90); err != nil {
		return 0, 0, false, err
	}
	lon, err = amount(quantity.DegreesEast, parts[2], -180, 180)
	return lat, lon, err == nil, err
}

// station finds the one weather station that is meant.
func station(text string) (climate.Place, error) {
	list, err := climate.Find(text)
	if err != nil {
		return climate.Place{}, err
	}
	var whole []climate.Place
	for _, p := range list {
		if strings.EqualFold(p.Name, text) || strings.EqualFold(p.Code, text) {
			whole = append(whole, p)
		}
	}
	switch {
	case len(whole) == 1:
		return whole[0], nil
	case len(list) == 1:
		return list[0], nil
	case len(list) == 0:
		return climate.Place{}, &Problem{Message: fmt.Sprintf("no weather station is called %.60q", text),
			Expected: "a larger town nearby, one of the choices, or latitude and longitude", Example: "37.2 °N 7.4 °W"}
	}
	bad := &Problem{Message: fmt.Sprintf("several places are called %.60q", text), Expected: "one of these, or its code"}
	for _, p := range list[:min(len(list), 8)] {
		bad.Perhaps = append(bad.Perhaps, Choice{Value: p.Code, Label: p.Name})
	}
	return climate.Place{}, bad
}

// rare is how many standard deviations beyond the mean of its month a day is
// taken that comes in most winters or summers; common practice, no source.
const rare = 2.5

// coldNight is how cold the air gets in some months in most years: the mean of
// the coldest month, less half its daily range, less a rare day, °C, rounded
// down.
func (p *place) coldNight(months []int) float64 {
	low := math.Inf(1)
	for _, i := range months {
		m := p.climate.Months[i-1]
		low = math.Min(low, m.TempC-m.RangeK/2-rare*m.DayK)
	}
	return math.Max(-60, math.Floor(low))
}

// hotDay is how warm the air gets, °C, rounded up.
func (p *place) hotDay(months []int) float64 {
	high := math.Inf(-1)
	for _, i := range months {
		m := p.climate.Months[i-1]
		high = math.Max(high, m.TempC+m.RangeK/2+rare*m.DayK)
	}
	return math.Min(60, math.Ceil(high))
}

// The two halves of the year, as months; south of the equator they change
// places.
var october, april = []int{10, 11, 12, 1, 2, 3}, []int{4, 5, 6, 7, 8, 9}

func (p *place) winterMonths() []int {
	if p.latitude < 0 {
		return april
	}
	return october
}

func (p *place) summerMonths() []int {
	if p.latitude < 0 {
		return october
	}
	return april
}

// isProblem reports whether an error is an answer's, not the program's.
func isProblem(err error) bool { return errors.As(err, new(*Problem)) }
