package picture

import (
	"slices"

	"pgregory.net/rapid"

	"ampstead/fit"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	"ampstead/physics/cell"
)

// anyResult draws a result that may be as odd as a rig file allows: layers in
// any order, far outside the cell's range, missing, many devices in one.
func anyResult(t *rapid.T) *fit.Result {
	num := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	res := &fit.Result{}
	res.Cell.Name = rapid.SampledFrom(cell.Names()).Draw(t, "cell")
	res.Cell.Series = rapid.IntRange(1, 64).Draw(t, "series")
	low := num(1.7, 3, "low")
	high := low + num(0.3, 1.5, "span")
	res.Window = fit.Window{CellLowV: low, CellHighV: high}
	dailyLow := num(low, high, "daily low")
	res.Daily = fit.Window{CellLowV: dailyLow, CellHighV: num(dailyLow, high, "daily high"),
		UsableWh: num(0, 50000, "energy"), UsableAh: num(0, 2000, "charge")}
	res.Layers = append([]fit.Layer{harmOf(fit.HarmLow, low), harmOf(fit.HarmHigh, high)}, anyLayers(t, low, high, res.Cell.Series)...)
	res.Today = anyLayers(t, low-1, high+1, res.Cell.Series)
	temp := -40.0
	for range rapid.IntRange(0, 12).Draw(t, "marks") {
		temp += num(0, 15, "step")
		tol := num(0, 8, "tolerance")
		res.Warmth = append(res.Warmth, fit.Mark{Name: anyName(t), Device: rapid.SampledFrom([]string{"cell", "frost switch"}).Draw(t, "of"),
			TempC: temp, LowC: temp - tol, HighC: temp + tol})
	}
	return res
}

func anyLayers(t *rapid.T, low, high float64, series int) []fit.Layer {
	var list []fit.Layer
	for _, name := range slices.Concat(lowOrder[:3], highOrder[:3]) {
		one := func() fit.Layer {
			v := rapid.Float64Range(low, high).Draw(t, "volts")
			dialled := v
			if rapid.Bool().Draw(t, "bank") {
				dialled *= float64(series)
			}
			worst := rapid.Float64Range(0, 0.2).Draw(t, "worst")
			margin := rapid.Float64Range(-2000, 2000).Draw(t, "margin")
			return layerOf(name, anyName(t), anyName(t), v, worst, worst*0.7, margin, dialled)
		}
		switch n := rapid.IntRange(0, 4).Draw(t, "devices"); n {
		case 0:
		case 1:
			list = append(list, one())
		default:
			l := one()
			for range n {
				l.Members = append(l.Members, one())
			}
			list = append(list, l)
		}
	}
	return list
}

func anyName(t *rapid.T) string {
	return rapid.SampledFrom([]string{"", "relay", "roof solar", "the charger that came with the alternator", "Überspannungsschutzrelaisansteuerung",
		"二次電池の保護リレー", "WWWWWWWWWWWWWWWWWWWWWWWWW", "low cut", "& <odd> \"names\""}).Draw(t, "name")
}
