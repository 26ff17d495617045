package drill

import (
	"ampstead/assembly"
	"ampstead/device"
	"ampstead/rig"
)

// source makes the faults of a charge source.
func (f *faulty) source(k int) {
	src := &f.rig.Charge[k]
	f.stuck(k, src)
	if f.lithium() && (src.Settings.Profile == "own" || src.Settings.Profile == "lithium" || src.Settings.Profile == "") {
		f.leadAcid(k, src)
	}
	f.add(src.Name, "voltage sense reads low", "wrong sense", false,
		func(t *turn) { t.a.Chargers[k].Device.Gain += senseError },
		"it reads %s less than there is and charges that much higher, as from a bad joint in its sense", percent(senseError))
	f.add(src.Name, "voltage sense reads high", "wrong sense", false,
		func(t *turn) { t.a.Chargers[k].Device.Gain -= senseError },
		"it reads %s more than there is and stops charging early", percent(senseError))
	f.sourceThermometer(k, src)
	if src.Kind == "alternator" {
		f.loadDump(k, src)
	}
}

func (f *faulty) stuck(k int, src *rig.Source) {
	toward := runaway * f.fit.Window.BankHighV
	f.add(src.Name, "stuck at full output", "stuck source", false, func(t *turn) {
		d := t.a.Chargers[k].Device
		t.wrap(src.Name, func(device.Device) device.Device { return stuckSource{d, float64(*src.Limit), toward} })
	}, "it gives all its supply allows, up to %.4g A and towards %.4g V, whatever its voltage, its stop input and its thermometer say", float64(*src.Limit), toward)
}

// leadAcid is a source back on the profile it was sold with. A stop input is a
// wire and goes on working; a frost lock is a setting and is gone.
func (f *faulty) leadAcid(k int, src *rig.Source) {
	var as device.Charger
	assembly.LeadAcid(&as, "flooded", f.rig, f.fit)
	f.add(src.Name, "back on its lead-acid profile", "lead-acid profile", false, func(t *turn) {
		d := t.a.Chargers[k].Device
		assembly.LeadAcid(d, "flooded", t.p.rig, t.p.fit)
		d.EqualiseEveryS = 0
		d.FrostLock = false
	}, "its settings are lost: flooded lead-acid for this voltage, %.4g V absorption, %.4g V float, %.4g V equalise that is due, %.3g mV/K where it has a thermometer, no frost lock",
		as.AbsorptionV, as.FloatV, as.EqualiseV, 1000*as.CompensationVPerK)
}

// sourceThermometer makes the faults of a thermometer that a source goes by. A
// thermistor that is open reads extreme cold, one that is short extreme heat.
func (f *faulty) sourceThermometer(k int, src *rig.Source) {
	d := f.a.Chargers[k].Device
	if d.Probe == device.NoProbe || !d.FrostLock && d.CompensationVPerK == 0 {
		return
	}
	f.falseWarmth(src.Name, stuckC, "sensor stuck", "its thermometer reads %s for ever")
	f.falseWarmth(src.Name, openC, "sensor open", "its thermometer reads extreme cold, %s")
	f.falseWarmth(src.Name, shortC, "sensor short", "its thermometer reads extreme heat, %s")
}

// falseWarmth adds a thermometer that reads one temperature.
func (f *faulty) falseWarmth(part string, tempC float64, what, how string) {
	f.add(part, what, "wrong thermometer", false, func(t *turn) {
		t.wrap(part, func(d device.Device) device.Device { return &falseWarmth{Device: d, tempC: tempC} })
	}, how, celsius(tempC))
}

// loadDump takes the bank off the bus while the alternator charges. The surge of
// the alternator's own winding lasts a tenth of a second or two and is not
// stepped; what is left on the bus afterwards is.
func (f *faulty) loadDump(k int, src *rig.Source) {
	how := "half an hour into charging, the bank comes off the bus; a starter battery stays on the alternator and takes its surge, the bus stands at what the charger holds"
	if src.StarterBattery != "stays" {
		how = "half an hour into charging, the bank, the alternator's only battery, comes off the bus; the bus then stands at what the charger holds. The alternator's surge of a tenth of a second before that, which can ruin its diodes and what is on the bus, is not stepped"
	}
	f.add(src.Name, "bank comes off while charging", "load dump", true, func(t *turn) {
		part := t.a.Chargers[k].Part
		t.strikes = append(t.strikes, func() bool {
			if t.e.Time() < strikeS || t.e.PartA(part) < whileA {
				return false
			}
			t.e.OpenMain()
			t.watch.tell(t.e.Time())
			return true
		})
	}, "%s", how)
	f.list[len(f.list)-1].later = true
}
