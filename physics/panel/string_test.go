package panel

import (
	"testing"

	"ampstead/figure"
	"ampstead/internal/figuretest"
)

func TestStringFiguresRefuse(t *testing.T) {
	for _, tt := range []struct {
		f        *figure.Figure
		in, want string
	}{
		{PanelCurrent, "isc=-1 A", "isc must be"},
		{PanelCurrent, "isc=9 A|parallel=0", "parallel must be"},
		{PanelsInSeries, "limit=0 V|voc=40 V|coldest=0 °C", "limit must be"},
		{PanelsInSeries, "limit=100 V|voc=40 V|coldest=-45 °C", "table ends"},
		{PanelsInSeries, "limit=100 V|voc=40 V|coldest=0 °C|series=2", "no input"},
		{ControllerCurrent, "rated=100 W|voltage=0 V", "voltage must be"},
	} {
		figuretest.Refuse(t, tt.f, tt.in, tt.want)
	}
}
