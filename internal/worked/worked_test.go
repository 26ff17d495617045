package worked_test

import (
	"slices"
	"testing"

	"ampstead/finding"
	"ampstead/internal/worked"
)

func TestMissing(t *testing.T) {
	f := finding.Finding{Found: "49.2 V over 12 groups is 4.100 V a cell", Because: "20 mV are left of 3.2 kWh at 5 °C, 41.0 °F and 12 %"}
	if got := worked.Missing(f); len(got) != 7 {
		t.Errorf("without workings %q", got)
	}
	f = f.By(finding.Working{What: "a spread of 20 mV is taken", Inputs: []finding.Value{{Name: "setting", Value: 49.2, Unit: "V"}, {Name: "at", Value: 5.0, Unit: "°C"}},
		Outputs: []finding.Value{{Name: "cell", Value: 4.1, Unit: "V"}, {Name: "energy", Value: 3200.0, Unit: "Wh"}, {Name: "share", Value: 0.12, Unit: "fraction"}, {Name: "each", Value: []float64{1, 2}, Unit: "V"}}})
	if got := worked.Missing(f); len(got) != 0 {
		t.Errorf("missing %q", got)
	}
	f.Found = "4.2 V a cell"
	if got := worked.Missing(f); !slices.Equal(got, []string{"4.2 V"}) {
		t.Errorf("missing %q", got)
	}
}
