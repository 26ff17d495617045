package drill

import (
	"slices"

	"ampstead/assembly"
	"ampstead/device"
	"ampstead/rig"
)

// Layers of temperature, beside those of fit's ladder.
const (
	frostLayer  = "frost"
	heatLayer   = "heat"
	spreadLayer = "spread"
)

// guarding lists protective functions.
type guarding struct {
	rig  *rig.Rig
	list []Guard
}

// guardsOf lists every protective function of a rig, one for each thing it
// switches, and what each shares with others. A layer counts as one of its own
// only when it is independent of every other: two functions of one device are a
// single layer (CCPS criteria for layers of protection).
func guardsOf(r *rig.Rig, a *assembly.Assembly) []Guard {
	g := &guarding{rig: r}
	for _, c := range a.Chargers {
		g.source(&c)
	}
	for _, v := range a.Converters {
		g.consumer(v.Name, v.Device)
	}
	for _, v := range a.Inverters {
		g.consumer(v.Name, &v.Device.Converter)
	}
	for _, x := range a.Guards {
		switch d := x.Device.(type) {
		case *device.Relay:
			g.relay(x, d)
		case *device.Meter:
			g.meter(x, d)
		case *device.Cutout:
			g.cutout(x, d)
		}
	}
	g.share()
	return g.list
}

func (g *guarding) add(what, layer, device, sensor, opens string) {
	g.list = append(g.list, Guard{Name: device + ": " + what, Layer: layer, Device: device, Sensor: sensor, Logic: device, Switch: opens, SharesBy: []string{}})
}

func (g *guarding) source(c *assembly.Charger) {
	name, d := c.Source.Name, c.Device
	sensor := "terminals of " + name
	if d.AtBank {
		sensor = "sense wires of " + name
	}
	g.add("end of charge", "daily high", name, sensor, name)
	if d.FrostLock && d.Probe > 0 {
		g.add("frost lock", frostLayer, name, "thermometer of "+name, name)
	}
}

func (g *guarding) consumer(name string, d *device.Converter) {
	if d.LowCutV > 0 {
		g.add("low cut-off", "daily low", name, "terminals of "+name, name)
	}
}

func (g *guarding) relay(x assembly.Guard, d *device.Relay) {
	sensor := "sense wires of " + x.Name
	if d.AtBus {
		sensor = "bus, by " + x.Name
	}
	for _, to := range x.Stops {
		if d.HighV > 0 {
			g.add("high, opens "+to, "disconnect high", x.Name, sensor, to)
		}
		if d.LowV > 0 {
			g.add("low, opens "+to, "disconnect low", x.Name, sensor, to)
		}
	}
}

func (g *guarding) meter(x assembly.Guard, d *device.Meter) {
	taps, probe := "tap wires of "+x.Name, "thermometer of "+x.Name
	for _, f := range []struct {
		is            bool
		layer, sensor string
		alarm         device.Alarm
	}{
		{d.HighV > 0, "alarm high", taps, device.AlarmHigh}, {d.LowV > 0, "alarm low", taps, device.AlarmLow},
		{d.SpreadV > 0, spreadLayer, taps, device.AlarmSpread}, {d.HotC > 0, heatLayer, probe, device.AlarmHot},
	} {
		if !f.is {
			continue
		}
		g.add(f.layer+", sounds", f.layer, x.Name, f.sensor, "")
		for _, to := range x.Stops {
			if d.Acts&f.alarm != 0 {
				g.add(f.layer+", stops "+to, f.layer, x.Name, f.sensor, to)
			}
		}
	}
}

func (g *guarding) cutout(x assembly.Guard, d *device.Cutout) {
	for _, to := range x.Stops {
		if d.Below {
			g.add("cold, stops "+to, frostLayer, x.Name, "thermometer of "+x.Name, to)
		}
		if d.Above {
			g.add("hot, stops "+to, heatLayer, x.Name, "thermometer of "+x.Name, to)
		}
	}
}

// share notes what each guard has in common with others of the same layer, and
// with those of other layers on the same side.
func (g *guarding) share() {
	for i := range g.list {
		a := &g.list[i]
		for j := range g.list {
			if b := &g.list[j]; i != j {
				if what := inCommon(a, b); what != "" {
					a.SharesBy = append(a.SharesBy, what+" with "+b.Name)
				}
			}
		}
		slices.Sort(a.SharesBy)
	}
}

// inCommon says what two guards share, or "".
func inCommon(a, b *Guard) string {
	what := ""
	for _, s := range []struct {
		is   bool
		name string
	}{{a.Sensor == b.Sensor, "sensor"}, {a.Logic == b.Logic, "logic"}, {a.Switch != "" && a.Switch == b.Switch, "switch"}} {
		switch {
		case s.is && what == "":
			what = s.name
		case s.is:
			what += ", " + s.name
		}
	}
	return what
}
