package cell

import (
	"errors"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/source"

	"pgregory.net/rapid"
)

func curveOf(t testing.TB, soc, volt []float64) Curve {
	t.Helper()
	c, err := NewCurve(soc, volt)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestOwnCellNarrowsTheDailyRange(t *testing.T) {
	own, err := find(t, "nmc532").With(Curve{}, 4.10, 3.3, "pouch of unknown make")
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "max", own.MaxV.Value, 4.10, 0)
	near.Equal(t, "daily high", own.DailyHighV.Value, 4.05, 1e-9)
	near.Equal(t, "daily low", own.DailyLowV.Value, 3.5, 1e-9)
	if own.MaxV.Source != source.Owner || own.Title != "pouch of unknown make" {
		t.Errorf("%+v %q", own.MaxV, own.Title)
	}
	wider, err := find(t, "nmc532").With(Curve{}, 4.25, 2.7, "")
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "daily high is not raised", wider.DailyHighV.Value, 4.10, 0)
	near.Equal(t, "daily low is not lowered", wider.DailyLowV.Value, 3.40, 0)
}

func TestOwnCellWithItsCurve(t *testing.T) {
	curve := curveOf(t, []float64{0, 0.1, 0.5, 1}, []float64{2.9, 3.5, 3.75, 4.15})
	own, err := find(t, "nmc532").With(curve, 4.15, 3.0, "")
	if err != nil {
		t.Fatal(err)
	}
	again, err := Lookup(own.Name)
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "voltage", again.Curve.Voltage(0.3), 3.625, 1e-12)
	use, err := RestVoltage.Read([]string{"cell=" + own.Name, "soc=0.5"})
	if err != nil {
		t.Fatal(err)
	}
	near.Equal(t, "by the figure", use.Num("voltage_v"), 3.75, 1e-12)
}

func TestOwnCellRefusesNonsense(t *testing.T) {
	lower := curveOf(t, []float64{0, 1}, []float64{2.5, 3.6})
	higher := curveOf(t, []float64{0, 1}, []float64{3.6, 4.2})
	for name, c := range map[string]struct {
		like       string
		curve      Curve
		maxV, minV float64
		field      string
	}{
		"beyond the chemistry":    {"lfp", Curve{}, 3.9, 0, "max voltage"},
		"far too low":             {"nmc532", Curve{}, 0, 1.2, "min voltage"},
		"upside down":             {"nmc532", Curve{}, 3.2, 3.4, "max voltage"},
		"curve ends early":        {"nmc532", lower, 0, 0, "curve"},
		"curve starts late":       {"nmc532", higher, 0, 0, "curve"},
		"nothing left in between": {"nmc532", Curve{}, 3.40, 3.38, "curve"},
		"limit above the curve":   {"nmc532", Curve{}, 4.35, 0, "curve"},
		"no room for daily use":   {"lfp", Curve{}, 3.33, 3.28, "min voltage"},
		"negative":                {"nca", Curve{}, -4, 0, "max voltage"},
	} {
		_, err := find(t, c.like).With(c.curve, c.maxV, c.minV, "")
		var own *OwnError
		if !errors.As(err, &own) || own.Field != c.field || own.Expected == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := find(t, "lfp").WithChargeBetween(-5, 45); err == nil {
		t.Error("charging in frost was taken")
	}
}

func TestDescriptionReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		like, err := Lookup(rapid.SampledFrom([]string{"nca", "nmc532", "nmc811", "lmo-blend-pouch"}).Draw(t, "like"))
		if err != nil {
			t.Fatal(err)
		}
		maxV := rapid.Float64Range(3.8, 4.25).Draw(t, "max")
		minV := rapid.Float64Range(2.6, 3.4).Draw(t, "min")
		own, err := like.With(Curve{}, maxV, minV, "")
		if err != nil {
			t.Fatal(err)
		}
		own, err = own.WithChargeBetween(rapid.Float64Range(0, 10).Draw(t, "above"), rapid.Float64Range(30, 50).Draw(t, "below"))
		if err != nil {
			t.Fatal(err)
		}
		again, err := Lookup(own.Name)
		if err != nil {
			t.Fatal(err)
		}
		if again.Name != own.Name || again.MaxV != own.MaxV || again.MinV != own.MinV || again.ChargeMinC != own.ChargeMinC ||
			again.ChargeMaxC != own.ChargeMaxC || again.DailyHighV != own.DailyHighV || again.DailyLowV != own.DailyLowV {
			t.Fatalf("%q came back as %q", own.Name, again.Name)
		}
	})
}

func TestDescriptionRefusesWhatItDoesNotKnow(t *testing.T) {
	for text, part := range map[string]string{
		"nmc532 top=4.1": "max, min", "nmc532 max=high": "number", "nmc532 curve=0:3": "points",
		"nmc532 curve=zero": "charge:voltage", "nmc532 max": "number", "": "known are", "nmc532 max=NaN": "number",
	} {
		if _, err := Lookup(text); err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func FuzzLookup(f *testing.F) {
	f.Add("nmc532 max=4.15 min=3.1 charge-above=5 charge-below=45")
	f.Add("lfp curve=0:2.5,0.5:3.3,1:3.6")
	f.Add("lead-acid-agm max=1e309")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := Lookup(text)
		if err != nil {
			return
		}
		if v := c.Curve.Voltage(0.5); !(v > 0 && v < 10) || c.MaxV.Value <= c.MinV.Value {
			t.Errorf("%q gives %g V, limits %g to %g", text, v, c.MinV.Value, c.MaxV.Value)
		}
	})
}
