package ageing

import (
	"testing"

	"ampstead/internal/figuretest"
)

func TestFigures(t *testing.T) { figuretest.Whole(t, Figures()) }

func TestAgeingAnswersForEveryModel(t *testing.T) {
	for _, name := range Names() {
		use, err := Ageing.Read([]string{"model=" + name, "cycles=300"})
		if err != nil {
			t.Fatal(err)
		}
		middle := use.Num("capacity_fraction")
		if !(middle < 1 && middle > 0.6) || !(use.Num("capacity_low_fraction") < use.Num("capacity_high_fraction")) {
			t.Errorf("%s: %v", name, use.Out)
		}
		if _, has := use.Out["resistance_factor"]; has != (name == "schmalstieg" || name == "schmalstieg-nca") {
			t.Errorf("%s: resistance is there: %v", name, has)
		}
	}
}

func TestAgeingRefuses(t *testing.T) {
	figuretest.Refuse(t, Ageing, "model=hearsay", "known are schmalstieg")
	figuretest.Refuse(t, Ageing, "soc=1.2", "soc 1.2 is not between 0 and 1")
	figuretest.Refuse(t, Ageing, "days=-1", "days")
	figuretest.Refuse(t, Ageing, "temperature=95 °C", "temperature")
	figuretest.Refuse(t, CycleCount, "series=1,two", "series")
}
