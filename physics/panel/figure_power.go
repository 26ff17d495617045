package panel

import (
	"fmt"
	"strings"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

const temperatureEquation = "free: T = ambient + G/(25 + 6.84·wind); King: T = ambient + G·exp(a + b·wind) + G/1000·ΔT; ross: T = ambient + G/800·(noct - 20 °C)"

// cellTemperature finds the temperature of the cells by the mounting.
func cellTemperature(a figure.Args) (float64, error) {
	if err := inside(a, brightLimit, airLimit, windLimit, limit{"noct", 20, 100}); err != nil {
		return 0, err
	}
	g, ta, v := a.Num("irradiance"), a.Num("ambient"), a.Num("wind")
	name := a.Text("mounting")
	switch name {
	case "free":
		return Faiman(g, ta, v, FaimanU0, FaimanU1), nil
	case "ross":
		return Ross(g, ta, a.Num("noct")), nil
	}
	for _, m := range []Mounting{OpenGlass, CloseGlass, OpenPolymer, InsulatedBack} {
		if m.Name == name {
			return m.CellTemperature(g, ta, v), nil
		}
	}
	return 0, fmt.Errorf("mounting %q: expected %s", name, mounting.Doc)
}

// CellTemperature answers how warm a panel gets.
var CellTemperature = &figure.Figure{
	Name:     "cell-temperature",
	Answers:  "How warm do the panel's cells get in the sun?",
	Inputs:   []figure.Input{onPanel, ambient, wind, mounting, noct},
	Outputs:  []figure.Output{{Key: "cell_temperature_c", Dim: quantity.Celsius, Doc: "of the cells"}},
	Equation: temperatureEquation,
	Source:   source.CellTemperature,
	Range:    "steady light; free takes the wind at the panel, King's mountings at 10 m; a panel glued to a roof runs 25 K and more warmer than a free one",
	Compute: func(a figure.Args) (figure.Results, error) {
		t, err := cellTemperature(a)
		return figure.Results{"cell_temperature_c": t}, err
	},
	Checks: []figure.Check{
		check(source.SunTables, "free standing", "cell_temperature_c", 56.407035, 1e-5, fullSun...),
		check(source.SunTables, "open rack, glass", "cell_temperature_c", 57.322504, 1e-5, with("mounting=open-rack-glass")...),
		check(source.SunTables, "close mount, glass", "cell_temperature_c", 74.455957, 1e-5, with("mounting=close-mount-glass")...),
		check(source.SunTables, "open rack, polymer", "cell_temperature_c", 54.383934, 1e-5, with("mounting=open-rack-polymer")...),
		check(source.SunTables, "insulated back", "cell_temperature_c", 82.52705, 1e-5, with("mounting=insulated-back")...),
		check(source.SunTables, "by the nominal operating cell temperature", "cell_temperature_c", 56.25, 1e-9, with("mounting=ross")...),
	},
}

var fullSun = []string{"irradiance=1000 W/m2", "ambient=25 °C", "wind=1 m/s"}

func with(more ...string) []string { return append(fullSun[:len(fullSun):len(fullSun)], more...) }

// PanelPower answers what a panel gives.
var PanelPower = &figure.Figure{
	Name:    "panel-power",
	Answers: "What does the panel give in this light and weather?",
	Inputs:  []figure.Input{onPanel, ambient, wind, rated, coefficient, mounting, noct},
	Outputs: []figure.Output{
		{Key: "cell_temperature_c", Dim: quantity.Celsius, Doc: "of the cells"},
		{Key: "power_w", Dim: quantity.Watts, Doc: "at its best voltage, without the losses of the figure system-loss"},
	},
	Equation: "power = rated · G/1000 · (1 + temperature-coefficient · (T - 25 °C)); " + temperatureEquation,
	Source:   source.Dobos2014,
	Range:    "steady light from 100 W/m² up, in weak light panels give some percent less; a year within 10 %, a month within 30 %",
	Compute: func(a figure.Args) (figure.Results, error) {
		t, err := cellTemperature(a)
		if err != nil {
			return nil, err
		}
		if err := inside(a, ratedLimit, slopeLimit); err != nil {
			return nil, err
		}
		return figure.Results{"cell_temperature_c": t, "power_w": Power(a.Num("irradiance"), t, a.Num("rated"), a.Num("temperature-coefficient"))}, nil
	},
	Checks: []figure.Check{
		check(source.SunTables, "100 W in full sun", "power_w", 89.007538, 1e-5, with("rated=100 W", "temperature-coefficient=-0.35 %/K")...),
		check(source.SunTables, "the same, cells", "cell_temperature_c", 56.407035, 1e-5, with("rated=100 W")...),
		check(source.SunTables, "storm and frost", "power_w", 86.636541, 1e-5, "irradiance=755.1 W/m2", "ambient=-25 °C", "wind=10.32 m/s", "rated=100 W"),
		check(source.SunTables, "no light", "power_w", 0, 1e-12, "irradiance=0 W/m2", "ambient=20 °C", "rated=100 W"),
	},
}

// PowerAtCell is PanelPower for a known cell temperature.
var PowerAtCell = &figure.Figure{
	Name:     "panel-power-at-cell",
	Answers:  "What does the panel give at this cell temperature?",
	Inputs:   []figure.Input{onPanel, {Name: "cell-temperature", Dim: quantity.Celsius, Doc: "of the cells"}, rated, coefficient},
	Outputs:  []figure.Output{{Key: "power_w", Dim: quantity.Watts, Doc: "at its best voltage, without other losses"}},
	Equation: "power = rated · G/1000 · (1 + temperature-coefficient · (cell-temperature - 25 °C))",
	Source:   source.Dobos2014,
	Range:    "coefficient about -0.47 %/K for standard, -0.35 premium, -0.20 thin film",
	Compute: func(a figure.Args) (figure.Results, error) {
		if err := inside(a, brightLimit, ratedLimit, slopeLimit, limit{"cell-temperature", -90, 150}); err != nil {
			return nil, err
		}
		return figure.Results{"power_w": Power(a.Num("irradiance"), a.Num("cell-temperature"), a.Num("rated"), a.Num("temperature-coefficient"))}, nil
	},
	Checks: []figure.Check{
		check(source.Dobos2014, "900 W/m², 30 °C, 100 W, -0.3 %/K", "power_w", 88.65, 1e-6,
			"irradiance=900 W/m2", "cell-temperature=30 °C", "rated=100 W", "temperature-coefficient=-0.3 %/K"),
	},
}

// SystemLoss answers what an array loses beside heat.
var SystemLoss = &figure.Figure{
	Name:    "system-loss",
	Answers: "What do soiling, shade, wiring and the rest take together?",
	Inputs:  lossInputs(),
	Outputs: []figure.Output{
		{Key: "loss_percent", Dim: quantity.Percent, Doc: "of all together"},
		{Key: "keep_fraction", Dim: quantity.Fraction, Doc: "left over"},
	},
	Equation: "loss = 100 % · (1 - Π(1 - L/100 %))",
	Source:   source.Dobos2014,
	Range:    "yearly means; the defaults are for arrays on the ground or a house: a flat roof of a vehicle has more dirt and shade",
	Compute: func(a figure.Args) (figure.Results, error) {
		losses := UsualLosses()
		for k := range losses {
			losses[k].Percent = a.Num(losses[k].Name)
			if err := inside(a, limit{losses[k].Name, 0, 100}); err != nil {
				return nil, err
			}
		}
		total := TotalLoss(losses)
		return figure.Results{"loss_percent": total, "keep_fraction": 1 - total/100}, nil
	},
	Checks: []figure.Check{
		check(source.Dobos2014, "defaults, printed 14.0757", "loss_percent", 14.0757, 1e-4),
		check(source.Equation, "half in shade, nothing else", "loss_percent", 50, 1e-9, "soiling=0 %", "shading=50 %", "mismatch=0 %", "wiring=0 %",
			"connections=0 %", "light-induced=0 %", "nameplate=0 %", "availability=0 %"),
	},
}

func lossInputs() []figure.Input {
	var list []figure.Input
	for _, l := range UsualLosses() {
		list = append(list, figure.Input{Name: l.Name, Dim: quantity.Percent, Doc: strings.ReplaceAll(l.Name, "-", " ") + ", percent", Default: fmt.Sprintf("%g %%", l.Percent)})
	}
	return list
}
