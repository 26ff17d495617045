package prove

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"ampstead/benchlog"
	_ "ampstead/internal/fixedseed"
	"ampstead/internal/near"
	"ampstead/physics/bank"
)

// empty stops a bench when the first group reaches 3.0 V.
func empty(b *bank.Bank) bool { low, _ := b.Span(); return low <= 3.0 }

// drawn is what the bench itself let flow out, Ah.
func (b *bench) drawn(every float64) float64 {
	ah := 0.0
	for _, r := range b.rows {
		ah -= r.Amps * every / 3600
	}
	return ah
}

func plainSpec(t *testing.T) bank.Spec {
	return bank.Spec{Cell: lookup(t, "nmc811-21700"), Series: 6, CapacityAh: 50, ResistanceOhm: 0.012, SoC: 1, TempC: 22}
}

// A discharge of a known module, logged at the pace of many loggers, with pulses
// of a kettle on the way: capacity within 1 %, resistance within 5 %.
func TestKnownModuleIsRecovered(t *testing.T) {
	for _, every := range []float64{1, 2, 5} {
		b := newBench(t, plainSpec(t), 3)
		b.run(0, 120, every, nil)
		b.run(-10, 2.5*3600, every, nil)
		b.run(0, 1800, every, nil)
		b.run(-50, 30, every, nil)
		b.run(0, 60, every, nil)
		b.run(-10, 4*3600, every, empty)
		b.run(0, 600, every, nil)
		res := b.judged(t, Options{Cell: "nmc811-21700"})
		name := fmt.Sprintf("every %g s", every)
		near.Relative(t, name+" capacity", res.CapacityAh, b.drawn(every), 0.01)
		near.Relative(t, name+" resistance", res.Resistance, 0.012, 0.05)
		if len(res.Cycles) != 1 || !res.Cycles[0].Full {
			t.Errorf("%s: cycles %+v", name, res.Cycles)
		}
		if res.CapacityErr < math.Abs(res.CapacityAh-b.drawn(every))/3 {
			t.Errorf("%s: error of %g Ah is too small", name, res.CapacityErr)
		}
	}
}

// A logger of a row every half or whole minute still tells charge.
func TestSlowPaceTellsCharge(t *testing.T) {
	for _, every := range []float64{30, 60} {
		b := newBench(t, plainSpec(t), 4)
		b.run(0, 600, every, nil)
		b.run(-20, 4*3600, every, empty)
		b.run(0, 3600, every, nil)
		res := b.judged(t, Options{Cell: "nmc811-21700"})
		near.Relative(t, fmt.Sprintf("every %g s", every), res.CapacityAh, b.drawn(every), 0.01)
		if res.CapacityHow != howDischarge {
			t.Errorf("every %g s: by %q", every, res.CapacityHow)
		}
	}
}

// Current that changes every few seconds, as a load at home does, is one
// discharge, and memory holds.
func TestRestlessLoadIsOneDischarge(t *testing.T) {
	b := newBench(t, plainSpec(t), 5)
	r := rand.New(rand.NewPCG(5, 5))
	b.run(0, 60, 1, nil)
	for low := 4.2; low > 3.0; low, _ = b.bank.Span() {
		b.run(-5-60*r.Float64(), 2+20*r.Float64(), 1, empty)
	}
	res := b.judged(t, Options{Cell: "nmc811-21700"})
	near.Relative(t, "capacity", res.CapacityAh, b.drawn(1), 0.005)
	if len(res.Cycles) != 1 || len(res.Chart.Time) > chartMost {
		t.Errorf("%d cycles, %d instants", len(res.Cycles), len(res.Chart.Time))
	}
	near.Relative(t, "resistance", res.Resistance, 0.012, 0.12)
}

