package live

import (
	"math"
	"testing"
	"time"

	"ampstead/internal/near"
	"ampstead/store"
)

// A known current over three days, sent every ten seconds with an hour missing,
// gives its charge back.
func TestChargeBetweenTwoTimes(t *testing.T) {
	from := time.Date(2026, 5, 1, 6, 0, 0, 0, time.UTC)
	book, err := store.Open(t.Context(), t.TempDir(), store.Options{Now: func() time.Time { return from.AddDate(0, 0, 9) }})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	var samples []store.Sample
	want := 0.0
	for s := 0; s < 3*86400; s += 10 {
		if s >= 36000 && s < 39600 {
			continue
		}
		amps := 12*math.Sin(2*math.Pi*float64(s)/86400) + 2
		want += amps * 10 / 3600
		samples = append(samples, store.Sample{At: from.Add(time.Duration(s) * time.Second), Series: Current, Value: amps})
	}
	if err := book.AddSamples(t.Context(), samples); err != nil {
		t.Fatal(err)
	}
	ah, covered, err := Charge(t.Context(), book, from, from.AddDate(0, 0, 3))
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "charge", ah, want, 0.01)
	near.Equal(t, "covered", covered, 71.0/72, 1e-9)
	if ah, covered, err = Charge(t.Context(), book, from.Add(time.Hour), from.Add(time.Hour+3*time.Minute)); err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "charge of minutes", ah, (12*math.Sin(2*math.Pi*3690/86400)+2)*0.05, 0.001)
	near.Equal(t, "covered of minutes", covered, 1, 1e-9)
	if ah, covered, err = Charge(t.Context(), book, from, from); ah != 0 || covered != 0 || err != nil {
		t.Errorf("no time: %v %v %v", ah, covered, err)
	}
}
