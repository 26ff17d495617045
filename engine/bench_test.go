package engine

import (
	"math"
	"testing"

	"ampstead/device"
	"ampstead/physics/bank"
	"ampstead/physics/cell"
)

// rig14 is a bank of 14 groups with all the devices of a 48 V rig.
func rig14(t testing.TB) (*Engine, *device.Charger, *device.Inverter) {
	t.Helper()
	c, err := cell.Lookup("nmc532")
	if err != nil {
		t.Fatal(err)
	}
	capacity := make([]float64, 14)
	for i := range capacity {
		capacity[i] = 178 + float64(i%5)
	}
	b, err := bank.New(bank.Spec{Cell: c, Series: 14, CapacityAh: 180, GroupCapacityAh: capacity, ResistanceOhm: 7e-3, LinksOhm: 4e-4,
		MassKg: 52, LossWPerK: 0.8, NeighbourWPerK: 2, SoC: 0.6, TempC: 14})
	if err != nil {
		t.Fatal(err)
	}
	sun := &device.Charger{LimitA: 60, AbsorptionV: 57, AbsorptionS: 3600, TailA: 8, TailS: 60, RestartV: 55, FrostLock: true, FrostC: 5, FrostBackK: 2,
		Probe: device.AtGroup(3), NewEachDay: true, SupplyW: 900}
	mains := &device.Charger{LimitA: 35, AbsorptionV: 56.8, AbsorptionS: 3600, TailA: 6, TailS: 60, RestartV: 54}
	inverter := &device.Inverter{Converter: device.Converter{RatedW: 3000, Efficiency: 0.93, IdleW: 18, LowCutV: 44, LowDelayS: 10, RestartV: 49,
		InputLowV: 38, InputHighV: 66}, SurgeW: 6000, SurgeS: 5, RetryS: 30}
	parts := []Part{
		{Name: "relay", Role: Guard, Device: &device.Relay{HighV: 58.4, HighResetV: 57, LowV: 43, LowResetV: 47, HighDelayS: 2, LowDelayS: 20, Gain: 0.003, ResolutionV: 0.1}, Stops: []string{"main"}},
		{Name: "meter", Role: Guard, Device: &device.Meter{HighV: 4.15, LowV: 3.2, SpreadV: 0.08, HotC: 50, Probe: device.AtHottest, ResolutionV: 0.001}},
		{Name: "cut-out", Role: Guard, Device: &device.Cutout{Below: true, BelowC: 3, BackK: 2, Above: true, AboveC: 48, Probe: device.AtGroup(0)}, Stops: []string{"sun", "mains"}},
		{Name: "main", Role: Switch, Opens: BankBranch, Device: &device.Contactor{CoilW: 1.7, OpenS: 0.05}},
		{Name: "sun", Role: Source, Device: sun, Ohm: 8e-3},
		{Name: "mains", Role: Source, Device: mains, Ohm: 3e-3},
		{Name: "inverter", Role: Load, Device: inverter, Ohm: 1e-3},
		{Name: "12 V", Role: Load, Device: &device.Converter{RatedW: 360, Efficiency: 0.9, IdleW: 1.5, LowCutV: 43, RestartV: 47, DemandW: 60}, Ohm: 2e-3},
		{Name: "pad", Role: Load, Device: &device.Heater{PowerW: 90, OnC: 7, OffC: 11, Probe: device.AtGroup(0)}, Ohm: 4e-3},
	}
	e, err := New(Spec{Bank: b, MainOhm: 1.2e-3, SurroundingC: 8, Parts: parts, Log: NewLog(256)})
	if err != nil {
		t.Fatal(err)
	}
	return e, sun, inverter
}

// day is sun and demand (W) through a day.
func day(at float64) (sun, demand float64) {
	hour := math.Mod(at/3600, 24)
	return max(0, 1400*math.Sin((hour-6)/12*math.Pi)), 120 + 300*max(0, math.Sin((hour-12)/12*math.Pi))
}

// BenchmarkEngineStep is a minute of a whole rig: 14 groups, nine devices.
func BenchmarkEngineStep(b *testing.B) {
	e, sun, inverter := rig14(b)
	var suns, demands [1440]float64
	for k := range suns {
		suns[k], demands[k] = day(float64(k) * 60)
	}
	b.ReportAllocs()
	k := 0
	for b.Loop() {
		sun.SupplyW, inverter.DemandW = suns[k%1440], demands[k%1440]
		k++
		e.Step(60)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/14, "ns/group")
}
