package travel

import (
	"context"
	"runtime"
	"testing"
)

// BenchmarkYear is a year of curlew by the minute: 12 groups, sun, weather,
// loads, heat and every device.
func BenchmarkYear(b *testing.B) {
	s := ready(b, open(b, "curlew"), Options{})
	l := newLight()
	b.ReportAllocs()
	for b.Loop() {
		sky := s.skies.year(0)
		l.fill(s.route, sky)
		if _, err := s.world.run(context.Background(), sky, l, 0, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// The split of BenchmarkYear.
func BenchmarkYearWeather(b *testing.B) {
	s := ready(b, open(b, "curlew"), Options{})
	for b.Loop() {
		s.skies.year(0)
	}
}

func BenchmarkYearSun(b *testing.B) {
	s := ready(b, open(b, "curlew"), Options{})
	l, sky := newLight(), s.skies.year(0)
	for b.Loop() {
		l.fill(s.route, sky)
	}
}

func BenchmarkYearLoads(b *testing.B) {
	s := ready(b, open(b, "curlew"), Options{})
	r := &drive{w: s.world, sky: s.skies.year(0), light: newLight(), out: &yearTally{}}
	r.begin()
	for b.Loop() {
		for d := range yearDays {
			r.today = &s.route.days[d]
			r.prepare(d, 0)
		}
	}
}

func BenchmarkYearBank(b *testing.B) {
	s := ready(b, open(b, "curlew"), Options{})
	l, sky := newLight(), s.skies.year(0)
	l.fill(s.route, sky)
	for b.Loop() {
		if _, err := s.world.run(context.Background(), sky, l, 0, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkTwentyYears is twenty weather years on two cores.
func BenchmarkTwentyYears(b *testing.B) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2))
	r := open(b, "curlew")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(context.Background(), r, Options{Years: 20}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPrepare is what comes before the first year.
func BenchmarkPrepare(b *testing.B) {
	r := open(b, "curlew")
	for b.Loop() {
		if _, err := prepare(r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
