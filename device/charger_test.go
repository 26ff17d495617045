package device

import (
	"math"
	"testing"

	"ampstead/internal/near"
)

// lead is a lead-acid profile of a 48 V charger.
func lead() Charger {
	return Charger{LimitA: 40, AbsorptionV: 57.6, AbsorptionS: 7200, TailA: 8, TailS: 60, FloatV: 54, RestartV: 50, RestartS: 30, SupplyW: math.Inf(1)}
}

// lithium is one without float.
func lithium() Charger {
	c := lead()
	c.AbsorptionV, c.FloatV = 56.8, 0
	return c
}

// show steps a charger at a minute's time with what it sees.
type show struct {
	minute      float64
	volts, amps float64
	want        State
}

func follow(t *testing.T, c *Charger, steps []show) (p Port) {
	t.Helper()
	for _, s := range steps {
		p = Port{}
		c.Step(60, &Sense{Time: 60 * s.minute, OwnV: s.volts, OwnA: s.amps, GroupC: []float64{25}}, &p)
		if p.State != s.want {
			t.Errorf("at %g min, %g V, %g A: %v, want %v", s.minute, s.volts, s.amps, p.State, s.want)
		}
	}
	return p
}

func TestTailEndsAbsorption(t *testing.T) {
	c := lithium()
	p := follow(t, &c, []show{
		{0, 52, 0, Bulk}, {1, 54, 40, Bulk}, {2, 56.79, 40, Absorption}, {3, 56.8, 20, Absorption},
		{4, 56.8, 7, Absorption}, {5, 56.8, 9, Absorption}, {6, 56.8, 8, Absorption}, {7, 56.8, 7, Charged}, {8, 55, 0, Charged},
	})
	near.Equal(t, "output when charged", p.MaxA, 0, 0)
}

// A current that is small because the sun is, is no tail.
func TestWeakSunIsNoTail(t *testing.T) {
	c := lithium()
	follow(t, &c, []show{{0, 56.8, 30, Absorption}, {1, 56, 5, Absorption}, {3, 56, 5, Absorption}, {9, 56, 5, Absorption}})
}

func TestTimeEndsAbsorption(t *testing.T) {
	c := lead()
	follow(t, &c, []show{{0, 57.6, 40, Absorption}, {60, 57.6, 30, Absorption}, {119, 57.6, 30, Absorption}, {120, 57.6, 30, Float}})
}

func TestRestart(t *testing.T) {
	c := lithium()
	follow(t, &c, []show{
		{0, 56.8, 9, Absorption}, {1, 56.8, 5, Absorption}, {2, 56.8, 5, Charged}, {3, 50.1, 0, Charged},
		{4, 49.9, 0, Charged}, {4.4, 50.1, 0, Charged}, {5, 49.9, 0, Charged}, {5.5, 49.9, 0, Bulk},
	})
	never := lithium()
	never.RestartV = 0
	follow(t, &never, []show{{0, 56.8, 9, Absorption}, {1, 56.8, 5, Absorption}, {2, 56.8, 5, Charged}, {9, 30, 0, Charged}, {99, 30, 0, Charged}})
}

func TestFloatHoldsItsVoltage(t *testing.T) {
	c := lead()
	p := follow(t, &c, []show{{0, 57.6, 9, Absorption}, {1, 57.6, 5, Absorption}, {2, 57.6, 5, Float}})
	near.Equal(t, "float", p.SetV, 54, 1e-12)
	follow(t, &c, []show{{3, 49, 40, Float}, {4, 49, 40, Bulk}})
}

func TestNewEachDay(t *testing.T) {
	for _, anew := range []bool{true, false} {
		c := lithium()
		c.NewEachDay = anew
		follow(t, &c, []show{{0, 56.8, 9, Absorption}, {1, 56.8, 5, Absorption}, {2, 56.8, 5, Charged}})
		c.SupplyW = 0
		follow(t, &c, []show{{3, 55, 0, Unsupplied}})
		c.SupplyW = 500
		follow(t, &c, []show{{4, 55, 0, map[bool]State{true: Bulk, false: Charged}[anew]}})
	}
}

