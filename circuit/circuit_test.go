package circuit_test

import (
	"testing"

	"ampstead/circuit"
	"ampstead/finding"
	"ampstead/internal/near"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

func names(way []*rig.Cable) string {
	text := ""
	for _, c := range way {
		text += c.Name + " "
	}
	return text
}

func TestWay(t *testing.T) {
	cables := []rig.Cable{
		{Name: "branch", From: "bus", To: "inverter"},
		{Name: "main", From: "bank", To: "bus"},
		{Name: "detour", From: "bus", To: "box"},
		{Name: "back", From: "box", To: "inverter"},
		{Name: "loop", From: "inverter", To: "bank"},
		{Name: "alone", From: "shed", To: "lamp"},
	}
	for _, tt := range []struct{ from, to, want string }{
		{"bank", "bus", "main "}, {"bank", "inverter", "loop "}, {"bus", "inverter", "branch "},
		{"bank", "box", "main detour "}, {"inverter", "bus", "branch "}, {"bank", "lamp", ""}, {"bank", "bank", ""},
	} {
		if got := names(circuit.Way(cables, tt.from, tt.to)); got != tt.want {
			t.Errorf("%s to %s: %q, want %q", tt.from, tt.to, got, tt.want)
		}
	}
	if got := circuit.OtherEnd(&cables[0], "bank"); got != "" {
		t.Errorf("other end of a cable that does not touch: %q", got)
	}
}

func ohm(v float64) *q.Resistance { r := q.Resistance(v); return &r }

// Seven groups of 0.5 mΩ at 4.10 V give 8200 A, two such strings the double; a
// lower resistance of the module's maker governs.
func TestShort(t *testing.T) {
	c, err := cell.Lookup("nca")
	if err != nil {
		t.Fatal(err)
	}
	b := &rig.Bank{Series: 7, Strings: 1, ShortOhm: ohm(3.5e-3)}
	const large = 1.0 // Ω: neither cells nor measurement lower it
	s, err := circuit.ShortOf(b, c, 28.7, 10, large)
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "one string", s.BankA(), 8200, 8.2)
	b.Strings = 2
	if s, err = circuit.ShortOf(b, c, 28.7, 10, large); err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "what a string's fuse meets", s.StringA(), 8200, 8.2)
	b.Strings = 4
	if s, err = circuit.ShortOf(b, c, 28.7, 10, large); err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "three others into one", s.StringA(), 3*8200, 25)
}

// A used module has more resistance, but the fuse is chosen for new cells.
func TestShortCountsNewCells(t *testing.T) {
	c, err := cell.Lookup("nmc532")
	if err != nil {
		t.Fatal(err)
	}
	b := &rig.Bank{Series: 12, Strings: 2}
	worn, err1 := circuit.ShortOf(b, c, 50.4, 188, 20e-3)
	better, err2 := circuit.ShortOf(b, c, 50.4, 188, 1e-3)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	unknown, _ := c.Split(c.ResistanceOhm(188, 45) * 12)
	near.Equal(t, "worn", worn.Ohm, unknown, 1e-12)
	if better.Ohm >= worn.Ohm {
		t.Errorf("a bank measured better than new counts as measured: %g Ω", better.Ohm)
	}
}

func TestInterrupts(t *testing.T) {
	a := func(v float64) *q.Current { c := q.Current(v); return &c }
	for _, tt := range []struct {
		rating *q.Current
		want   finding.Severity
	}{{a(20000), ""}, {a(8200), ""}, {a(8199), finding.Stop}, {nil, finding.Care}} {
		got := finding.Worst(circuit.Interrupts(&rig.Fuse{Name: "f", Interrupt: tt.rating}, 8200, 28.7, "why"))
		if got != tt.want {
			t.Errorf("%v: %q, want %q", tt.rating, got, tt.want)
		}
	}
}
