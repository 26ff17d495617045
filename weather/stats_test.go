package weather_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ampstead/internal/shared"
	"ampstead/weather"
)

// stats are monthly statistics as generator-targets.csv has them.
type stats struct {
	ghi, ktSD, ktLag, dull        float64 // kWh/m² a day, …, share of days below 0.3
	mean, tempSD, tempLag, range_ float64
	rangeKt                       float64 // correlation of range and clearness
}

// add sums up; div turns sums into means.
func (s *stats) add(o stats) {
	for i, p := range s.all() {
		*p += *o.all()[i]
	}
}

func (s *stats) div(n float64) {
	for _, p := range s.all() {
		*p /= n
	}
}

func (s *stats) all() []*float64 {
	return []*float64{&s.ghi, &s.ktSD, &s.ktLag, &s.dull, &s.mean, &s.tempSD, &s.tempLag, &s.range_, &s.rangeKt}
}

// ofMonth computes the statistics of the days of one month.
func ofMonth(days []weather.Day, month int) stats {
	var kt, mean, span, light []float64
	dull := 0.0
	for _, d := range days {
		if d.Month != month {
			continue
		}
		kt, mean = append(kt, d.Clearness()), append(mean, d.MeanC)
		span, light = append(span, d.MaxC-d.MinC), append(light, d.GHI/1000)
		if d.Clearness() < 0.3 {
			dull++
		}
	}
	return stats{
		ghi: average(light), ktSD: deviation(kt), ktLag: correlation(kt[:len(kt)-1], kt[1:]), dull: dull / float64(len(kt)),
		mean: average(mean), tempSD: deviation(mean), tempLag: correlation(mean[:len(mean)-1], mean[1:]),
		range_: average(span), rangeKt: correlation(span, kt),
	}
}

func average(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

func deviation(v []float64) float64 {
	a, sum := average(v), 0.0
	for _, x := range v {
		sum += (x - a) * (x - a)
	}
	return math.Sqrt(sum / float64(len(v)-1))
}

func correlation(a, b []float64) float64 {
	ma, mb := average(a), average(b)
	var ab, aa, bb float64
	for i := range a {
		ab += (a[i] - ma) * (b[i] - mb)
		aa += (a[i] - ma) * (a[i] - ma)
		bb += (b[i] - mb) * (b[i] - mb)
	}
	return ab / math.Sqrt(aa*bb)
}

// targets reads the measured statistics: twelve months by file.
func targets(t testing.TB) map[string][12]stats {
	t.Helper()
	f, err := os.Open(shared.Path(t, "data/weather/generator-targets.csv"))
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
	byFile := map[string][12]stats{}
	for _, row := range rows[1:] {
		num := func(name string) float64 {
			for i, head := range rows[0] {
				if head == name {
					v, err := strconv.ParseFloat(row[i], 64)
					if err != nil {
						t.Fatal(err)
					}
					return v
				}
			}
			t.Fatalf("no column %s in %s", name, strings.Join(rows[0], ","))
			return 0
		}
		list := byFile[row[0]]
		list[int(num("month"))-1] = stats{
			ghi: num("ghi_kwh_m2_day"), ktSD: num("kt_sd"), ktLag: num("kt_lag1"), dull: num("share_kt_below_0_3"),
			mean: num("t_mean_c"), tempSD: num("t_day_sd_c"), tempLag: num("t_day_lag1"), range_: num("dtr_mean_c"), rangeKt: num("dtr_kt_corr"),
		}
		byFile[row[0]] = list
	}
	return byFile
}
