package ageing

import (
	"testing"

	"ampstead/internal/near"
)

func TestTestsOfTheRigsOwnBeatTheBand(t *testing.T) {
	before := Band{0.6, 0.9, 1.3}
	got, err := FitMultiplier([]Point{{Lost: 0.04, Predicted: 0.1, Error: 0.002}, {Lost: 0.052, Predicted: 0.13, Error: 0.002}}, before)
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "multiplier", got.Middle, 0.4, 0.01)
	if got.High-got.Low > 0.06 {
		t.Errorf("band %v", got)
	}
}

func TestASmallLossHardlyMovesTheBand(t *testing.T) {
	before := Band{0.6, 0.9, 1.3}
	got, err := FitMultiplier([]Point{{Lost: 0.02, Predicted: 0.01}}, before)
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "multiplier", got.Middle, 0.97, 0.03)
	alone, err := FitMultiplier([]Point{{Lost: 0.02, Predicted: 0.01}}, Band{})
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "alone", alone.Middle, 2, 1e-12)
	near.Equal(t, "alone, high", alone.High, 4, 1e-12)
}

func TestNothingToFit(t *testing.T) {
	if _, err := FitMultiplier([]Point{{Lost: 0.1}}, Band{0.5, 1, 2}); err == nil {
		t.Error("a multiplier from nothing")
	}
	got, err := FitMultiplier([]Point{{Lost: -0.01, Predicted: 0.02}}, Band{})
	if err != nil || got.Low != 0 || got.Middle != 0 || got.High <= 0 {
		t.Errorf("capacity that rose: %v, %v", got, err)
	}
}