// Charging to a limit and holding it is one charge; what follows is full.
func TestChargeAndHoldThenDischarge(t *testing.T) {
	s := plainSpec(t)
	s.SoC = 0.3
	b := newBench(t, s, 6)
	full := func(b *bank.Bank) bool { _, high := b.Span(); return high >= 4.2 }
	b.run(25, 4*3600, 5, full)
	for amps := 25.0; amps > 2.5; {
		if full(b.bank) {
			amps *= 0.98
		}
		b.run(amps, 10, 5, nil)
	}
	b.run(0, 1800, 5, nil)
	b.run(-15, 5*3600, 5, empty)
	res := b.judged(t, Options{Cell: "nmc811-21700"})
	kinds := map[string]int{}
	for _, seg := range res.Segments {
		kinds[seg.Kind]++
	}
	if kinds[kindHold] != 1 || kinds[kindCharge] != 1 || kinds[kindDischarge] != 1 || len(res.Cycles) != 2 || !res.Cycles[1].Full || res.Cycles[0].Full {
		t.Errorf("segments %v, cycles %+v", kinds, res.Cycles)
	}
	near.Relative(t, "part of a charge", res.Cycles[0].CapacityAh, res.CapacityAh, 0.05)
}

// Whatever flows, the segments tile the log and their charges add up to the
// running count, rests left out.
func TestSegmentsTileTheLog(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		in := &intake{}
		now, rows := 0.0, 0
		for range rapid.IntRange(1, 12).Draw(rt, "stretches") {
			amps := rapid.SampledFrom([]float64{0, -2, -20, -21, 15, 40}).Draw(rt, "amps")
			every := rapid.SampledFrom([]float64{0.5, 1, 10, 60}).Draw(rt, "every")
			for range rapid.IntRange(1, 900).Draw(rt, "rows") {
				now += every
				rows++
				if err := in.take(&benchlog.Row{Time: now, Volts: 24 + amps*0.01 - 1e-6*now, Amps: amps, ChargeAh: math.NaN()}); err != nil {
					rt.Fatal(err)
				}
			}
		}
		list := in.finish()
		sum, got := 0.0, 0
		for k := range list {
			seg := &list[k]
			got += seg.Rows
			sum += seg.ChargeAh - seg.driftAh
			if k > 0 && seg.From != list[k-1].To {
				rt.Errorf("segment %d begins at %g s, the one before ends at %g s", k, seg.From, list[k-1].To)
			}
			if n := len(seg.points); n > headMost+bodyMost+tailMost+2 {
				rt.Errorf("%d samples kept of one segment", n)
			}
		}
		if end := list[len(list)-1].end(); end.t != now || rows != got {
			rt.Errorf("ends at %g s with %d rows, want %g s with %d", end.t, got, now, rows)
		}
		near.Equal(t, "charge", list[len(list)-1].end().ah-list[0].points[0].ah, sum, 1e-6)
	})
}

// Noise of the current sensor must not break a rest or a discharge to pieces.
func TestNoiseBreaksNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	in := &intake{}
	for k := range 40000 {
		amps := 0.0
		if k%8000 >= 4000 {
			amps = -20
		}
		amps += 0.2*r.NormFloat64() + 0.05
		row := benchlog.Row{Time: float64(k), Volts: 24 + 0.01*amps + 0.002*r.NormFloat64(), Amps: amps, ChargeAh: math.NaN()}
		if err := in.take(&row); err != nil {
			t.Fatal(err)
		}
	}
	list := in.finish()
	if len(list) != 10 {
		t.Errorf("%d segments, want ten", len(list))
	}
	for k := range list {
		if want := []string{kindRest, kindDischarge}[k%2]; list[k].Kind != want {
			t.Errorf("segment %d is a %s", k, list[k].Kind)
		}
	}
}

func TestManyRunsAreJoined(t *testing.T) {
	in := &intake{}
	for k := range 3 * mostRuns {
		row := benchlog.Row{Time: float64(k), Volts: 24, Amps: float64(-10 - 90*(k%2)), ChargeAh: math.NaN()}
		if err := in.take(&row); err != nil {
			t.Fatal(err)
		}
	}
	if len(in.runs) > mostRuns || in.kept > 2*mostSamples {
		t.Errorf("%d runs with %d samples kept", len(in.runs), in.kept)
	}
	near.Relative(t, "charge", in.ah, -55*float64(3*mostRuns-1)/3600, 1e-9)
}
