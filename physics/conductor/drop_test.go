package conductor

import (
	"testing"

	"pgregory.net/rapid"

	"ampstead/internal/near"
	"ampstead/quantity"
)

// Whatever size is recommended must hold the permitted drop at 20 °C, in every
// gauge system, and the size below it must not have the area.
func TestRecommendedSizeHoldsTheDrop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(0.2, 15).Draw(t, "length")
		amperes := rapid.Float64Range(1, 200).Draw(t, "current")
		permitted := rapid.Float64Range(0.2, 3).Draw(t, "drop")
		cmil := AreaForDrop(length, amperes, permitted)
		for _, g := range []quantity.Gauge{quantity.AWG, quantity.SAE, quantity.MM2} {
			s, err := Next(g, cmil)
			if err != nil {
				if cmil < 205500 {
					t.Fatalf("%g cmil: %v", cmil, err)
				}
				continue
			}
			perM, err := Resistance(s, 20)
			if err != nil {
				t.Fatal(err)
			}
			if drop := Drop(perM, length, amperes); drop > permitted {
				t.Fatalf("%v drops %g V, more than %g V", s, drop, permitted)
			}
			for _, smaller := range sizes(g) {
				if smaller.size == s {
					break
				}
				if smaller.copperCmil >= cmil {
					t.Fatalf("%v would do, not %v", smaller.size, s)
				}
			}
		}
	})
}

func TestNextTakesAnExactArea(t *testing.T) {
	s, err := Next(quantity.AWG, 211600)
	if err != nil || s.String() != "4/0 AWG" {
		t.Errorf("211600 cmil asks for %v, %v", s, err)
	}
	s, err = Next(quantity.SAE, 5833)
	if err != nil || s.String() != "12 SAE" {
		t.Errorf("5833 cmil asks for %v, %v", s, err)
	}
}

// Copper at 29.3 °C has the trade constant, Ω·cmil/ft.
func TestTradeConstant(t *testing.T) {
	near.Relative(t, "10.75", Resistivity/Mm2PerCmil*0.3048*warming(29.3), trade, 1e-3)
}

func TestShortCurrentFallsWithCable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bank := rapid.Float64Range(1e-4, 1).Draw(t, "bank")
		loop := rapid.Float64Range(1e-6, 1).Draw(t, "loop")
		if bare, cabled := ShortCurrent(50, bank, 0), ShortCurrent(50, bank, loop); cabled >= bare {
			t.Fatalf("%g A with cable, %g A without", cabled, bare)
		}
	})
}
