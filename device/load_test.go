package device

import (
	"testing"

	"ampstead/internal/near"
)

func at(d Device, second, volts float64) (p Port) {
	d.Step(1, &Sense{Time: second, OwnV: volts}, &p)
	return p
}

func TestConverter(t *testing.T) {
	c := &Converter{RatedW: 360, Efficiency: 0.9, IdleW: 1.5, LowCutV: 43, LowDelayS: 5, RestartV: 47,
		HighCutV: 60, HighBackV: 58, InputLowV: 38, InputHighV: 66, DemandW: 90}
	near.Equal(t, "draw", at(c, 0, 50).LoadW, 101.5, 1e-12)
	for k, step := range []struct {
		volts float64
		want  State
	}{
		{42, On}, {44, On}, {42, On}, {42, On}, {42, On}, {42, On}, {42, On}, {42, CutLow}, {46, CutLow}, {47, On},
		{37, CutLow}, {50, On}, {61, CutHigh}, {59, CutHigh}, {58, On}, {0, CutLow},
	} {
		p := at(c, float64(k+1), step.volts)
		if p.State != step.want || (p.LoadW > 0) != (step.want == On) {
			t.Errorf("second %d at %g V: %v drawing %g W, want %v", k+1, step.volts, p.State, p.LoadW, step.want)
		}
	}
	near.Equal(t, "delivered when cut", c.DeliveredW, 0, 0)
	c.DemandW = 1000
	near.Equal(t, "bounded", at(c, 99, 50).LoadW, 401.5, 1e-12)
	near.Equal(t, "delivered", c.DeliveredW, 360, 0)
	var p Port
	c.Step(1, &Sense{Time: 100, OwnV: 50, Stop: true}, &p)
	if p.State != Stopped || p.LoadW != 0 {
		t.Errorf("told to stop: %v", p.State)
	}
}

// A cut-off that stands 2 % high acts at 40.8 V when set to 40 V.
func TestConverterGain(t *testing.T) {
	c := &Converter{LowCutV: 40, Gain: 0.02}
	if above, below := at(c, 0, 40.9).State, at(c, 1, 40.7).State; above != On || below != CutLow {
		t.Errorf("%v at 40.9 V, %v at 40.7 V", above, below)
	}
}

func TestInverterOverload(t *testing.T) {
	v := &Inverter{Converter: Converter{RatedW: 3000, Efficiency: 0.93, IdleW: 18}, SurgeW: 6000, SurgeS: 5, RetryS: 10}
	for k, step := range []struct {
		demand float64
		want   State
	}{{2000, On}, {5000, On}, {5000, On}, {2900, On}, {5000, On}, {5000, On}, {5000, On}, {5000, On}, {5000, On}, {5000, Overloaded},
		{100, Overloaded}, {100, Overloaded}} {
		v.DemandW = step.demand
		if p := at(v, float64(k), 50); p.State != step.want {
			t.Errorf("second %d at %g W: %v, want %v", k, step.demand, p.State, step.want)
		}
	}
	near.Equal(t, "draw after the pause", at(v, 20, 50).LoadW, 18+100/0.93, 1e-9)
	v.DemandW = 7000
	if p := at(v, 21, 50); p.State != Overloaded || v.DeliveredW != 0 {
		t.Errorf("beyond its surge: %v", p.State)
	}
}

func TestHeater(t *testing.T) {
	h := &Heater{PowerW: 90, RatedV: 48, OnC: 7, OffC: 11, Probe: AtGroup(0), ErrorK: 1, Stray: 0.1}
	for _, step := range []struct {
		tempC float64
		want  State
	}{{8, Off}, {5.9, On}, {9.9, On}, {10, Off}, {6.1, Off}} {
		var p Port
		h.Step(1, &Sense{OwnV: 48, GroupC: []float64{step.tempC}}, &p)
		if p.State != step.want {
			t.Errorf("at %g °C: %v, want %v", step.tempC, p.State, step.want)
		}
	}
	var p Port
	h.Step(1, &Sense{OwnV: 24, GroupC: []float64{0}}, &p)
	near.Equal(t, "half the voltage, a quarter of the power", p.LoadW, 22.5, 1e-12)
	near.Equal(t, "into the bank", p.HeatW, 20.25, 1e-12)
	p = Port{}
	h.Step(1, &Sense{OwnV: 48, GroupC: []float64{0}, Stop: true}, &p)
	if p.State != Stopped || p.LoadW != 0 {
		t.Errorf("told to stop: %v", p.State)
	}
	near.Equal(t, "plain load", at(&Load{W: 40, A: 2}, 0, 50).LoadA, 2, 0)
}
