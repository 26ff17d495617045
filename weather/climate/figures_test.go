package climate

import (
	"testing"

	"ampstead/internal/figuretest"
	"ampstead/internal/near"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestFiguresRefuse(t *testing.T) {
	figuretest.Refuse(t, MonthlyClimate, "latitude=50|longitude=5|elevation=0 m|month=13", "from 1 to 12")
	figuretest.Refuse(t, MonthlyClimate, "latitude=30|longitude=-40|elevation=0 m|month=1", "covers land")
	figuretest.Refuse(t, MonthlyClimate, "latitude=50|longitude=5|month=1", "needs elevation")
	figuretest.Refuse(t, TemperatureRange, "clearness=1.2", "clearness must be")
	figuretest.Refuse(t, TemperatureRange, "clearness=0.5|inland=-1", "inland must be")
}

func TestDoubt(t *testing.T) {
	for _, tt := range []struct{ lat, lon, elevation, want float64 }{{57.5, -4.2, 30, 2}, {64.8, -147.7, 135, 3}, {46.5, 8, 2500, 3.5}} {
		m, err := At(tt.lat, tt.lon, tt.elevation)
		if err != nil {
			t.Fatal(err)
		}
		near.Equal(t, "doubt", m.DoubtK, tt.want, 0)
	}
}
