package sheet_test

import (
	"strings"
	"testing"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/source"
)

const ownText = `about: {name: Wren}
bank:
  cell: own
  own:
    like: nmc532
    max_voltage: 4.15 V
    curve:
      - {soc: 0 %, voltage: 3.0 V}
      - {soc: 100 %, voltage: 4.15 V}
  series: 12
  cell_capacity: 94 Ah
  limits: {charge_min: 5 °C}
`

// What the owner states of the cell stands in the list in place of the
// library's value and is marked as the owner's.
func TestOwnCell(t *testing.T) {
	file, err := rig.Parse("rig.yaml", []byte(ownText))
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	m := sheet.New(file, res, q.Metric)
	want := map[string]string{"charge limit": "4.15 V", "no charge below": "5 °C", "rest-voltage curve": "3.00 to 4.15 V empty to full"}
	for _, l := range m.Cell {
		text, own := want[l.What]
		if own && l.Value != text {
			t.Errorf("%s: %q, want %q", l.What, l.Value, text)
		}
		if given := l.Source.Standing == source.Given; given != own {
			t.Errorf("%s: given by the owner is %v, want %v", l.What, given, own)
		}
	}
	if len(m.Cell) == 0 || !strings.Contains(string(m.Curve()), "<svg") {
		t.Error("the owner's cell is not shown")
	}
}
