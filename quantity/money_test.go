package quantity

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed" // property tests draw the same every run
)

func TestParseMoney(t *testing.T) {
	tests := []struct {
		text string
		want Money
	}{
		{"480 EUR", Money{480, "EUR"}}, {"480eur", Money{480, "EUR"}}, {"79.95 USD", Money{79.95, "USD"}}, {"0 NOK", Money{0, "NOK"}},
		{"480\u00a0EUR", Money{480, "EUR"}},
	}
	for _, tt := range tests {
		got, err := ParseMoney(tt.text)
		if err != nil || got != tt.want {
			t.Errorf("%q: got %+v, %v; want %+v", tt.text, got, err, tt.want)
		}
	}
}

func TestParseMoneyRefuses(t *testing.T) {
	tests := []struct{ text, why string }{
		{"480", "has no currency"}, {"EUR 480", "does not start with a number"}, {"480 €", "has no three-letter currency"},
		{"-1 EUR", "is negative"}, {"1,200 EUR", "has a comma"}, {"480 kWh", "is an energy"}, {"480 min", "is a time"},
		{"1e13 EUR", "is too large"}, {"480 EURO", "has no three-letter currency"}, {"", "is empty"},
	}
	for _, tt := range tests {
		got, err := ParseMoney(tt.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q: got %+v, %v; want an *Error", tt.text, got, err)
			continue
		}
		if !strings.Contains(e.Why, tt.why) || !strings.Contains(e.Want, "480 EUR") {
			t.Errorf("%v: want a reason with %q and an example", err, tt.why)
		}
	}
}

func TestMoneyRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Money{float64(rapid.IntRange(0, 1e9).Draw(t, "cents")) / 100, rapid.SampledFrom([]string{"EUR", "USD", "NOK", "GBP"}).Draw(t, "code")}
		back, err := ParseMoney(m.String())
		if err != nil || back != m {
			t.Fatalf("%+v is written %q and read as %+v, %v", m, m.String(), back, err)
		}
	})
}
