package fit_test

import (
	"math"
	"testing"

	"ampstead/device"
	"ampstead/engine"
	"ampstead/fit"
	"ampstead/physics/bank"
	"ampstead/physics/cell"
	"ampstead/rig"
)

// bench is curlew with its recommended settings, its bank spread as measured,
// and devices that err as far as they may.
type bench struct {
	t       *testing.T
	rig     *rig.Rig
	at      map[string]float64 // recommended, by path
	window  fit.Window
	charger *device.Charger
	cut     *device.Converter
	relay   *device.Relay
	meter   *device.Meter
	engine  *engine.Engine
}

// build makes the bench with the given errors of charger, low cut, relay and
// meter, as shares of what they may err, and the bank at a state of charge.
func build(t *testing.T, chargerErr, cutErr, relayErr, meterErr, soc float64) *bench {
	r := load(t, "curlew")
	res := run(t, r)
	b := &bench{t: t, rig: r, at: map[string]float64{}, window: res.Window}
	for _, s := range res.Settings {
		if v, ok := s.Value.(float64); ok {
			b.at[s.Path] = v
		}
	}
	src, inv, rel, met := r.Charge[1], r.Inverters[0], r.Protection.Relays[0], r.Protection.Meters[0]
	at := "charge." + src.Name + ".settings."
	b.charger = &device.Charger{LimitA: b.at[at+"current"], AbsorptionV: b.at[at+"absorption"], AbsorptionS: b.at[at+"absorption_time"],
		TailA: b.at[at+"tail"], TailS: 60, Gain: chargerErr * float64(*src.Tolerance)}
	b.cut = &device.Converter{LowCutV: b.at["inverters."+inv.Name+".low_cut"], RestartV: b.at["inverters."+inv.Name+".restart"],
		Gain: cutErr * float64(*inv.Tolerance), RatedW: float64(*inv.Power), Efficiency: float64(*inv.Efficiency)}
	at = "protection.relays." + rel.Name + "."
	b.relay = &device.Relay{HighV: b.at[at+"high"], HighResetV: b.at[at+"high_reset"], LowV: b.at[at+"low"], LowResetV: b.at[at+"low_reset"],
		HighDelayS: b.at[at+"high_delay"], LowDelayS: b.at[at+"low_delay"], Latching: true, Gain: relayErr * float64(*rel.Tolerance)}
	at = "protection.meters." + met.Name + "."
	b.meter = &device.Meter{HighV: b.at[at+"alarm_high"], LowV: b.at[at+"alarm_low"], ErrorV: meterErr * float64(*met.Tolerance)}
	b.engine = b.start(soc)
	return b
}

// start sets one group above the rest by the spread near full, and one below by
// the spread near empty.
func (b *bench) start(soc float64) *engine.Engine {
	c, err := cell.Lookup(b.rig.Bank.Cell)
	if err != nil {
		b.t.Fatal(err)
	}
	m, n := b.rig.Bank.Measured, b.rig.Bank.Series
	groups := make([]float64, n)
	for k := range groups {
		groups[k] = soc
	}
	high, low := c.DailyHighV.Value, c.DailyLowV.Value
	groups[2] += c.Curve.SoC(high+float64(*m.SpreadHigh)) - c.Curve.SoC(high)
	groups[7] -= c.Curve.SoC(low) - c.Curve.SoC(low-float64(*m.SpreadLow))
	bk, err := bank.New(bank.Spec{Cell: c, Series: n, CapacityAh: float64(*m.Capacity), ResistanceOhm: float64(*m.Resistance),
		MassKg: float64(*b.rig.Bank.Mass), LossWPerK: 1, GroupSoC: groups, TempC: 20})
	if err != nil {
		b.t.Fatal(err)
	}
	e, err := engine.New(engine.Spec{Bank: bk, MainOhm: 0.7e-3, SurroundingC: 20, MaxStepS: 1, Parts: []engine.Part{
		{Name: "meter", Role: engine.Guard, Device: b.meter},
		{Name: "relay", Role: engine.Guard, Device: b.relay, Stops: []string{"contactor"}},
		{Name: "contactor", Role: engine.Switch, Device: &device.Contactor{OpenS: 0.05}, Opens: engine.BankBranch},
		{Name: "charger", Role: engine.Source, Device: b.charger, Ohm: 3e-3},
		{Name: "inverter", Role: engine.Load, Device: b.cut, Ohm: 1e-3},
	}})
	if err != nil {
		b.t.Fatal(err)
	}
	return e
}

