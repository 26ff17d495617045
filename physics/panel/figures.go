package panel

import (
	"fmt"

	"ampstead/figure"
	"ampstead/quantity"
	"ampstead/source"
)

// Figures lists the formulas of this package.
func Figures() []*figure.Figure {
	return []*figure.Figure{PlaneIrradiance, IncidenceLoss, CellTemperature, PanelPower, PowerAtCell, SystemLoss, PanelColdVoltage,
		PanelCurrent, PanelsInSeries, ControllerCurrent}
}

// Inputs that several figures share.
var (
	tilted      = figure.Input{Name: "tilt", Dim: quantity.Degrees, Doc: "of the panel, 0° flat", Default: "0 °"}
	onPanel     = figure.Input{Name: "irradiance", Dim: quantity.WattsPerM2, Doc: "on the panel"}
	ambient     = figure.Input{Name: "ambient", Dim: quantity.Celsius, Doc: "temperature of the air"}
	wind        = figure.Input{Name: "wind", Dim: quantity.MetresPerSecond, Doc: "speed of the wind", Default: "1 m/s"}
	rated       = figure.Input{Name: "rated", Dim: quantity.Watts, Doc: "power of the panels at 1000 W/m² and 25 °C"}
	coefficient = figure.Input{Name: "temperature-coefficient", Dim: quantity.PerKelvin, Doc: "of the power, on the data sheet", Default: "-0.35 %/K"}
	mounting    = figure.Input{Name: "mounting", Doc: "free (Faiman), open-rack-glass, close-mount-glass, open-rack-polymer, insulated-back (glued to a roof) or ross (from noct)", Default: "free", Example: "insulated-back"}
	noct        = figure.Input{Name: "noct", Dim: quantity.Celsius, Doc: "nominal operating cell temperature, for mounting=ross", Default: "45 °C"}
)

func check(s source.Source, note, out string, want, tolerance float64, in ...string) figure.Check {
	return figure.Check{Source: s, Note: note, In: in, Output: out, Expected: want, Tolerance: tolerance}
}

// limit is the range of an input.
type limit struct {
	name        string
	least, most float64
}

// inside refuses numbers outside their limits, and what is not a number.
func inside(a figure.Args, limits ...limit) error {
	for _, l := range limits {
		if v := a.Num(l.name); !(v >= l.least && v <= l.most) {
			return fmt.Errorf("%s must be from %g to %g: %w", l.name, l.least, l.most, figure.ErrRange)
		}
	}
	return nil
}

var (
	brightLimit = limit{"irradiance", 0, 2000}
	airLimit    = limit{"ambient", -90, 70}
	windLimit   = limit{"wind", 0, 100}
	ratedLimit  = limit{"rated", 0, 1e9}
	slopeLimit  = limit{"temperature-coefficient", -0.02, 0.02}
	tiltLimit   = limit{"tilt", 0, 180}
)
