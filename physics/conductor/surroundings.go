package conductor

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/quantity"
)

// Enclosed is a conductor in a raceway, conduit, loom or wall, 30 °C.
const Enclosed = "enclosed"

// tableAmbient is the air the tables hold for, engineAmbient that of an engine
// space, °C.
const (
	tableAmbient  = 30.0
	engineAmbient = 50.0
)

// Surroundings is where a conductor runs and what it is bolted to.
type Surroundings struct {
	InsulationC float64 // temperature rating of its insulation
	Place       string  // Open ("" means the same), Enclosed or Engine
	Bundle      int     // current-carrying conductors lying together, 0 means 1
	AmbientC    float64 // of the air around it
	LugsC       float64 // temperature rating of lugs and terminals, 0 when they do not limit
	Volts       float64 // of the circuit: from 50 V on the lower bundle factors of 33 CFR hold
}

// RateIn is Rate for other air than 30 °C, with the regulation's own bundle factors
// from 50 V on where they are lower, and with the limit of the terminals: the lower of the corrected ampacity and the uncorrected one in the column of
// the terminals' rating. Errors as Rate, and figure.ErrRange for air as hot as
// the insulation bears.
func RateIn(size quantity.Size, in Surroundings) (Rating, error) {
	r, err := Rate(size, in.InsulationC, in.Place, in.Bundle)
	if err != nil {
		return r, err
	}
	if r, err = inAir(r, in); err != nil {
		return Rating{}, err
	}
	r = inTightBundle(r, in)
	if in.LugsC <= 0 || in.LugsC >= in.InsulationC {
		return r, nil
	}
	place := in.Place
	if place == Engine {
		place = Open
	}
	lugs, err := Rate(size, in.LugsC, place, 1)
	if err != nil || lugs.Amperes >= r.Amperes {
		return r, err
	}
	lugs.Basis += "; limited by its lugs and terminals"
	return lugs, nil
}

// inTightBundle lowers a rating to what 33 CFR 183.425 leaves a bundle from 50 V on.
func inTightBundle(r Rating, in Surroundings) Rating {
	const from = 50
	tight := bundleFactor(cfrBundleFactors, in.Bundle)
	if in.Volts < from || tight >= bundleFactor(bundleFactors, in.Bundle) {
		return r
	}
	r.Amperes *= tight / bundleFactor(bundleFactors, in.Bundle)
	r.Basis += fmt.Sprintf("; from 50 V on × %g in all for that bundle", tight)
	return r
}

// inAir corrects a rating for the air's temperature. An engine space has been
// corrected for 50 °C already; only hotter air lowers it further.
func inAir(r Rating, in Surroundings) (Rating, error) {
	counted := tableAmbient
	if in.Place == Engine {
		if in.AmbientC <= engineAmbient {
			return r, nil
		}
		counted = engineAmbient
	}
	if in.AmbientC == counted {
		return r, nil
	}
	factor, err := AmbientFactor(in.InsulationC, in.AmbientC)
	if err != nil {
		return Rating{}, err
	}
	already, err := AmbientFactor(in.InsulationC, counted)
	if err != nil {
		return Rating{}, err
	}
	r.Amperes *= factor / already
	r.Basis += fmt.Sprintf("; × %.3g for air of %.3g °C", factor/already, in.AmbientC)
	return r, nil
}

// AmbientFactor corrects an ampacity from air of 30 °C to other air. Insulation
// rated 60, 75 and 90 °C takes NFPA 70 table 310.15(B)(1), other ratings below
// 90 °C the column below, higher ones the law √((Tc - Ta)/(Tc - 30)). Errors:
// figure.ErrRange where the table or the law ends.
func AmbientFactor(insulationC, ambientC float64) (float64, error) {
	if !(ambientC >= -60 && insulationC >= 60-1e-6) {
		return 0, fmt.Errorf("air of %g °C and insulation rated %g °C: %w", ambientC, insulationC, figure.ErrRange)
	}
	if insulationC > ambientColumns[len(ambientColumns)-1] {
		if ambientC >= insulationC-5 {
			return 0, tooHot(insulationC, ambientC)
		}
		return AmbientLaw(insulationC, ambientC), nil
	}
	column := columnFor(ambientColumns, insulationC)
	for _, row := range ambientRows {
		if ambientC <= row.upTo+1e-6 {
			if row.factors[column] == 0 {
				return 0, tooHot(insulationC, ambientC)
			}
			return row.factors[column], nil
		}
	}
	return 0, tooHot(insulationC, ambientC)
}

func tooHot(insulationC, ambientC float64) error {
	return fmt.Errorf("air of %g °C is too hot for insulation rated %g °C: %w", ambientC, insulationC, figure.ErrRange)
}

// AmbientLaw is the heat balance that the table of ambient factors follows.
func AmbientLaw(insulationC, ambientC float64) float64 {
	return math.Sqrt((insulationC - ambientC) / (insulationC - tableAmbient))
}

// Temperature is that of a conductor at a current, °C: it reaches rated at its
// ampacity in air of ambient, and its rise goes with the square of the current.
func Temperature(amperes, ampacity, ratedC, ambientC float64) float64 {
	share := amperes / ampacity
	return ambientC + (ratedC-ambientC)*share*share
}
