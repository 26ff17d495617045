package assembly

import (
	"ampstead/device"
	"ampstead/engine"
	"ampstead/physics/convert"
	q "ampstead/quantity"
	"ampstead/rig"
)

// Taken of converters and inverters that do not say; ours.
const (
	converterEfficiency = 0.88
	inverterEfficiency  = 0.90
	converterIdleShare  = 0.005 // of the rated power
	inverterIdleShare   = 0.008
	lowCutS             = 10.0 // a low voltage lasts so long before a device cuts off
	surgeS              = 5.0
	retryS              = 60.0
)

func (b *builder) consumers() error {
	for k := range b.rig.Converters {
		if err := b.converter(&b.rig.Converters[k]); err != nil {
			return err
		}
	}
	for k := range b.rig.Inverters {
		if err := b.inverter(&b.rig.Inverters[k]); err != nil {
			return err
		}
	}
	b.direct("loads on the bank", false)
	b.direct("loads before the disconnect", true)
	return nil
}

// makeConverter is the common part of converter and inverter. Losses follow an
// idle draw and a share of what is given (physics/convert), so that the stated
// efficiency holds at half load.
func makeConverter(rated, efficiency, idle float64) device.Converter {
	loss := convert.Through(idle, rated/2, efficiency)
	return device.Converter{RatedW: rated, Efficiency: 1 / (1 + loss.Share), IdleW: idle, LowDelayS: lowCutS}
}

func (b *builder) converter(v *rig.Converter) error {
	rated := float64(*v.Power)
	if v.Efficiency == nil {
		b.assume("converters.%s.efficiency is not given: %g %%", v.Name, 100*converterEfficiency)
	}
	if v.Idle == nil {
		b.assume("converters.%s.idle is not given: %.1f W", v.Name, converterIdleShare*rated)
	}
	d := makeConverter(rated, or(v.Efficiency, converterEfficiency), or(v.Idle, converterIdleShare*rated))
	d.InputLowV, d.InputHighV = float64(*v.InputLow), float64(*v.InputHigh)
	d.LowCutV = value(b, v.LowCut, "converters."+v.Name+".low_cut")
	d.RestartV = restart(b, v.LowCut.Off, v.Restart, "converters."+v.Name+".restart")
	ohm, err := b.ownOhm(v.Name)
	if err != nil {
		return err
	}
	b.out.Converters = append(b.out.Converters, Converter{Name: v.Name, Device: &d})
	b.add(engine.Part{Name: v.Name, Role: engine.Load, Device: &d, Ohm: ohm, BankSide: b.bypasses(v.Name)})
	return nil
}

func (b *builder) inverter(v *rig.Inverter) error {
	rated := float64(*v.Power)
	if v.Efficiency == nil {
		b.assume("inverters.%s.efficiency is not given: %g %%", v.Name, 100*inverterEfficiency)
	}
	if v.Idle == nil {
		b.assume("inverters.%s.idle is not given: %.1f W", v.Name, inverterIdleShare*rated)
	}
	d := &device.Inverter{
		Converter: makeConverter(rated, or(v.Efficiency, inverterEfficiency), or(v.Idle, inverterIdleShare*rated)),
		SurgeW:    or(v.Surge, rated), SurgeS: surgeS, RetryS: retryS,
	}
	d.InputLowV, d.InputHighV = float64(*v.InputLow), float64(*v.InputHigh)
	d.LowCutV = value(b, v.LowCut, "inverters."+v.Name+".low_cut")
	d.RestartV = restart(b, v.LowCut.Off, v.Restart, "inverters."+v.Name+".restart")
	ohm, err := b.ownOhm(v.Name)
	if err != nil {
		return err
	}
	b.out.Inverters = append(b.out.Inverters, Inverter{Name: v.Name, Device: d})
	b.add(engine.Part{Name: v.Name, Role: engine.Load, Device: d, Ohm: ohm, BankSide: b.bypasses(v.Name)})
	return nil
}

// restart is not asked for when there is no cut to come back from.
func restart[Q q.Quantity](b *builder, off bool, set rig.Setting[Q], path string) float64 {
	if off && !set.Given {
		return 0
	}
	return value(b, set, path)
}

// bypasses reports whether every load on a device is fed from before the
// disconnect, and so the device itself.
func (b *builder) bypasses(name string) bool {
	any := false
	for _, l := range b.rig.Loads {
		if l.On == name && !l.BypassesRelay {
			return false
		}
		any = any || l.On == name
	}
	return any
}

// direct adds the loads on the bank on one side of the disconnect as one part.
func (b *builder) direct(name string, bankSide bool) {
	for _, l := range b.rig.Loads {
		if l.On == "bank" && l.BypassesRelay == bankSide {
			d := &device.Load{}
			b.out.Direct = append(b.out.Direct, Direct{Name: name, Device: d, BankSide: bankSide})
			b.add(engine.Part{Name: name, Role: engine.Load, Device: d, BankSide: bankSide})
			return
		}
	}
}

// heater adds the pad. Fed by a converter, it draws that converter's loss too.
func (b *builder) heater() {
	h := b.rig.Heater
	if h == nil {
		return
	}
	on, isOn := setting(b, h.On, "heater.on")
	off, _ := setting(b, h.Off, "heater.off")
	d := &device.Heater{PowerW: float64(*h.Power), OnC: on, OffC: max(on, off), Probe: device.AtGroup(0)}
	if !isOn {
		d.PowerW = 0
	}
	for k := range b.out.Converters {
		if c := &b.out.Converters[k]; c.Name == h.Supply {
			d.PowerW /= c.Device.Efficiency
			d.Stray = 1 - c.Device.Efficiency
		}
	}
	b.out.Pad = d
	b.add(engine.Part{Name: h.Name, Role: engine.Load, Device: d})
}
