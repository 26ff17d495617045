package weather_test

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"ampstead/internal/golden"
	"ampstead/internal/shared"
	"ampstead/source"
	"ampstead/weather"
	"ampstead/weather/climate"
	"ampstead/weather/synthetic"
)

const docsHead = `# Weather

What the built-in climate, the synthetic hours and the hourly files rest on, and
how far they are off. This page is written by ` + "`go test ./weather -run Docs -update`" + `;
do not edit it.

Every result says which of these it rests on. A file of your own beats the
table; the table beats a guess.

## The climate table

Monthly means of global horizontal irradiation (cells of 1°, July 1983 to June
2005) and of temperature (nodes of 2.5°, 1981 to 2010), interpolated between the
four nearest, temperature brought to the place's elevation by 6.5 K per km. The
terrain the temperatures belong to is a smooth stand-in. ` + "`weather/climate/derive`" + `
makes the table from the published grids.

The daily range of temperature is (K/k)², K being the clearness index of the
month and k 0.16 inland to 0.19 at the coast. The spread of a month's mean
between years is that of the mean of as many days with the published day-to-day
spread and persistence: some 4 to 11 % of the sun, 0.5 to 2.5 K. Besides that
the table itself may be off: allow for 7 % of the sun and 2 K, 3 K where the
coldest month is below -3 °C, 3.5 K above 1500 m.
`

// TestDocs keeps docs/weather.md true.
func TestDocs(t *testing.T) {
	d := &docs{}
	d.WriteString(docsHead)
	d.stationErrors(t)
	d.climateErrors(t)
	d.generator(t)
	d.files(t)
	d.sources()
	golden.Check(t, "../../docs/weather.md", d.Bytes())
}

type docs struct{ bytes.Buffer }

func (d *docs) line(format string, a ...any) { fmt.Fprintf(d, format+"\n", a...) }

// worst is the value farthest from zero.
func worst(v []float64) float64 {
	return slices.MaxFunc(v, func(a, b float64) int {
		if math.Abs(a) < math.Abs(b) {
			return -1
		}
		return 1
	})
}

func rms(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum / float64(len(v)))
}

func (d *docs) stationErrors(t *testing.T) {
	d.line("\n### Against station files\n\nTable minus file. The files are typical years of other periods, partly modelled, so not all of")
	d.line("it is the table's error.\n")
	d.line("| station | climate | sun, year | worst month | temperature, mean | r.m.s. of months | worst month | daily range, mean | worst month |")
	d.line("|---|---|---|---|---|---|---|---|---|")
	measured := targets(t)
	var sun, temp, span []float64
	for _, s := range stations {
		m, err := climate.At(s.lat, s.lon, s.elevation)
		if err != nil {
			t.Fatal(err)
		}
		var dg, dt, dr []float64
		year := yearOf(measured[s.key])
		total := 0.0
		for i, v := range measured[s.key] {
			dg = append(dg, 100*(m.Months[i].GHI/1000/v.ghi-1))
			dt = append(dt, m.Months[i].TempC-v.mean)
			dr = append(dr, m.Months[i].RangeK-v.range_)
			total += m.Months[i].GHI / 12e3
		}
		d.line("| %s | %s | %+.1f %% | %+.0f %% | %+.1f K | %.1f K | %+.1f K | %+.1f K | %+.1f K |", s.name, s.kind,
			100*(total/year.ghi-1), worst(dg), average(dt), rms(dt), worst(dt), average(dr), worst(dr))
		sun, temp, span = append(sun, dg...), append(temp, dt...), append(span, dr...)
	}
	d.line("| **all months** | | %+.1f %% mean, %.1f %% r.m.s. | %+.0f %% | %+.1f K | %.1f K | %+.1f K | %+.1f K, r.m.s. %.1f K | %+.1f K |",
		average(sun), rms(sun), worst(sun), average(temp), rms(temp), worst(temp), average(span), rms(span), worst(span))
}

// kindOf classes a climate by its months' temperatures.
func kindOf(months [12]float64, elevation float64) string {
	low, high := slices.Min(months[:]), slices.Max(months[:])
	switch {
	case elevation > 1500:
		return "above 1500 m"
	case low >= 18:
		return "tropical (coldest month above 18 °C)"
	case high < 10:
		return "polar (warmest month below 10 °C)"
	case low < -3:
		return "continental (coldest month below -3 °C)"
	}
	return "temperate"
}

