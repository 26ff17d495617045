package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ampstead/internal/golden"
	q "ampstead/quantity"
	"ampstead/travel"
)

// frosty is a year like that of the drafted example rig: short in winter, with
// charge lost to frost.
func frosty() *travel.Result {
	res := &travel.Result{Bands: travel.Bands{Years: 20, UnservedHours: travel.Range{Low: 210, Middle: 330, High: 512}}}
	res.Stays = []travel.Stay{
		{Name: "Salt marsh", From: "2026-11-01", To: "2027-02-20", Latitude: 37.2, Longitude: -7.4, Days: 112, SoCMin: 0.03},
		{Name: "Beech wood", From: "2027-02-21", To: "2027-06-05", Latitude: 50.1, Longitude: 5.6, Days: 105, SoCMin: 0.42},
		{Name: "Fjord head", From: "2027-06-06", To: "2027-10-31", Latitude: 68.4, Longitude: 17.3, Days: 148, SoCMin: 0.2},
	}
	for m := range 12 {
		res.Months = append(res.Months, travel.Month{Month: m + 1})
	}
	first := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)
	for d := range 365 {
		res.Days = append(res.Days, frostyDay(first.AddDate(0, 0, d), d))
		addDay(res, int(first.AddDate(0, 0, d).Month())-1, res.Days[d])
	}
	res.Year.BankTempMin = -3
	for i, hours := range []float64{-212, -96, -41.2, 0.2, 17} {
		res.Limits = append(res.Limits, travel.Limit{Change: []string{"panels tilted to the noon sun", "100 W more panel", "one module more", "25 mm more insulation", "the widest window that fits"}[i], Years: 3, UnservedHours: hours, Unserved: 500 * hours})
	}
	res.Span = someDays(7)
	return res
}

func frostyDay(date time.Time, d int) travel.Day {
	season := 0.5 - 0.5*math.Cos(2*math.Pi*float64(d+10)/365)
	wobble := 0.5 + 0.3*math.Sin(1.7*float64(d)) + 0.2*math.Sin(0.61*float64(d)+1)
	day := travel.Day{Date: date.Format(time.DateOnly), Place: "Salt marsh", Load: 1980, SunOffered: 900 + 3600*season + 900*wobble}
	switch {
	case d > 50 && d <= 155:
		day.Place = "Beech wood"
	case d > 155 && d <= 303:
		day.Place = "Fjord head"
	}
	day.AirLow, day.AirHigh = -6+14*season+3*wobble, 3+17*season+6*wobble
	day.TempLow, day.TempHigh = day.AirLow+2, day.AirHigh-2
	day.SunCaught = math.Min(day.SunOffered, 2300)
	if day.TempLow < 0 {
		day.LostFrost = 0.6 * day.SunOffered
		day.SunCaught = 0.3 * day.SunOffered
	}
	day.SoCLow = math.Max(0.03, 0.2+0.6*season+0.25*(wobble-0.5))
	day.SoCHigh = math.Min(0.91, day.SoCLow+0.2)
	day.SoCBandLow, day.SoCBandHigh = math.Max(0, day.SoCLow-0.12), math.Min(0.92, day.SoCHigh+0.1)
	if day.SoCLow < 0.1 {
		day.Unserved = 700 * wobble
	}
	return day
}

func addDay(res *travel.Result, month int, d travel.Day) {
	one := travel.Energies{SunOffered: d.SunOffered, SunCaught: 0.96 * d.SunCaught, Conversion: 0.04 * d.SunCaught, LostFrost: d.LostFrost,
		LostFull: math.Max(0, d.SunOffered-d.SunCaught-d.LostFrost), Load: d.Load, Served: d.Load - d.Unserved, Unserved: d.Unserved}
	if month == 3 {
		one.Mains, one.Alternator = 700, 40
	}
	for _, e := range []*travel.Energies{&res.Months[month].Energies, &res.Year.Energies} {
		e.SunOffered += one.SunOffered
		e.SunCaught += one.SunCaught
		e.Conversion += one.Conversion
		e.LostFrost += one.LostFrost
		e.LostFull += one.LostFull
		e.Load += one.Load
		e.Served += one.Served
		e.Unserved += one.Unserved
		e.Mains += one.Mains
		e.Alternator += one.Alternator
	}
}

