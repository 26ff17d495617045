package picture

import (
	"math"

	"ampstead/fit"
	"ampstead/physics/cell"
)

// layerOf makes a layer with a bar that reaches worst and likely volts to either side.
func layerOf(name, device, setting string, set, worst, likely, marginMV, dialled float64) fit.Layer {
	side := "high"
	if len(name) > 3 && name[len(name)-3:] == "low" {
		side = "low"
	}
	return fit.Layer{Name: name, Device: device, Setting: setting, Side: side, SetV: set,
		LowV: set - worst, HighV: set + worst, LikelyLowV: set - likely, LikelyHighV: set + likely,
		MarginMV: marginMV, LikelyMV: marginMV + 1000*(worst-likely)*1.5, DeviceSetV: dialled}
}

func harmOf(name string, v float64) fit.Layer {
	return layerOf(name, "cell", "limit", v, 0, 0, 0, v)
}

// shared makes one layer of several devices at the same setting.
func shared(l fit.Layer, devices ...string) fit.Layer {
	for i, d := range devices {
		m := l
		m.Device = d
		m.HighV += 0.004 * float64(i)
		m.LowV -= 0.004 * float64(i)
		l.Members = append(l.Members, m)
	}
	return l
}

// curlewDraft is a result like that of the example rig as first drafted.
func curlewDraft() *fit.Result {
	res := curlew()
	solar := layerOf(fit.DailyHigh, "roof solar", "absorption", 4.8, 0.021, 0.015, -620, 57.6)
	equal := layerOf(fit.DailyHigh, "roof solar", "equalise", 62.0/12, 0.022, 0.016, -990, 62)
	other := shared(layerOf(fit.DailyHigh, "", "absorption", 4.1, 0.027, 0.019, 101, 49.2), "mains charger", "alternator charger")
	top := solar
	top.Members = append([]fit.Layer{solar, equal}, other.Members...)
	res.Today = []fit.Layer{
		harmOf(fit.HarmLow, 3),
		layerOf(fit.DisconnLow, "guard relay", "low", 2.8, 0.045, 0.032, -240, 33.6),
		layerOf(fit.AlarmLow, "cell meter", "alarm low", 2.7, 0.005, 0.004, -140, 2.7),
		layerOf(fit.DailyLow, "mains inverter", "low cut", 40.0/12, 0.058, 0.042, 570, 40),
		top,
		layerOf(fit.AlarmHigh, "cell meter", "alarm high", 4.25, 0.005, 0.004, -46, 4.25),
		layerOf(fit.DisconnHigh, "guard relay", "high", 50.8/12, 0.027, 0.02, -60, 50.8),
		harmOf(fit.HarmHigh, 4.2),
	}
	return res
}

// curlew is a result like that of the example rig as mended.
func curlew() *fit.Result {
	res := &fit.Result{
		Kind:   libraryCell("nmc532"),
		Cell:   fit.CellInfo{Name: "nmc532", Title: "nickel-manganese-cobalt 532", Series: 12, Capacity: 168},
		Window: fit.Window{CellLowV: 3, CellHighV: 4.2, BankLowV: 36, BankHighV: 50.4, LowSoC: 0.006, HighSoC: 1, UsableAh: 167, UsableWh: 7390},
		Daily:  fit.Window{CellLowV: 3.4, CellHighV: 4.075, BankLowV: 40.8, BankHighV: 48.9, LowSoC: 0.08, HighSoC: 0.89, UsableAh: 136, UsableWh: 6030},
		Layers: []fit.Layer{
			harmOf(fit.HarmLow, 3),
			layerOf(fit.DisconnLow, "guard relay", "low", 37.2/12, 0.06, 0.045, 40, 37.2),
			layerOf(fit.AlarmLow, "cell meter", "alarm low", 3.25, 0.005, 0.004, 85, 3.25),
			shared(layerOf(fit.DailyLow, "mains inverter", "low cut", 3.4, 0.06, 0.043, 60, 40.8), "mains inverter", "12 V converter"),
			shared(layerOf(fit.DailyHigh, "roof solar", "absorption", 4.075, 0.018, 0.013, 21, 48.9), "roof solar", "mains charger", "alternator charger"),
			layerOf(fit.AlarmHigh, "cell meter", "alarm high", 4.12, 0.005, 0.004, 10, 4.12),
			layerOf(fit.DisconnHigh, "guard relay", "high", 49.9/12, 0.0285, 0.021, 13, 49.9),
			harmOf(fit.HarmHigh, 4.2),
		},
		Warmth: []fit.Mark{
			{Name: "frost limit", Device: "cell", TempC: 0, LowC: 0, HighC: 0},
			{Name: "frost lock", Device: "frost switch", TempC: 5, LowC: 3, HighC: 7},
			{Name: "heater on", Device: "heater pad", TempC: 9, LowC: 8, HighC: 10},
			{Name: "heater off", Device: "heater pad", TempC: 13, LowC: 12, HighC: 14},
			{Name: "charge stop, hot", Device: "frost switch", TempC: 40, LowC: 38, HighC: 42},
			{Name: "alarm, hot", Device: "cell meter", TempC: 55, LowC: 55, HighC: 55},
			{Name: "harm, hot", Device: "cell", TempC: 60, LowC: 60, HighC: 60},
		},
	}
	res.Today = append([]fit.Layer(nil), res.Layers...)
	return res
}

