package cell

import (
	"compress/gzip"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ampstead/internal/near"
	"ampstead/internal/shared"
)

// pouchMeans are the mean 1, 10 and 30 s resistances (mΩ) of the automotive
// pouch between 25 and 95 % charge, by temperature.
var pouchMeans = map[float64][3]float64{
	10: {2.595, 3.229, 3.943},
	25: {1.562, 2.048, 2.586},
	40: {1.519, 1.919, 2.362},
}

// solveBranch finds R(t) = fast + slow(1 − e^(−t/τ)) through readings at 1, 10
// and 30 s by bisecting τ on the ratio of the differences, which rises with it.
func solveBranch(r [3]float64) (fast, slow, tau float64) {
	want := (r[2] - r[0]) / (r[1] - r[0])
	grown := func(t float64) float64 { return -math.Expm1(-t / tau) }
	low, high := 1.0, 1000.0
	for range 100 {
		tau = (low + high) / 2
		if (grown(30)-grown(1))/(grown(10)-grown(1)) < want {
			low = tau
		} else {
			high = tau
		}
	}
	slow = (r[1] - r[0]) / (grown(10) - grown(1))
	return r[1] - slow*grown(10), slow, tau
}

func TestSlowBranchFollowsTheMeasuredPouch(t *testing.T) {
	c := find(t, "lmo-blend-pouch")
	for temp, means := range pouchMeans {
		_, _, tau := solveBranch(means)
		near.Equal(t, "time constant at "+text(temp, "°C"), tau, c.SlowTauS.Value, 1)
	}
	fast, slow, tau := solveBranch(pouchMeans[25])
	near.Equal(t, "share", slow*-math.Expm1(-10/tau)/2.048, c.SlowShare.Value, 0.005)
	gotFast, gotSlow := c.Split(2.048)
	near.Equal(t, "fast", gotFast, fast, 0.01)
	near.Equal(t, "slow", gotSlow, slow, 0.03)
	for k, seconds := range []float64{1, 10, 30} {
		near.Equal(t, "pulse of "+text(seconds, "s"), gotFast+gotSlow*-math.Expm1(-seconds/c.SlowTauS.Value), pouchMeans[25][k], 0.01)
	}
}

func TestResistanceFollowsTheMeasuredPouchOverTemperature(t *testing.T) {
	c := find(t, "lmo-blend-pouch")
	near.Equal(t, "rated cell", 1e3*c.ResistanceOhm(30.5, 25), 2.05, 0.05)
	for temp, means := range pouchMeans {
		near.Relative(t, "10 s at "+text(temp, "°C"), 2.048*c.ResistanceFactor(temp), means[1], 0.02)
	}
}

// TestPulsesOfTheOpenRecord reads the pulse test itself: every 30 A pulse from
// rest between 25 and 95 % charge, against the typical resistance and the two
// branches, 10 %.
func TestPulsesOfTheOpenRecord(t *testing.T) {
	c := find(t, "lmo-blend-pouch")
	fast, slow := c.Split(c.ResistanceOhm(30.5, 25))
	pulses := pulsesOf(t, shared.Path(t, "data/battery/ev2013-cell-hppc-25c.csv.gz"))
	used := 0
	for _, p := range pulses {
		soc := c.Curve.SoC(p.rest)
		if soc < 0.25 || soc > 0.95 {
			continue
		}
		used++
		for seconds, got := range map[float64]float64{10: p.ohm10, 30: p.ohm30} {
			want := fast + slow*-math.Expm1(-seconds/c.SlowTauS.Value)
			near.Relative(t, "resistance after "+text(seconds, "s")+" at "+text(p.rest, "V"), got, want, 0.15)
		}
	}
	if used < 6 {
		t.Fatalf("only %d pulses found", used)
	}
}

type pulse struct{ rest, ohm10, ohm30 float64 }

// pulsesOf finds the pulses of −30 A: the last voltage at rest before each and
// the resistance 10 and 30 s into it.
func pulsesOf(t *testing.T, path string) []pulse {
	t.Helper()
	time, volt, amp := record(t, path)
	var pulses []pulse
	for k := 1; k < len(time); k++ {
		if !(math.Abs(amp[k-1]) < 0.1 && amp[k] < -29) {
			continue
		}
		p := pulse{rest: volt[k-1]}
		for j := k; j < len(time) && amp[j] < -29; j++ {
			switch ohm := (p.rest - volt[j]) / -amp[j]; {
			case time[j]-time[k-1] <= 10.5:
				p.ohm10 = ohm
			case time[j]-time[k-1] <= 30.5:
				p.ohm30 = ohm
			}
		}
		if p.ohm30 > 0 {
			pulses = append(pulses, p)
		}
	}
	return pulses
}

func record(t *testing.T, path string) (time, volt, amp []float64) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(z).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		for k, to := range []*[]float64{&time, &volt, &amp} {
			v, err := strconv.ParseFloat(row[k], 64)
			if err != nil {
				t.Fatal(err)
			}
			*to = append(*to, v)
		}
	}
	return time, volt, amp
}
