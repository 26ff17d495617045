package conductor

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"ampstead/figure"
)

// materials are the factors k of IEC 60364-5-54 for copper, A·√s/mm², by the
// insulation around it and the temperature it runs at before the fault.
var materials = map[string]float64{"pvc-70": 115, "pvc-90": 100, "xlpe-90": 143, "rubber-85": 134, "silicone-180": 132}

// CautiousMaterial is taken where only the temperature rating of the insulation
// is known: it has the lowest factor.
const CautiousMaterial = "pvc-90"

// WithstandArea is the copper in mm² that bears a short of some A for some
// seconds, with all heat kept inside: S = I·√t/k. It holds to 5 s. Errors: an
// unknown material.
func WithstandArea(amperes, seconds float64, material string) (float64, error) {
	k, err := factorOf(material)
	return amperes * math.Sqrt(seconds) / k, err
}

// WithstandTime is how many seconds some mm² bear a short of some A:
// t = (k·S/I)².
func WithstandTime(mm2, amperes float64, material string) (float64, error) {
	k, err := factorOf(material)
	return math.Pow(k*mm2/amperes, 2), err
}

func factorOf(material string) (float64, error) {
	if k, ok := materials[material]; ok {
		return k, nil
	}
	return math.NaN(), fmt.Errorf("insulation %q: expected %s: %w", material, strings.Join(materialNames(), ", "), figure.ErrRange)
}

func materialNames() []string {
	var names []string
	for name := range materials {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}