// until steps until done or for so many hours, and reports whether it was done.
func (b *bench) until(hours float64, done func() bool) bool {
	for end := b.engine.Time() + hours*3600; b.engine.Time() < end; {
		b.engine.Step(1)
		if done() {
			return true
		}
	}
	return false
}

func (b *bench) state(part string) device.State { return b.engine.State(b.engine.Index(part)) }

// held asserts that no group left the safe window.
func (b *bench) held(what string) {
	b.t.Helper()
	if w := b.engine.Worst; w.HighV > b.window.CellHighV || w.LowV < b.window.CellLowV {
		b.t.Errorf("%s: groups came to %.4f and %.4f V, window %.2f to %.2f V", what, w.LowV, w.HighV, b.window.CellLowV, b.window.CellHighV)
	}
}

var corners = []float64{-1, 1}

// Charging as recommended neither opens the relay nor sounds the alarm, however
// charger, relay and meter err.
func TestChargingStaysInsideTheLayers(t *testing.T) {
	for _, charger := range corners {
		for _, guard := range corners {
			b := build(t, charger, 0, guard, guard, 0.85)
			b.charger.SupplyW, b.cut.DemandW = math.Inf(1), 0
			alarmed := false
			full := b.until(12, func() bool {
				alarmed = alarmed || b.state("meter") != device.Quiet || b.state("relay") != device.Quiet
				return b.state("charger") == device.Charged
			})
			if !full || alarmed {
				t.Errorf("charger %+g, guards %+g: full %v, alarm or relay %v", charger, guard, full, alarmed)
			}
			b.held("charging")
		}
	}
}

// A charger that forgets its limit is cut off by the relay before any group is
// harmed, and the alarm has sounded before.
func TestRelayCatchesAChargerStuckOn(t *testing.T) {
	for _, guard := range corners {
		b := build(t, 0, 0, guard, -guard, 0.9)
		b.charger.SupplyW, b.charger.AbsorptionV, b.charger.LimitA = math.Inf(1), 60, 82
		warned := false
		if !b.until(6, func() bool {
			warned = warned || b.state("meter") != device.Quiet && b.state("relay") == device.Quiet
			return b.state("relay") != device.Quiet
		}) || !warned {
			t.Errorf("guards %+g: relay %v, warned before %v", guard, b.state("relay"), warned)
		}
		b.until(0.01, func() bool { return false })
		b.held("stuck charger")
	}
}

// Emptied through the inverter, its low cut acts before alarm and relay.
func TestEmptyingStaysInsideTheLayers(t *testing.T) {
	for _, cut := range corners {
		for _, guard := range corners {
			b := build(t, 0, cut, guard, guard, 0.10)
			b.cut.DemandW = 2500
			alarmed := false
			empty := b.until(3, func() bool {
				alarmed = alarmed || b.state("meter") != device.Quiet || b.state("relay") != device.Quiet
				return b.engine.PartA(b.engine.Index("inverter")) < 1
			})
			if !empty || alarmed {
				t.Errorf("cut %+g, guards %+g: stopped %v, alarm or relay %v", cut, guard, empty, alarmed)
			}
			b.held("emptying")
		}
	}
}

// A low cut that fails is covered by the relay, the alarm first.
func TestRelayCatchesALoadLeftOn(t *testing.T) {
	for _, guard := range corners {
		b := build(t, 0, 0, guard, guard, 0.10)
		b.cut.DemandW, b.cut.LowCutV = 2500, 0
		warned := false
		if !b.until(3, func() bool {
			warned = warned || b.state("meter") != device.Quiet && b.state("relay") == device.Quiet
			return b.state("relay") != device.Quiet
		}) || !warned {
			t.Errorf("guards %+g: relay %v, warned before %v", guard, b.state("relay"), warned)
		}
		b.until(0.01, func() bool { return false })
		b.held("load left on")
	}
}
