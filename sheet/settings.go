package sheet

import (
	"slices"
	"strconv"

	q "ampstead/quantity"
	"ampstead/rig"
)

// Device is the settings sheet of one device.
type Device struct {
	Anchor  string
	Name    string
	Kind    string
	Rows    []Setting
	Changes int // rows that differ from today
}

// Setting is one line of a sheet.
type Setting struct {
	Name    string
	Path    string // in the rig file
	SetTo   Number
	Today   string
	Differs bool
	Why     string
}

// Sheet is a device as a table, on screen or for the pen.
type Sheet struct {
	Device
	Paper bool
}

// Sheets returns every device's sheet for the medium of the model.
func (m *Model) Sheets() []Sheet {
	var list []Sheet
	for _, d := range m.Devices {
		list = append(list, Sheet{d, m.Paper})
	}
	return list
}

// Summary counts what has to change.
func (d Device) Summary() string {
	switch d.Changes {
	case 0:
		return "nothing to change"
	case 1:
		return "1 change"
	}
	return strconv.Itoa(d.Changes) + " changes"
}

func (b *builder) devices() []Device {
	var list []Device
	for _, s := range b.res.Settings {
		i := slices.IndexFunc(list, func(d Device) bool { return d.Name == s.Device })
		if i < 0 {
			i = len(list)
			list = append(list, Device{Anchor: "device-" + strconv.Itoa(i+1), Name: s.Device, Kind: s.Kind})
		}
		step := b.steps[s.Device]
		list[i].Rows = append(list[i].Rows, Setting{Name: s.Setting, Path: s.Path,
			SetTo: b.number(setting(s.Value, s.Dim, s.Unit, step, b.sys), s.How),
			Today: setting(s.Today, s.Dim, s.Unit, step, b.sys), Differs: s.Differs, Why: s.Because})
		if s.Differs {
			list[i].Changes++
		}
	}
	return list
}

// steps gives the finest voltage step of each device that names one, V.
func steps(r *rig.Rig) map[string]float64 {
	list := map[string]float64{}
	put := func(name string, step *q.Voltage) {
		if step != nil {
			list[name] = float64(*step)
		}
	}
	for _, s := range r.Charge {
		put(s.Name, s.Step)
	}
	for _, c := range r.Converters {
		put(c.Name, c.Step)
	}
	for _, i := range r.Inverters {
		put(i.Name, i.Step)
	}
	for _, p := range r.Protection.Relays {
		put(p.Name, p.Step)
	}
	for _, p := range r.Protection.Meters {
		put(p.Name, p.Step)
	}
	return list
}
