package panel

import (
	"strings"
	"testing"

	"ampstead/figure"
)

func TestEveryCheckPasses(t *testing.T) {
	for _, f := range Figures() {
		if len(f.Checks) == 0 {
			t.Errorf("%s has no check", f.Name)
		}
		for _, o := range f.Verify() {
			if !o.Pass {
				t.Errorf("%s: %s (%s): got %v, want %v within %g", f.Name, o.Note, o.Source, o.Got, o.Expected, o.Tolerance)
			}
		}
	}
}

func TestOutputsAreDeclared(t *testing.T) {
	for _, f := range Figures() {
		use, err := f.Read(f.Checks[0].In)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
			continue
		}
		for _, o := range f.Outputs {
			if _, ok := use.Out[o.Key]; !ok || len(use.Out) != len(f.Outputs) {
				t.Errorf("%s gives %v, declares %s", f.Name, use.Out, o.Key)
			}
		}
	}
}

func TestFiguresRefuse(t *testing.T) {
	light := "ghi=1 W/m2|dni=1 W/m2|dhi=1 W/m2|latitude=40|longitude=0|time=2026-06-01T12:00:00Z"
	tests := []struct {
		f        *figure.Figure
		in, want string
	}{
		{PlaneIrradiance, "ghi=1 W/m2", "needs dni"},
		{PlaneIrradiance, strings.Replace(light, "2026", "26", 1), "is not a date and time"},
		{PlaneIrradiance, light + "|model=mine", "expected perez"},
		{PlaneIrradiance, light + "|albedo=2", "albedo must be"},
		{IncidenceLoss, "incidence=200 °", "incidence must be"},
		{IncidenceLoss, "incidence=20 °|model=mine", "expected physical"},
		{CellTemperature, "irradiance=1 W/m2|ambient=20 °C|mounting=glued", "insulated-back"},
		{CellTemperature, "irradiance=-1 W/m2|ambient=20 °C", "irradiance must be"},
		{PanelPower, "irradiance=1 W/m2|ambient=20 °C", "needs rated"},
		{PanelPower, "irradiance=1 W/m2|ambient=20 °C|wind=-1 m/s|rated=1 W", "wind must be"},
		{PanelPower, "irradiance=1 W/m2|ambient=20 °C|rated=1 W|temperature-coefficient=-0.35", "temperature-coefficient must be"},
		{PowerAtCell, "irradiance=1 W/m2|cell-temperature=200 °C|rated=1 W", "cell-temperature must be"},
		{SystemLoss, "shading=120 %", "shading must be"},
		{PanelColdVoltage, "voc=40 V|coldest=-45 °C", "the table ends"},
		{PanelColdVoltage, "voc=40 V|coldest=-45 °C|method=guess", "expected table or coefficient"},
		{PanelColdVoltage, "voc=40 V|coldest=-45 °C|method=coefficient|temperature-coefficient=0.3 %/K", "temperature-coefficient must be"},
	}
	for _, tt := range tests {
		use, err := tt.f.Read(strings.Split(tt.in, "|"))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s %s: got %v, %v; want an error with %q", tt.f.Name, tt.in, use.Out, err, tt.want)
		}
	}
}
