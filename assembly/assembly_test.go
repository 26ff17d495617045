package assembly

import (
	"slices"
	"strings"
	"testing"

	"ampstead/device"
	"ampstead/examples"
	"ampstead/fit"
	"ampstead/internal/near"
	q "ampstead/quantity"
	"ampstead/rig"
)

func load(t *testing.T, name string) *rig.Rig {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	f, err := rig.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return f.Rig
}

func assemble(t *testing.T, r *rig.Rig, o Options) *Assembly {
	t.Helper()
	res, err := fit.Run(r)
	if err != nil {
		t.Fatal(err)
	}
	a, err := Engine(r, res, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Curlew as its file has it.
func TestCurlew(t *testing.T) {
	a := assemble(t, load(t, "curlew"), Options{SoC: 0.5, TempC: 10})
	sun := a.Chargers[0].Device
	near.Equal(t, "absorption", sun.AbsorptionV, 49.2, 1e-9)
	near.Equal(t, "current, as set", sun.LimitA, 34, 1e-9)
	near.Equal(t, "frost lock", sun.FrostC, 5, 1e-9)
	if sun.FloatV != 0 || sun.EqualiseV != 0 || !sun.FrostLock || sun.Probe == device.NoProbe {
		t.Errorf("solar charger %+v", sun)
	}
	near.Equal(t, "capacity", a.Bank.CapacityAh(0), 168, 1e-9)
	// Box of 0.80 × 0.42 × 0.22 m: 1.2088 m² over 25 mm / 0.029 + 1/8 + 1/10.
	near.Equal(t, "box", a.LossWPerK, 1.2088/(0.025/0.029+0.225), 1e-6)
	near.Equal(t, "heat held", a.HeatJPerK, 52*1040, 1e-6)
	if a.Unlocked != nil || len(a.Assumed) != 0 {
		t.Errorf("unlocked %v, assumed %v", a.Unlocked, a.Assumed)
	}
	// Its stated efficiency holds at half load, idle draw included.
	v := a.Inverters[0].Device
	near.Equal(t, "inverter at half load", 1500/(v.IdleW+1500/v.Efficiency), 0.93, 1e-9)
	if !a.Relays[0].CutsBank {
		t.Error("the guard relay opens the main contactor")
	}
	frost := a.Guards[slices.IndexFunc(a.Guards, func(g Guard) bool { return g.Name == "frost switch" })]
	if !frost.Frost || len(frost.Stops) != 3 {
		t.Errorf("frost switch %+v", frost)
	}
}

// Out and back at 40 °C: IEC 60228 class 5 gives 0.386 Ω/km for 50 mm² and
// 1.21 Ω/km for 16 mm² at 20 °C.
func TestCables(t *testing.T) {
	b := &builder{rig: load(t, "curlew"), out: &Assembly{}}
	main, err := b.mainOhm()
	if err != nil {
		t.Fatal(err)
	}
	near.Relative(t, "bank to bus", main, 2*0.9*0.386e-3*(1+0.00393*20), 0.002)
	own, err := b.ownOhm("roof solar")
	if err != nil {
		t.Fatal(err)
	}
	near.Relative(t, "bus to solar", own, 2*2.5*1.21e-3*(1+0.00393*20), 0.002)
}

// Nothing locks the draft's sources, so a person has to when one is asked for.
func TestDraftIsUnlocked(t *testing.T) {
	r := load(t, "curlew-draft")
	a := assemble(t, r, Options{SoC: 0.5, TempC: -5, ByHand: true})
	if len(a.Unlocked) != 3 {
		t.Fatalf("unlocked %v", a.Unlocked)
	}
	sun := a.Chargers[0]
	near.Equal(t, "equalise", sun.Device.EqualiseV, 62, 1e-9)
	near.Equal(t, "compensation", sun.Device.CompensationVPerK, -0.12, 1e-9)
	sun.Device.SupplyW = 500
	a.Engine.Step(60)
	if s := a.Engine.State(sun.Part); s != device.Stopped {
		t.Errorf("in frost, with someone at the switch: %v", s)
	}
	alone := assemble(t, r, Options{SoC: 0.5, TempC: -5})
	alone.Chargers[0].Device.SupplyW = 500
	alone.Engine.Step(60)
	if amps := alone.Bank.Amps(); amps < 5 {
		t.Errorf("in frost, left alone: %g A", amps)
	}
}

// A profile for lead-acid brings its voltages along where the file is silent.
func TestLeadAcidProfile(t *testing.T) {
	r := load(t, "curlew")
	r.Charge[1].Settings = rig.ChargeSettings{Profile: "flooded"}
	d := assemble(t, r, Options{SoC: 0.5, TempC: 20}).Chargers[1].Device
	if d.AbsorptionV < 56 || d.AbsorptionV > 60 || d.FloatV < 52 || d.EqualiseV < 58 || d.CompensationVPerK >= 0 {
		t.Errorf("%+v", d)
	}
}

// What is not given is set as fit recommends, and said.
func TestNotGiven(t *testing.T) {
	r := load(t, "curlew")
	r.Charge[0].Settings.Absorption = rig.Setting[q.Voltage]{}
	r.Bank.Mass = nil
	a := assemble(t, r, Options{SoC: 0.5, TempC: 20})
	near.Equal(t, "absorption", a.Chargers[0].Device.AbsorptionV, 49.2, 0.3)
	said := strings.Join(a.Assumed, "\n")
	for _, want := range []string{"charge.roof solar.settings.absorption", "bank.mass"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not among what was assumed:\n%s", want, said)
		}
	}
}

// Every example steps through a day of sun without trouble.
func TestStepsADay(t *testing.T) {
	for _, name := range examples.Names() {
		a := assemble(t, load(t, name), Options{SoC: 0.5, TempC: 15})
		for k := range 1440 {
			a.Chargers[0].Device.SupplyW = 0
			if k > 480 && k < 960 {
				a.Chargers[0].Device.SupplyW = 600
			}
			a.Engine.Step(60)
		}
		if gap := a.Bank.Books().Gap(); gap > 1e-9 {
			t.Errorf("%s: books off by %g", name, gap)
		}
		if a.Engine.PartWh(a.Chargers[0].Part) < 500 {
			t.Errorf("%s caught %g Wh", name, a.Engine.PartWh(a.Chargers[0].Part))
		}
	}
}

// A lead-acid profile on a 12 in series takes the bank for one of 48 V: 24 cells
// of 2.40, 2.25 and 2.50 V, and no profile changes nothing.
func TestLeadAcidOnto(t *testing.T) {
	r := load(t, "curlew")
	res, err := fit.Run(r)
	if err != nil {
		t.Fatal(err)
	}
	d := device.Charger{AbsorptionV: 49.2}
	LeadAcid(&d, "own", r, res)
	near.Equal(t, "own", d.AbsorptionV, 49.2, 0)
	LeadAcid(&d, "flooded", r, res)
	near.Equal(t, "absorption", d.AbsorptionV, 57.6, 1e-9)
	near.Equal(t, "float", d.FloatV, 54, 1e-9)
	near.Equal(t, "equalise", d.EqualiseV, 60, 1e-9)
	a := assemble(t, r, Options{SoC: 0.5, TempC: 10})
	for _, g := range a.Guards {
		if g.Device == nil {
			t.Errorf("%s has no device", g.Name)
		}
	}
}