func someDays(days int) *travel.Span {
	s := &travel.Span{From: "01-12", StepS: 600}
	for i := range days * 144 {
		hour := float64(i%144) / 6
		sun := math.Max(0, 700*math.Sin(math.Pi*(hour-7)/10))
		load := 30.0
		if i%144 > 110 && i%144 < 116 {
			load = 1400
		}
		s.SoC = append(s.SoC, 0.45+0.2*math.Sin(float64(i)/90))
		s.TempC, s.AirC = append(s.TempC, 3+4*math.Sin(float64(i)/140)), append(s.AirC, 2+7*math.Sin(float64(i)/23))
		s.OfferW, s.SunW, s.LoadW = append(s.OfferW, sun), append(s.SunW, 0.7*sun), append(s.LoadW, load)
		s.BankV = append(s.BankV, 44)
	}
	return s
}

// tripDrawings draws every picture of a year and returns canvases and heights.
func tripDrawings(res *travel.Result, o Options) (canvases []*canvas, heights []float64) {
	add := func(c *canvas, h float64) { canvases, heights = append(canvases, c), append(heights, h) }
	add(year(res, curlew(), o))
	add(months(res, o))
	add(week(res, curlew(), o))
	add(route(res, o))
	add(gains(res, o))
	return canvases, heights
}

func tripTexts(res *travel.Result, o Options) []string {
	return []string{Year(res, curlew(), o), Months(res, o), Week(res, curlew(), o), Route(res, o), Gains(res, o)}
}

func TestTripGolden(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for i, svg := range tripTexts(frosty(), Options{Width: width, Pick: "/travel"}) {
			golden.Check(t, fmt.Sprintf("frosty-%s-%d.svg", []string{"year", "months", "week", "route", "gains"}[i], width), []byte(svg))
		}
	}
}

func TestTripIsLegible(t *testing.T) {
	for _, width := range []int{320, Phone, 600, 859, 860, Desk, 1600} {
		for _, days := range []int{1, 2, 7, 31} {
			res := frosty()
			res.Span = someDays(days)
			canvases, heights := tripDrawings(res, Options{Width: width, Units: q.US})
			for i, c := range canvases {
				if said := overlapping(c, heights[i]); said != "" {
					t.Errorf("%s of %d days: %s", c.id, days, said)
				}
			}
		}
	}
}

func TestTripMarkup(t *testing.T) {
	for _, width := range []int{Desk, Phone} {
		for _, svg := range tripTexts(frosty(), Options{Width: width, Pick: "/travel"}) {
			if found := colour.FindString(svg); found != "" {
				t.Errorf("colour or style %q in the drawing", found)
			}
			checkXML(t, svg)
			checkClasses(t, svg)
			if n := len(svg); n > 48<<10 {
				t.Errorf("%d bytes", n)
			}
		}
	}
}

