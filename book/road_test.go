package book_test

import (
	"strings"
	"testing"
	"time"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/travel"
)

// The chapter of the year comes with its pictures, basis and findings when there
// is a year, and the whole book stays one file with every link at its place.
func TestYearOnTheRoad(t *testing.T) {
	res := &travel.Result{Bands: travel.Bands{Years: 5}, Weather: travel.Weather{Source: "synthetic hours", Years: 5, StepS: 60, Sources: []string{"nasa-sse-6"}},
		Findings: []finding.Finding{{ID: "frost-unguarded", Severity: finding.Stop, Where: "protection.cutouts", Found: "nothing stops them"}},
		Limits:   []travel.Limit{{Change: "100 W more panel", Unserved: -9000}}}
	for d := range 365 {
		res.Days = append(res.Days, travel.Day{Date: time.Date(2027, 1, 1+d, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), SoCHigh: 1})
	}
	res.Months = []travel.Month{{Month: 1, Energies: travel.Energies{Load: 60000}}}
	res.Span = &travel.Span{From: "01-12", StepS: 3600, SoC: make([]float64, 48)}
	m := model(t, "curlew", q.Metric)
	text := write(t, m.WithTravel(res))
	for _, want := range []string{"The year on the road", "year-860-title", "months-860-title", "week-860-title", "route-860-title", "gains-860-title", "5 weather years",
		"Do not connect this battery", "1 to stop for", "The hardest week, 12 to 13 January", `id="source-nasa-sse-6"`} {
		if !strings.Contains(text, want) {
			t.Errorf("the book lacks %q", want)
		}
	}
	hangsTogether(t, text)
	if strings.Contains(write(t, m), "The year on the road") {
		t.Error("a book without a year has the chapter")
	}
}