// dipper is a result like that of the small van's rig.
func dipper() *fit.Result {
	return &fit.Result{
		Kind:   libraryCell("nca"),
		Cell:   fit.CellInfo{Name: "nca", Series: 7, Capacity: 105},
		Window: fit.Window{CellLowV: 3, CellHighV: 4.2, BankLowV: 21, BankHighV: 29.4, LowSoC: 0.05, HighSoC: 1, UsableAh: 100, UsableWh: 2600},
		Daily:  fit.Window{CellLowV: 3.4, CellHighV: 4.05, BankLowV: 23.8, BankHighV: 28.4, LowSoC: 0.2, HighSoC: 0.87, UsableAh: 70, UsableWh: 1810},
		Layers: []fit.Layer{
			harmOf(fit.HarmLow, 3),
			layerOf(fit.DisconnLow, "low relay", "low", 22.1/7, 0.09, 0.07, 60, 22.1),
			layerOf(fit.DailyLow, "12 V converter", "low cut", 3.4, 0.05, 0.04, 100, 23.8),
			layerOf(fit.DailyHigh, "roof solar", "absorption", 28.4/7, 0.015, 0.011, 50, 28.4),
			layerOf(fit.DisconnHigh, "high relay", "high", 29/7.0, 0.025, 0.018, 15, 29),
			harmOf(fit.HarmHigh, 4.2),
		},
		Today: []fit.Layer{
			layerOf(fit.DailyHigh, "roof solar", "absorption", 28.8/7, 0.015, 0.011, 70, 28.8),
		},
		Warmth: []fit.Mark{
			{Name: "frost limit", Device: "cell", TempC: 0, LowC: 0, HighC: 0},
			{Name: "frost lock", Device: "charge sources", TempC: 5, LowC: 3, HighC: 7},
			{Name: "charge stop, hot", Device: "charge sources", TempC: 40, LowC: 38, HighC: 42},
			{Name: "alarm, hot", Device: "cell meter", TempC: 55, LowC: 55, HighC: 55},
			{Name: "harm, hot", Device: "cell", TempC: 60, LowC: 60, HighC: 60},
		},
	}
}

// flatIron and acid have the same layers as curlew, moved to another cell's range.
func flatIron() *fit.Result { return moved(curlewDraft(), 2.5, 3.65, 16, "lfp") }
func acid() *fit.Result     { return moved(curlew(), 1.85, 2.4, 12, "lead-acid-agm") }

func moved(res *fit.Result, low, high float64, series int, name string) *fit.Result {
	old := res.Window
	to := func(v float64) float64 { return low + (v-old.CellLowV)/(old.CellHighV-old.CellLowV)*(high-low) }
	layers := func(list []fit.Layer) []fit.Layer { return movedLayers(list, to, float64(series)) }
	res.Layers, res.Today = layers(res.Layers), layers(res.Today)
	res.Cell.Series = series
	res.Daily.CellLowV, res.Daily.CellHighV = to(res.Daily.CellLowV), to(res.Daily.CellHighV)
	res.Cell.Name, res.Kind = name, libraryCell(name)
	res.Daily.LowSoC, res.Daily.HighSoC = res.Kind.Curve.SoC(res.Daily.CellLowV), res.Kind.Curve.SoC(res.Daily.CellHighV)
	res.Window.CellLowV, res.Window.CellHighV = low, high
	return res
}

func movedLayers(list []fit.Layer, to func(float64) float64, series float64) []fit.Layer {
	out := make([]fit.Layer, len(list))
	for i, l := range list {
		l.SetV, l.LowV, l.HighV, l.LikelyLowV, l.LikelyHighV = to(l.SetV), to(l.LowV), to(l.HighV), to(l.LikelyLowV), to(l.LikelyHighV)
		l.DeviceSetV = math.Round(l.SetV*1000) / 1000
		if l.Device != "cell meter" {
			l.DeviceSetV = math.Round(l.SetV*series*10) / 10
		}
		l.Members = movedLayers(l.Members, to, series)
		out[i] = l
	}
	return out
}

func libraryCell(name string) *cell.Cell {
	c, err := cell.Lookup(name)
	if err != nil {
		panic(err)
	}
	return c
}
