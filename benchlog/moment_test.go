package benchlog

import (
	"math"
	"testing"
	"time"
)

func TestMoments(t *testing.T) {
	day := func(y, m, d int) float64 {
		return float64(time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC).Unix())
	}
	tests := []struct {
		text string
		o    order
		want float64
	}{
		{"2023-11-12 10:15:30", anyOrder, day(2023, 11, 12) + 36930},
		{"2023-11-12T10:15:30.250Z", anyOrder, day(2023, 11, 12) + 36930.25},
		{"2023-11-12T10:15:30+01:00", anyOrder, day(2023, 11, 12) + 33330},
		{"2023-11-12 10:15:30,5", anyOrder, day(2023, 11, 12) + 36930.5},
		{"2023/11/12 10:15", anyOrder, day(2023, 11, 12) + 36900},
		{"20231112 101530", anyOrder, day(2023, 11, 12) + 36930},
		{"20231112T101530", anyOrder, day(2023, 11, 12) + 36930},
		{"12.11.2023 10:15:30", dayFirst, day(2023, 11, 12) + 36930},
		{"12.11.23 10:15:30", dayFirst, day(2023, 11, 12) + 36930},
		{"11/12/2023 10:15:30 PM", monthFirst, day(2023, 11, 12) + 80130},
		{"11/12/2023 12:15:30 AM", monthFirst, day(2023, 11, 12) + 930},
		{"12/11/2023 12:15:30 pm", dayFirst, day(2023, 11, 12) + 44130},
		{"12-Nov-2023 10:15:30", anyOrder, day(2023, 11, 12) + 36930},
		{"12-Nov-23 10:15:30", anyOrder, day(2023, 11, 12) + 36930},
		{"Nov 12, 2023 10:15:30", anyOrder, day(2023, 11, 12) + 36930},
		{"Nov 11, 2023 10:15:30", anyOrder, day(2023, 11, 11) + 36930},
		{"12 Nov 2023 10:15:30", anyOrder, day(2023, 11, 12) + 36930},
		{"Sun 12 Nov 2023 10:15:30", anyOrder, day(2023, 11, 12) + 36930},
		{"2024-02-29", anyOrder, day(2024, 2, 29)},
		{"10:15:30", anyOrder, 36930},
		{"10:15:30.125", anyOrder, 36930.125},
		{"100:15:30", anyOrder, 360930},
		{"10:15", anyOrder, 36900},
		{"10:15.5", anyOrder, 615.5},
		{"1d 02:03:04", anyOrder, 93784},
		{"1 day, 02:03:04", anyOrder, 93784},
		{"1-02:03:04", anyOrder, 93784},
		{"1.02:03:04", anyOrder, 93784},
		{"1 02:03:04", anyOrder, 93784},
		{"1:02:03:04", anyOrder, 93784},
		{"10:15:30:250", anyOrder, 36930.25},
	}
	for _, tt := range tests {
		m, ok := parseMoment([]byte(tt.text))
		got := m.clock - m.zone
		if m.hasDate {
			n, valid := m.day(tt.o)
			ok = ok && valid
			got += float64(n) * 86400
		}
		if !ok || math.Abs(got-tt.want) > 1e-6 {
			t.Errorf("%q: %.3f %v, want %.3f", tt.text, got, ok, tt.want)
		}
	}
	for _, bad := range []string{"", "10", "3.7", "volts", "10:61:00", "10:15:", ":10", "1/2", "12.11.2023x", "2023-11-12 10", "May", "cell 1", "1,2,3"} {
		if m, ok := parseMoment([]byte(bad)); ok {
			t.Errorf("%q was read as %+v", bad, m)
		}
	}
}