// anyTrip draws a year as odd as may come: few days or none, places that change
// daily, values beyond every bound.
func anyTrip(t *rapid.T) *travel.Result {
	num := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	res := &travel.Result{Bands: travel.Bands{Years: rapid.IntRange(0, 40).Draw(t, "years")}}
	for i := range rapid.IntRange(0, 8).Draw(t, "stays") {
		res.Stays = append(res.Stays, travel.Stay{Name: anyName(t), From: "2026-11-01", To: "no date", Days: i,
			Latitude: num(-90, 90, "latitude"), Longitude: num(-180, 180, "longitude"), Energies: travel.Energies{SunOffered: num(0, 1e6, "sun")}, SoCMin: num(-0.2, 1, "soc")})
	}
	first := time.Date(2027, time.Month(rapid.IntRange(1, 12).Draw(t, "month")), 1, 0, 0, 0, 0, time.UTC)
	place := ""
	for d := range rapid.SampledFrom([]int{0, 1, 2, 9, 59, 365}).Draw(t, "days") {
		if len(res.Stays) > 0 && d%29 == 0 {
			place = rapid.SampledFrom(res.Stays).Draw(t, "stay").Name
		}
		day := frostyDay(first.AddDate(0, 0, d), d)
		day.Place, day.Unserved, day.AirLow = place, day.Unserved*9, day.AirLow-30
		res.Days = append(res.Days, day)
	}
	for m := range rapid.IntRange(0, 12).Draw(t, "months") {
		e := travel.Energies{}
		for _, v := range []*float64{&e.SunCaught, &e.LostFull, &e.LostFrost, &e.LostLimit, &e.LostStopped, &e.Conversion, &e.Mains, &e.Alternator, &e.Load, &e.Unserved} {
			if rapid.Bool().Draw(t, "has") {
				*v = num(-10, 1e7, "energy")
			}
		}
		res.Months = append(res.Months, travel.Month{Month: m + 1, Energies: e})
	}
	for range rapid.IntRange(0, 9).Draw(t, "limits") {
		res.Limits = append(res.Limits, travel.Limit{Change: anyName(t), Unserved: num(-9e6, 9e6, "energy"), SoCMin: num(-1, 1, "gain")})
	}
	res.Span = someDays(rapid.IntRange(0, 31).Draw(t, "span"))
	res.Span.StepS = num(-1, 4000, "step")
	return res
}

func TestTripLabelsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		res := anyTrip(t)
		o := Options{Width: rapid.IntRange(300, 1400).Draw(t, "width"), Units: q.System(rapid.IntRange(0, 1).Draw(t, "units"))}
		canvases, heights := tripDrawings(res, o)
		for i, c := range canvases {
			if said := overlapping(c, heights[i]); said != "" {
				t.Fatalf("%s: %s", c.id, said)
			}
		}
	})
}

func TestEmptyTrip(t *testing.T) {
	for _, svg := range tripTexts(&travel.Result{}, Options{}) {
		checkXML(t, svg)
	}
}

// What is drawn must be what was reckoned: the ribbon's lowest point, the energy
// of the longest bar, and a wide press for each week.
func TestTripSaysItsNumbers(t *testing.T) {
	res := frosty()
	res.Days[40].SoCLow = 0.011
	svg := Year(res, curlew(), Options{Pick: "/travel"})
	for _, want := range []string{"lowest 1 % on 10 Feb", `href="/travel?from=01-08&amp;days=7#week"`, "no charging below 0 °C", "8 years in 10"} {
		if !strings.Contains(svg, want) {
			t.Errorf("the year does not say %q", want)
		}
	}
	if svg = Gains(res, Options{}); !strings.Contains(svg, "106 kWh less") || !strings.Contains(svg, "9 kWh more") {
		t.Errorf("the gains do not say their energy")
	}
	for i := range res.Limits {
		res.Limits[i].Unserved, res.Limits[i].SoCMin = 0, 0.06
	}
	if svg = Gains(res, Options{}); !strings.Contains(svg, "6 points higher") {
		t.Error("without energy to save the gains do not say the charge")
	}
	if svg = Months(res, Options{}); strings.Contains(svg, "charger&#39;s limit") {
		t.Error("a loss that does not occur has a label")
	}
}

func BenchmarkYear(b *testing.B) {
	res, set := frosty(), curlew()
	for b.Loop() {
		Year(res, set, Options{})
	}
}

func BenchmarkMonths(b *testing.B) {
	res := frosty()
	for b.Loop() {
		Months(res, Options{})
	}
}

func BenchmarkWeek(b *testing.B) {
	res, set := frosty(), curlew()
	for b.Loop() {
		Week(res, set, Options{})
	}
}

func BenchmarkRoute(b *testing.B) {
	res := frosty()
	for b.Loop() {
		Route(res, Options{})
	}
}

func BenchmarkGains(b *testing.B) {
	res := frosty()
	for b.Loop() {
		Gains(res, Options{})
	}
}
