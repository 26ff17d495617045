package sheet

import (
	"slices"

	"ampstead/fit"
)

// Layer is one row of the ladder of limits.
type Layer struct {
	Name    string // "alarm high"
	Plain   string // what it means
	Device  string
	Setting string
	Dial    string // as set on the device, empty when there is nothing to set
	Cell    Number // at the setting
	Worst   string // range of the cell when every tolerance is against you
	Likely  string
	Margin  string // to the next layer, worst case
	Perhaps string // the same, likely
	Over    string // how far the worst case reaches into the next layer, empty when it does not
	Member  bool   // a further device of the layer above it
	Harm    bool
}

var layerWords = map[string]string{
	fit.HarmLow:     "no cell ever below: the cell's own limit",
	fit.DisconnLow:  "loads are cut off",
	fit.AlarmLow:    "someone is warned",
	fit.DailyLow:    "loads stop by themselves",
	fit.DailyHigh:   "charging stops by itself",
	fit.AlarmHigh:   "someone is warned",
	fit.DisconnHigh: "the bank is cut off",
	fit.HarmHigh:    "no cell ever above: the cell's own limit",
}

// order is how a ladder is read: from the top down.
var order = []string{fit.HarmHigh, fit.DisconnHigh, fit.AlarmHigh, fit.DailyHigh, fit.DailyLow, fit.AlarmLow, fit.DisconnLow, fit.HarmLow}

// layers lists the ladder from its top to its foot, each layer followed by its
// further devices.
func (b *builder) layers(list []fit.Layer) []Layer {
	var rows []Layer
	for _, l := range slices.Backward(list) {
		rows = append(rows, b.layer(l))
		for _, m := range l.Members {
			if m.Device == l.Device && m.Setting == l.Setting {
				continue
			}
			row := b.layer(m)
			row.Member, row.Margin, row.Over = true, "", "" // only the whole layer has a margin
			rows = append(rows, row)
		}
	}
	return rows
}

func (b *builder) layer(l fit.Layer) Layer {
	row := Layer{Name: l.Name, Plain: layerWords[l.Name], Device: l.Device, Setting: l.Setting,
		Cell: b.number(bare(l.SetV), l.How), Harm: l.Name == fit.HarmHigh || l.Name == fit.HarmLow}
	if row.Harm {
		return row
	}
	row.Dial = volts(l.DeviceSetV, stepPlaces(l.DeviceSetV, b.steps[l.Device]))
	row.Worst, row.Likely = bare(l.LowV)+" to "+bare(l.HighV), bare(l.LikelyLowV)+" to "+bare(l.LikelyHighV)
	row.Margin, row.Perhaps = millivolts(l.MarginMV), millivolts(l.LikelyMV)
	if l.MarginMV < 0 {
		row.Over, row.Perhaps = millivolts(-l.MarginMV), "likely "+millivolts(l.LikelyMV)+" clear"
	}
	if l.MarginMV < 0 && l.LikelyMV < 0 {
		row.Perhaps = "likely by " + millivolts(-l.LikelyMV)
	}
	return row
}

// SameToday reports whether the layers as set today are those recommended.
func (m *Model) SameToday() bool {
	return len(m.Layers) > 0 && slices.EqualFunc(m.Layers, m.Today, func(a, b Layer) bool {
		return a.Name == b.Name && a.Device == b.Device && a.Setting == b.Setting && a.Dial == b.Dial && a.Worst == b.Worst
	})
}

// absent names the layers missing from a ladder that has any.
func absent(list []fit.Layer) []string {
	var names []string
	for _, name := range order {
		if !slices.ContainsFunc(list, func(l fit.Layer) bool { return l.Name == name }) {
			names = append(names, name)
		}
	}
	if len(names) == len(order) {
		return nil
	}
	return names
}

// LayerTable is a table of layers.
type LayerTable struct {
	Caption string
	Rows    []Layer
}

// Recommended is the table of layers to aim for.
func (m *Model) Recommended() LayerTable {
	return LayerTable{"The layers as recommended, from the top down", m.Layers}
}

// AsSet is the table of layers as they are set today.
func (m *Model) AsSet() LayerTable {
	return LayerTable{"The same layers as set today", m.Today}
}
