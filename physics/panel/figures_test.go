package panel

import (
	"strings"
	"testing"

	"ampstead/figure"
	"ampstead/internal/figuretest"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestFiguresRefuse(t *testing.T) {
	light := "ghi=1 W/m2|dni=1 W/m2|dhi=1 W/m2|latitude=40|longitude=0|time=2026-06-01T12:00:00Z"
	refuse := func(f *figure.Figure, in, says string) { figuretest.Refuse(t, f, in, says) }
	refuse(PlaneIrradiance, "ghi=1 W/m2", "needs dni")
	refuse(PlaneIrradiance, strings.Replace(light, "2026", "26", 1), "is not a date and time")
	refuse(PlaneIrradiance, light+"|model=mine", "expected perez")
	refuse(PlaneIrradiance, light+"|albedo=2", "albedo must be")
	refuse(IncidenceLoss, "incidence=200 °", "incidence must be")
	refuse(IncidenceLoss, "incidence=20 °|model=mine", "expected physical")
	refuse(CellTemperature, "irradiance=1 W/m2|ambient=20 °C|mounting=glued", "insulated-back")
	refuse(CellTemperature, "irradiance=-1 W/m2|ambient=20 °C", "irradiance must be")
	refuse(PanelPower, "irradiance=1 W/m2|ambient=20 °C", "needs rated")
	refuse(PanelPower, "irradiance=1 W/m2|ambient=20 °C|wind=-1 m/s|rated=1 W", "wind must be")
	refuse(PanelPower, "irradiance=1 W/m2|ambient=20 °C|rated=1 W|temperature-coefficient=-0.35", "temperature-coefficient must be")
	refuse(PowerAtCell, "irradiance=1 W/m2|cell-temperature=200 °C|rated=1 W", "cell-temperature must be")
	refuse(SystemLoss, "shading=120 %", "shading must be")
	refuse(PanelColdVoltage, "voc=40 V|coldest=-45 °C", "the table ends")
	refuse(PanelColdVoltage, "voc=40 V|coldest=-45 °C|method=guess", "expected table or coefficient")
	refuse(PanelColdVoltage, "voc=40 V|coldest=-45 °C|method=coefficient|temperature-coefficient=0.3 %/K", "temperature-coefficient must be")
}