// climateErrors compares temperature with a station-based climatology, which
// serves for checking only.
func (d *docs) climateErrors(t *testing.T) {
	errors := map[string][]float64{}
	elevations := map[string]float64{}
	eachRow(t, "climate-ghi-1deg.csv.gz", 1, func(lat, lon string, v []float64) { elevations[lat+","+lon] = max(v[0], 0) })
	eachRow(t, "check-climate-temperature-sunshine-1deg.csv.gz", 5, func(lat, lon string, v []float64) {
		elevation, ok := elevations[lat+","+lon]
		if !ok {
			return
		}
		y, _ := strconv.ParseFloat(lat, 64)
		x, _ := strconv.ParseFloat(lon, 64)
		months := [12]float64(v[1:13])
		m, err := climate.At(y, x, elevation)
		if err != nil || math.IsNaN(average(months[:])) {
			return
		}
		kind := kindOf(months, elevation)
		for i, want := range months {
			errors[kind] = append(errors[kind], m.Months[i].TempC-want)
		}
	})
	d.line("\n### Temperature by climate\n\nTable minus an independent climatology made from stations, every fifth cell of land of 1° at the")
	d.line("mean elevation of its land, all months. It serves for checking only and is not in the program.\n")
	d.line("| climate | cells | mean | r.m.s. | 95 in 100 within | worst |\n|---|---|---|---|---|---|")
	for _, kind := range []string{"tropical (coldest month above 18 °C)", "temperate", "continental (coldest month below -3 °C)", "polar (warmest month below 10 °C)", "above 1500 m"} {
		e := errors[kind]
		sorted := slices.Clone(e)
		for i := range sorted {
			sorted[i] = math.Abs(sorted[i])
		}
		slices.Sort(sorted)
		d.line("| %s | %d | %+.1f K | %.1f K | %.1f K | %+.1f K |", kind, len(e)/12, average(e), rms(e), sorted[len(sorted)*95/100], worst(e))
	}
	d.line("\nThere is no independent table of irradiation to compare with beyond the stations above.")
}

