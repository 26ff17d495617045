package drill

import (
	"slices"
	"strings"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// copyOf is a rig whose lists and settings can be changed without a trace in r.
func copyOf(r *rig.Rig) *rig.Rig {
	c := *r
	c.Charge, c.Converters, c.Inverters = slices.Clone(r.Charge), slices.Clone(r.Converters), slices.Clone(r.Inverters)
	c.Loads = slices.Clone(r.Loads)
	p := &c.Protection
	p.Relays, p.Contactors, p.Meters = slices.Clone(p.Relays), slices.Clone(p.Contactors), slices.Clone(p.Meters)
	p.Cutouts, p.Fuses = slices.Clone(p.Cutouts), slices.Clone(p.Fuses)
	if r.Heater != nil {
		h := *r.Heater
		c.Heater = &h
	}
	return &c
}

// writer puts a value, a number in base units or fit.Off, into a setting.
type writer func(value any)

func into[Q q.Quantity](set *rig.Setting[Q]) writer {
	return func(value any) {
		*set = rig.Setting[Q]{Given: true, Off: true}
		if v, ok := value.(float64); ok {
			*set = rig.Setting[Q]{Given: true, Value: Q(v)}
		}
	}
}

// writers finds every setting of a rig by its path in the file.
func writers(r *rig.Rig) map[string]writer {
	w := map[string]writer{}
	for k := range r.Charge {
		chargeWriters(w, "charge."+r.Charge[k].Name+".settings.", &r.Charge[k].Settings)
	}
	for k := range r.Converters {
		x, at := &r.Converters[k], "converters."+r.Converters[k].Name
		w[at+".low_cut"], w[at+".restart"] = into(&x.LowCut), into(&x.Restart)
	}
	for k := range r.Inverters {
		x, at := &r.Inverters[k], "inverters."+r.Inverters[k].Name
		w[at+".low_cut"], w[at+".restart"] = into(&x.LowCut), into(&x.Restart)
	}
	protectionWriters(w, &r.Protection)
	if r.Heater != nil {
		w["heater.on"], w["heater.off"] = into(&r.Heater.On), into(&r.Heater.Off)
	}
	return w
}

func chargeWriters(w map[string]writer, at string, x *rig.ChargeSettings) {
	w[at+"profile"] = func(value any) { x.Profile, _ = value.(string) }
	w[at+"absorption"], w[at+"absorption_time"] = into(&x.Absorption), into(&x.AbsorptionTime)
	w[at+"tail"], w[at+"float"] = into(&x.Tail), into(&x.Float)
	w[at+"equalise"], w[at+"compensation"] = into(&x.Equalise), into(&x.Compensation)
	w[at+"restart"], w[at+"current"] = into(&x.Restart), into(&x.Current)
	w[at+"frost_lock"] = into(&x.FrostLock)
}

func protectionWriters(w map[string]writer, p *rig.Protection) {
	for k := range p.Relays {
		x, at := &p.Relays[k], "protection.relays."+p.Relays[k].Name
		w[at+".high"], w[at+".high_reset"], w[at+".high_delay"] = into(&x.High), into(&x.HighReset), into(&x.HighDelay)
		w[at+".low"], w[at+".low_reset"], w[at+".low_delay"] = into(&x.Low), into(&x.LowReset), into(&x.LowDelay)
	}
	for k := range p.Meters {
		x, at := &p.Meters[k], "protection.meters."+p.Meters[k].Name
		w[at+".alarm_high"], w[at+".alarm_low"] = into(&x.AlarmHigh), into(&x.AlarmLow)
		w[at+".spread"], w[at+".hot"] = into(&x.Spread), into(&x.Hot)
	}
	for k := range p.Cutouts {
		x, at := &p.Cutouts[k], "protection.cutouts."+p.Cutouts[k].Name
		w[at+".below"], w[at+".above"] = into(&x.Below), into(&x.Above)
	}
}

// setAsAdvised sets what fit advises for every setting whose path begins with one
// of the prefixes. Errors are those of fit.
func setAsAdvised(r *rig.Rig, prefixes []string) error {
	if len(prefixes) == 0 {
		return nil
	}
	res, err := fit.Run(r)
	if err != nil {
		return err
	}
	w := writers(r)
	for _, set := range res.Settings {
		for _, prefix := range prefixes {
			if put := w[set.Path]; put != nil && strings.HasPrefix(set.Path, prefix) {
				put(set.Value)
			}
		}
	}
	return nil
}

// fresh is a name that no part of the rig has: name, second name, third name.
func fresh(r *rig.Rig, name string) string {
	taken := taken(r)
	for _, ordinal := range []string{"", "second ", "third ", "fourth ", "fifth "} {
		if !taken[ordinal+name] {
			return ordinal + name
		}
	}
	return "another " + name
}

func taken(r *rig.Rig) map[string]bool {
	t := map[string]bool{}
	for _, all := range named(r) {
		for _, name := range all {
			t[name] = true
		}
	}
	if r.Heater != nil {
		t[r.Heater.Name] = true
	}
	return t
}

// named are the names in a rig's lists, by the path of the list.
func named(r *rig.Rig) map[string][]string {
	p := &r.Protection
	return map[string][]string{
		"charge":                names(r.Charge, func(x rig.Source) string { return x.Name }),
		"converters":            names(r.Converters, func(x rig.Converter) string { return x.Name }),
		"inverters":             names(r.Inverters, func(x rig.Inverter) string { return x.Name }),
		"loads":                 names(r.Loads, func(x rig.Load) string { return x.Name }),
		"protection.relays":     names(p.Relays, func(x rig.Relay) string { return x.Name }),
		"protection.contactors": names(p.Contactors, func(x rig.Contactor) string { return x.Name }),
		"protection.meters":     names(p.Meters, func(x rig.Meter) string { return x.Name }),
		"protection.cutouts":    names(p.Cutouts, func(x rig.Cutout) string { return x.Name }),
		"protection.fuses":      names(p.Fuses, func(x rig.Fuse) string { return x.Name }),
	}
}