// battery.md 8.3: 57.6 V with −5 mV for each of 24 lead cells at 0 °C is 60.6 V.
func TestCompensation(t *testing.T) {
	cases := []struct {
		probe Probe
		tempC float64
		error float64
		want  float64
	}{
		{AtGroup(0), 0, 0, 60.6}, {AtGroup(0), 25, 0, 57.6}, {AtGroup(0), 35, 0, 56.4}, {NoProbe, 0, 0, 57.6}, {AtGroup(0), 0, 5, 60},
	}
	for _, k := range cases {
		c := lead()
		c.CompensationVPerK, c.Probe, c.ProbeErrorK = -0.120, k.probe, k.error
		var p Port
		c.Step(1, &Sense{OwnV: 50, GroupC: []float64{k.tempC}}, &p)
		near.Equal(t, "compensated absorption", p.SetV, k.want, 1e-9)
	}
}

func TestEqualise(t *testing.T) {
	c := lead()
	c.EqualiseV, c.EqualiseS, c.EqualiseEveryS = 62, 7200, 86400
	follow(t, &c, []show{{0, 57.6, 9, Absorption}, {1, 57.6, 5, Absorption}, {2, 57.6, 5, Float}, {1400, 49, 0, Float}, {1401, 49, 0, Bulk}})
	follow(t, &c, []show{{1500, 57.6, 9, Absorption}, {1501, 57.6, 5, Absorption}})
	p := follow(t, &c, []show{{1502, 57.6, 5, Equalise}})
	near.Equal(t, "equalise", p.SetV, 62, 1e-12)
	follow(t, &c, []show{{1600, 62, 5, Equalise}, {1622, 62, 5, Float}, {1623, 49, 0, Float}, {1624, 49, 0, Bulk}, {1625, 57.6, 9, Absorption}, {1626, 57.6, 5, Absorption}, {1627, 57.6, 5, Float}})
}

func TestFrostLock(t *testing.T) {
	c := lithium()
	c.FrostLock, c.FrostC, c.FrostBackK, c.Probe = true, 5, 2, AtGroup(0)
	for _, k := range []struct {
		tempC float64
		want  State
	}{{8, Bulk}, {5.1, Bulk}, {4.9, FrostLocked}, {6.9, FrostLocked}, {7, Bulk}, {5.1, Bulk}} {
		var p Port
		c.Step(60, &Sense{OwnV: 50, GroupC: []float64{k.tempC}}, &p)
		if p.State != k.want || (p.MaxA > 0) != (k.want == Bulk) {
			t.Errorf("at %g °C: %v giving %g A, want %v", k.tempC, p.State, p.MaxA, k.want)
		}
	}
	c.Probe = NoProbe
	var p Port
	c.Step(60, &Sense{OwnV: 50, GroupC: []float64{-9}}, &p)
	if p.State != Bulk {
		t.Errorf("a frost lock without thermometer: %v", p.State)
	}
}

func TestChargerBounds(t *testing.T) {
	c := lithium()
	c.SupplyW, c.SupplyA, c.Gain, c.AtBank = 300, 12, 0.01, true
	var p Port
	c.Step(60, &Sense{OwnV: 70, BankV: 50}, &p)
	near.Equal(t, "current", p.MaxA, 12, 0)
	near.Equal(t, "power", p.MaxW, 300, 0)
	near.Equal(t, "voltage with its error", p.SetV, 56.8*1.01, 1e-9)
	near.Equal(t, "ceiling", p.CeilingV, 1.1*56.8*1.01, 1e-9)
	if c.Stage() != Bulk {
		t.Error("a charger with sense wires looked at its own terminals")
	}
	p = Port{}
	c.Step(60, &Sense{Time: 60, Stop: true}, &p)
	if p.State != Stopped || p.MaxA != 0 {
		t.Errorf("told to stop: %v, %g A", p.State, p.MaxA)
	}
}

// A charger whose gain is high by 1 % sees its own voltage as right.
func TestGainIsConsistent(t *testing.T) {
	c := lithium()
	c.Gain = 0.01
	follow(t, &c, []show{{0, 56.8, 40, Bulk}, {1, 57.3, 40, Bulk}, {2, 56.8 * 1.01, 40, Absorption}})
}