// eachRow calls use with every nth row of a shared grid: the two coordinates as
// written and the numbers after them.
func eachRow(t *testing.T, name string, nth int, use func(lat, lon string, v []float64)) {
	f, err := os.Open(shared.Path(t, "data/weather/"+name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(z)
	r.Comment, r.ReuseRecord = '#', true
	v := make([]float64, 0, 32)
	for n := -1; ; n++ {
		row, err := r.Read()
		if err != nil {
			return
		}
		if n < 0 || n%nth != 0 {
			continue
		}
		v = v[:0]
		for _, s := range row[2:] {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				x = math.NaN() // not known there
			}
			v = append(v, x)
		}
		use(row[0], row[1], v)
	}
}

const generatorHead = `
## Synthetic hours

Days follow the Markov matrices of Aguiar, Collares-Pereira and Conde (1988), one
for each class of the month's clearness index. A month is drawn again, 60 times
at most, until it is within 1 % of its target, then scaled to it; no day is
brighter than a clear one. The targets of twenty successive years are the twenty
twentieths of a normal distribution about the climate's mean, in random order, so
that twenty years have its mean and single ones its spread. Hours follow Aguiar
and Collares-Pereira (1992), under the clear sky of Ineichen and Perez (turbidity
2.5), scaled to the day. Beam and diffuse light are split by Erbs et al. (1982).

Daily mean temperature is a first-order chain of persistence 0.75 about the
months, joined so that each keeps its mean; every second year mirrors the one
before it. The daily range follows the day's sun: clear winter nights are colder.
The course of the day is that of Erbs et al. (1983). Daily mean temperature does
not follow the sun, and wind is a steady 3 m/s.

Inside the hour (steps of a minute, say) the beam is either nearly that of a
clear sky or nearly nothing under broken cloud, in spells that are forgotten
within six minutes; the means of the hour are kept. This is our own, and matters
only where a charger is at its limit.

### Against station files

Twenty years made from each file's own monthly means; yearly means of the monthly
statistics, file / synthetic. Counted inside months, persistence of the sun comes
out some 0.1 lower than it is about the climate's mean, where synthetic days have
what the matrices say (0.2 to 0.3). Days in these files hang together somewhat
more than the published matrices do, so runs of dull days are, if anything, a
little short; hence the column of the longest ones. It and the hours of frost
show the file, and the range of twenty synthetic years.

| station | spread of clearness | persistence | days below 0.3 | longest dull run, days | spread of temperature, K | persistence | range follows sun | hours below 0 °C |
|---|---|---|---|---|---|---|---|---|
`

func (d *docs) generator(t *testing.T) {
	d.WriteString(generatorHead)
	all := targets(t)
	for _, s := range stations {
		want := yearOf(all[s.key])
		got := yearOf(generated(t, s, all[s.key]))
		file := hoursOf(t, s.key)
		dull, cold := extremes(t, s, all[s.key])
		d.line("| %s | %.3f / %.3f | %.2f / %.2f | %.0f / %.0f %% | %d / %d to %d | %.1f / %.1f | %.2f / %.2f | %.2f / %.2f | %d / %d to %d |", s.name,
			want.ktSD, got.ktSD, want.ktLag, got.ktLag, 100*want.dull, 100*got.dull, longestDull(file.Days()), slices.Min(dull), slices.Max(dull),
			want.tempSD, got.tempSD, want.tempLag, got.tempLag, want.rangeKt, got.rangeKt,
			frost(file), slices.Min(cold), slices.Max(cold))
	}
}

// longestDull is the most days in a row with a clearness index below 0.3.
func longestDull(days []weather.Day) int {
	longest, run := 0, 0
	for _, d := range days {
		run++
		if !(d.Clearness() < 0.3) {
			run = 0
		}
		longest = max(longest, run)
	}
	return longest
}

// frost counts the hours below 0 °C.
func frost(h *weather.Hours) int {
	n := 0
	for _, v := range h.TempC {
		if v < 0 {
			n++
		}
	}
	return n
}

// extremes returns the longest dull run and the hours of frost of each of twenty
// synthetic years.
func extremes(t *testing.T, s station, measured [12]stats) (dull, cold []int) {
	m := ownClimate(t, s, measured)
	g, err := synthetic.New(&m, 2026)
	if err != nil {
		t.Fatal(err)
	}
	for n := range 20 {
		h := g.Year(1, n)
		dull, cold = append(dull, longestDull(h.Days())), append(cold, frost(h))
	}
	return dull, cold
}

const filesHead = `
## Hourly files

Read from a reader, recognised by content, refused with the line when damaged: a
row missing, out of order or cut, light missing, a value no sky or air has. Gaps
of temperature up to six hours and of wind are bridged by straight lines and
counted.

| format | rows named by | light | air |
|---|---|---|---|
| EPW, TMY2, TMY3 | end of the hour, local standard time | mean of the hour | at the end of the hour |
| PVGIS typical year (CSV, JSON) | universal time | sample at the stamp and the file's offset | at the stamp |
| PVGIS hourly series (CSV, JSON), slope 0 only | universal time | sample at the stamp | at the full hour |
| NSRDB | local standard time | sample at the stamp, two averaged | as light |
| SURFRAD | minutes of universal time | averaged to hours of 30 good minutes at least | averaged |

An EPW file whose header says ECMWF/ERA holds samples of universal time and is
read as such.

Sums of a year on a plane at 30° to the equator in steps of ten minutes, sky by
Perez, against an independent program's from hours:

| file | here | there | difference |
|---|---|---|---|
`

// at30 are the sums of the independent program in kWh/m², and the facing.
var at30 = map[string][2]float64{
	"tmy3-greensboro": {1775.9, 180}, "tmy3-sand-point": {1015.8, 180}, "tm2-miami": {1912.0, 180},
	"epw-chicago": {1606.2, 180}, "epw-santiago": {2111.7, 0}, "pvgis-tmy-45N-8E": {1736.2, 180},
}

func (d *docs) files(t *testing.T) {
	d.WriteString(filesHead)
	for _, s := range stations {
		ref := at30[s.key]
		got := planeSum(hoursOf(t, s.key), 30, ref[1], 6)
		d.line("| %s | %.1f | %.1f | %+.2f %% |", stationFiles[s.key], got, ref[0], 100*(got/ref[0]-1))
	}
}

func (d *docs) sources() {
	d.line("\n## Sources\n")
	for _, s := range []source.Source{source.ClimateGHI, source.ClimateTemperature, source.Terrain, source.StationList, source.LapseRate,
		source.FAO56, source.TemperatureRule, source.SpreadRule, source.ClimateDoubt, source.Aguiar1988, source.Aguiar1992, source.Erbs1982,
		source.Erbs1983, source.WithinHour, source.CalmWind, source.TMY3Manual, source.TMY2Manual, source.EPWFormat, source.PVGIS,
		source.NSRDB, source.SURFRAD, source.Targets} {
		d.line("- **%s** %s. *%s*", s.Key, s.Text, s.Standing)
	}
}
