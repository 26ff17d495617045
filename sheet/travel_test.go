package sheet_test

import (
	"strings"
	"testing"
	"time"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/sheet"
	"ampstead/travel"
)

// trip is a small year with a word to escape and a month that runs short.
func trip() *travel.Result {
	res := &travel.Result{
		Bands:   travel.Bands{Years: 10, UnservedHours: travel.Range{Low: 12, Middle: 40, High: 88}, LostFrost: travel.Range{Low: 41000, High: 73000}, FrostLockedH: travel.Range{Low: 90, High: 160}, SoCMin: travel.Range{Low: 0.21, High: 0.3}},
		Weather: travel.Weather{Source: "synthetic hours from the built-in climate table", Years: 10, Seed: 7, StepS: 60, Sources: []string{"nasa-sse-6", "fao-56-50", "no-such-key"}, Notes: []string{"a steady wind"}},
		Limits: []travel.Limit{{Change: "100 W <more> panel", Unserved: -12000, UnservedHours: -31, Why: "more sun"},
			{Change: "one module more", Unserved: -2000, UnservedHours: 3}},
		Stays:    []travel.Stay{{Name: "Salt marsh", From: "2026-11-01", To: "2027-02-20", Latitude: 37.2, Longitude: -7.4, Days: 112, Energies: travel.Energies{SunOffered: 300000}}},
		Assumed:  []string{"shade of 0 % at Meseta"},
		Findings: []finding.Finding{{ID: "unserved", Severity: finding.Care, Where: "charge.roof solar", Found: "12 h <short>", Because: "why", Mend: "mend"}},
		Figures:  []string{"sun-position"},
	}
	for m := range 12 {
		res.Months = append(res.Months, travel.Month{Month: m + 1, SoCMin: 0.5, Energies: travel.Energies{Load: 60000, SunCaught: 70000}})
	}
	res.Months[0].UnservedH, res.Months[0].Unserved, res.Months[0].SoCMin = 12, 3400, 0.21
	for d := range 365 {
		res.Days = append(res.Days, travel.Day{Date: time.Date(2027, 1, 1+d, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), Place: "Salt marsh", SoCLow: 0.5, SoCHigh: 0.8})
	}
	res.Days[15].Unserved = 900
	res.Span = &travel.Span{From: "01-12", StepS: 3600, SoC: make([]float64, 7*24)}
	return res
}

func TestAnswer(t *testing.T) {
	short := strings.Join(model(t, q.Metric).WithTravel(trip()).Trip.Answer, " ")
	for _, want := range []string{"Over 10 weather years this rig runs short on 12 to 88 hours a year, mostly in January.",
		"Frost keeps out 41 kWh to 73 kWh of sun a year, over 90 to 160 hours.",
		"100 W <more> panel, 12 kWh less not served and 31 hours fewer; then one module more, 2 kWh less not served."} {
		if !strings.Contains(short, want) {
			t.Errorf("the answer %q does not say %q", short, want)
		}
	}
	res := trip()
	res.Bands.UnservedHours, res.Bands.LostFrost, res.Bands.FrostLockedH = travel.Range{}, travel.Range{}, travel.Range{}
	res.Bands.Heater = travel.Range{Low: 9000, High: 12000}
	res.Limits, res.Year.FrostChargeAh = nil, 14
	fair := strings.Join(model(t, q.Metric).WithTravel(res).Trip.Answer, " ")
	for _, want := range []string{"no hour was found", "21 to 30 %, in January", "the heater takes 9 kWh to 12 kWh", "14 Ah of charge at or below the frost limit"} {
		if !strings.Contains(fair, want) {
			t.Errorf("the answer %q does not say %q", fair, want)
		}
	}
}

func TestTripParts(t *testing.T) {
	for _, paper := range []bool{false, true} {
		m := model(t, q.US)
		m.Paper = paper
		m = m.WithTravel(trip())
		m.Trip.Pick = "/travel"
		text := all(t, m)
		if err := wellFormed(text); err != nil {
			t.Error(err)
		}
		for _, want := range []string{"100 W &lt;more&gt; panel", "12 h &lt;short&gt;", `href="/travel?from=02-01&amp;days=28#week"`, "12 to 18 January", "seed 7",
			"no-such-key", "finding-1-travel-unserved", "Shade of 0 % at Meseta.", "rig.yaml, line"} {
			if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
				t.Errorf("paper %t: the parts do not say %q", paper, want)
			}
		}
		if phone := strings.Contains(text, `id="year-390-title"`); phone == paper {
			t.Errorf("paper %t: a drawing for a phone: %t", paper, phone)
		}
	}
}

// The model that was given stays as it was, for the next page uses it too.
func TestWithTravelLeavesTheModel(t *testing.T) {
	m := model(t, q.Metric)
	before := len(m.Sources)
	with := m.WithTravel(trip())
	if m.Trip != nil || len(m.Sources) != before {
		t.Error("the model was changed")
	}
	if len(with.Sources) != before+3 {
		t.Errorf("%d sources, want %d", len(with.Sources), before+3)
	}
	if m.WithTravel(nil).Trip != nil {
		t.Error("no year made a trip")
	}
}

func TestHardWeek(t *testing.T) {
	res := trip()
	for _, c := range []struct {
		day  int
		want string
	}{{15, "01-13"}, {1, "01-01"}, {364, "12-25"}} {
		res.Days[15].Unserved = 0
		res.Days[c.day].Unserved = 1e6
		if got := sheet.HardWeek(res); got.From != c.want || got.Days != 7 {
			t.Errorf("day %d: %+v, want from %s", c.day, got, c.want)
		}
		res.Days[c.day].Unserved = 0
	}
	if got := sheet.HardWeek(&travel.Result{}); got.From != "01-01" {
		t.Errorf("without days: %+v", got)
	}
}
