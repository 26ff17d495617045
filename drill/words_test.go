package drill

import "testing"

func TestNearness(t *testing.T) {
	for _, c := range []struct {
		o    Outcome
		want string
	}{
		{Outcome{Outcome: Caught, MarginMV: 38.4}, "38 mV left"},
		{Outcome{Outcome: Harm, Harm: "cell high", MarginMV: -184}, "184 mV past"},
		{Outcome{Outcome: Harm, Harm: "frost charge", MarginMV: 500}, "frost charge"},
		{Outcome{Outcome: Near, FrostAh: 0.0029, MarginMV: 86}, "3 mAh in frost"},
		{Outcome{Outcome: None, MarginMV: 1204}, "1.20 V left"},
	} {
		if got := c.o.Nearness(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.o, got, c.want)
		}
	}
}

func TestLapse(t *testing.T) {
	for s, want := range map[float64]string{0: "0 s", 2: "2 s", 2.34: "2.3 s", 75: "75 s", 900: "15 min", 1262: "21 min", 9000: "2.5 h", 21600: "6 h", 90 * 86400: "90 d"} {
		if got := Lapse(s); got != want {
			t.Errorf("%g s: %q, want %q", s, got, want)
		}
	}
}

func TestVerdictWords(t *testing.T) {
	seen := map[string]bool{}
	for _, v := range verdicts {
		if w := v.Words(); w == "" || w == string(v) && v != Harm || seen[w] {
			t.Errorf("%s is %q", v, w)
		}
		seen[v.Words()] = true
	}
}
