package fit_test

import (
	"strings"
	"testing"

	"ampstead/fit"
	"ampstead/internal/example"
	q "ampstead/quantity"
	"ampstead/rig"
)

// load reads an example rig.
func load(t testing.TB, name string) *rig.Rig {
	t.Helper()
	return example.File(t, name).Rig
}

func run(t testing.TB, r *rig.Rig) *fit.Result {
	t.Helper()
	res, err := fit.Run(r)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// set makes a setting that is on, ptr an optional quantity.
func set[Q q.Quantity](v float64) rig.Setting[Q] { return rig.Setting[Q]{Given: true, Value: Q(v)} }
func off[Q q.Quantity]() rig.Setting[Q]          { return rig.Setting[Q]{Given: true, Off: true} }
func ptr[Q q.Quantity](v float64) *Q             { p := Q(v); return &p }

// write puts a recommended value into a setting of the rig.
func write[Q q.Quantity](into *rig.Setting[Q]) func(any) {
	return func(v any) {
		if n, ok := v.(float64); ok {
			*into = set[Q](n)
			return
		}
		*into = off[Q]()
	}
}

// setters finds every setting of a rig by its path.
func setters(r *rig.Rig) map[string]func(any) {
	all := map[string]func(any){}
	for k := range r.Charge {
		x := &r.Charge[k].Settings
		at := "charge." + r.Charge[k].Name + ".settings."
		all[at+"profile"] = func(v any) { x.Profile = v.(string) }
		all[at+"absorption"], all[at+"absorption_time"] = write(&x.Absorption), write(&x.AbsorptionTime)
		all[at+"tail"], all[at+"float"] = write(&x.Tail), write(&x.Float)
		all[at+"equalise"], all[at+"compensation"] = write(&x.Equalise), write(&x.Compensation)
		all[at+"restart"], all[at+"current"] = write(&x.Restart), write(&x.Current)
		all[at+"frost_lock"] = write(&x.FrostLock)
	}
	for k := range r.Inverters {
		x, at := &r.Inverters[k], "inverters."+r.Inverters[k].Name
		all[at+".low_cut"], all[at+".restart"] = write(&x.LowCut), write(&x.Restart)
	}
	for k := range r.Converters {
		x, at := &r.Converters[k], "converters."+r.Converters[k].Name
		all[at+".low_cut"], all[at+".restart"] = write(&x.LowCut), write(&x.Restart)
	}
	for k := range r.Protection.Relays {
		x, at := &r.Protection.Relays[k], "protection.relays."+r.Protection.Relays[k].Name
		all[at+".high"], all[at+".high_reset"], all[at+".high_delay"] = write(&x.High), write(&x.HighReset), write(&x.HighDelay)
		all[at+".low"], all[at+".low_reset"], all[at+".low_delay"] = write(&x.Low), write(&x.LowReset), write(&x.LowDelay)
	}
	for k := range r.Protection.Meters {
		x, at := &r.Protection.Meters[k], "protection.meters."+r.Protection.Meters[k].Name
		all[at+".alarm_high"], all[at+".alarm_low"] = write(&x.AlarmHigh), write(&x.AlarmLow)
		all[at+".spread"], all[at+".hot"] = write(&x.Spread), write(&x.Hot)
	}
	for k := range r.Protection.Cutouts {
		x, at := &r.Protection.Cutouts[k], "protection.cutouts."+r.Protection.Cutouts[k].Name
		all[at+".below"], all[at+".above"] = write(&x.Below), write(&x.Above)
	}
	if r.Heater != nil {
		all["heater.on"], all["heater.off"] = write(&r.Heater.On), write(&r.Heater.Off)
	}
	return all
}

// apply sets every device of the rig as recommended.
func apply(t interface {
	Helper()
	Fatalf(string, ...any)
}, r *rig.Rig, res *fit.Result) {
	t.Helper()
	all := setters(r)
	for _, s := range res.Settings {
		put := all[s.Path]
		if put == nil {
			t.Fatalf("setting %s has no place in the rig", s.Path)
		}
		put(s.Value)
		delete(all, s.Path)
	}
	var left []string
	for path := range all {
		left = append(left, path)
	}
	if len(left) > 0 {
		t.Fatalf("no recommendation for %s", strings.Join(left, ", "))
	}
}
