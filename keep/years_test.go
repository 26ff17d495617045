package keep

import (
	"testing"
	"time"

	"ampstead/life"
)

func TestFirstShortMonthGetsItsYear(t *testing.T) {
	s := &study{o: Options{Now: time.Date(2026, 9, 12, 0, 0, 0, 0, time.UTC)}}
	for from, want := range map[string]string{
		"January of year 1": "January 2027", "October of year 1": "October 2026", "January of year 8": "January 2034", "": "", "later": "later",
	} {
		if got := s.calendarYear(&life.Result{FirstShort: from}); got != want {
			t.Errorf("%q: %q, want %q", from, got, want)
		}
	}
}
