package prove_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/prove"
)

// A discharge that stops early must tell what the whole one showed, within twice
// its stated error, and surer the further it went.
func TestPartTellsTheWholeWithinItsError(t *testing.T) {
	cases := []struct {
		file, cell string
		low        float64
		rows       int // of the discharge and the rest before
		whole      float64
		half       float64 // largest error allowed at half, share
	}{
		{slowModule, "lmo-blend-pouch", 0, 13870, 54.90, 0.12},
		{fastModule, "lmo-blend-pouch", 0, 2209, 55.40, 0.20},
		{smallSlow, "nmc811-21700", 2.5, 760, 4.945, 0.08},
		{smallSlow, "nmc811", 2.5, 760, 4.945, 0.12},
	}
	for _, c := range cases {
		all := lines(t, c.file)
		surest := math.Inf(1)
		for _, share := range []float64{0.5, 0.7, 0.9} {
			name := fmt.Sprintf("%s, %s, %.0f %%", c.file, c.cell, 100*share)
			res := runText(t, "part.csv", joined(all[:int(share*float64(c.rows))]), prove.Options{Cell: c.cell, LowV: c.low})
			if res.CapacityHow != "partial, extrapolated along the curve" {
				t.Errorf("%s: by %q", name, res.CapacityHow)
				continue
			}
			near.Equal(t, name, res.CapacityAh, c.whole, 2*res.CapacityErr)
			if share == 0.5 && res.CapacityErr > c.half*c.whole {
				t.Errorf("%s: error of %.2f Ah", name, res.CapacityErr)
			}
			if res.CapacityErr > surest {
				t.Errorf("%s: error of %.2f Ah, %.2f Ah with less of the discharge", name, res.CapacityErr, surest)
			}
			surest = res.CapacityErr
			if res.Cycles[0].Full {
				t.Errorf("%s: counts as full", name)
			}
		}
	}
}

// The slow discharges, on the curve of their own kind of cell, come within 6 %
// from half of it and within 2 % from nine tenths.
func TestPartComesNear(t *testing.T) {
	for _, c := range []struct {
		file, cell string
		rows       int
		low, whole float64
	}{{slowModule, "lmo-blend-pouch", 13870, 0, 54.90}, {smallSlow, "nmc811-21700", 760, 2.5, 4.945}} {
		for share, within := range map[float64]float64{0.5: 0.06, 0.9: 0.02} {
			res := runText(t, "part.csv", joined(lines(t, c.file)[:int(share*float64(c.rows))]), prove.Options{Cell: c.cell, LowV: c.low})
			near.Relative(t, fmt.Sprintf("%s at %g", c.file, share), res.CapacityAh, c.whole, within)
		}
	}
}

// A limit above where the test ended counts only down to it.
func TestLimitsThatAreGiven(t *testing.T) {
	res := runText(t, smallSlow, log(t, smallSlow), prove.Options{Cell: "nmc811", LowV: 3.0})
	at := 0.0
	for k, v := range res.Chart.Volts {
		if res.Chart.Amps[k] < 0 && v >= 3.0 {
			at = res.Chart.Ah[k]
		}
	}
	near.Relative(t, "to 3.0 V", res.CapacityAh, -at, 0.01)
	lower := runText(t, smallSlow, log(t, smallSlow), prove.Options{Cell: "nmc811", LowV: 3.0, HighV: 4.1})
	if !(lower.CapacityAh < res.CapacityAh-0.1 && lower.CapacityAh > res.CapacityAh-0.6) {
		t.Errorf("from 4.1 V %g Ah, from the top %g Ah", lower.CapacityAh, res.CapacityAh)
	}
	if !warned(lower, "limit-overshot") {
		t.Errorf("nothing said of limits overrun: %+v", lower.Warnings)
	}
}

// Without group voltages the group that ended the discharge is not seen: it
// counts all the same, and the log's gap is told.
func TestTerminalsAlone(t *testing.T) {
	list := []string{}
	for _, line := range lines(t, slowModule) {
		f := strings.Split(line, ",")
		list = append(list, strings.Join(f[:3], ","))
	}
	res := runText(t, "terminals.csv", joined(list), prove.Options{Cell: "lmo-blend-pouch", Groups: 6})
	near.Relative(t, "capacity", res.CapacityAh, 54.90, 0.005)
	if !warned(res, "groups-unseen") || res.CapacityErr < 0.5 {
		t.Errorf("error of %.2f Ah, %+v", res.CapacityErr, res.Warnings)
	}
	half := runText(t, "terminals.csv", joined(list[:6900]), prove.Options{Cell: "lmo-blend-pouch", Groups: 6})
	near.Equal(t, "from half", half.CapacityAh, 54.90, 2*half.CapacityErr)
}

func TestCyclesWithoutTheirNumbers(t *testing.T) {
	list := []string{}
	for _, line := range lines(t, nasa) {
		_, rest, _ := strings.Cut(line, ",")
		list = append(list, rest)
	}
	res := runText(t, "restarts.csv", joined(list), prove.Options{Cell: "nickel-rich-18650"})
	if len(res.Cycles) != 28 || res.Cycles[0].Number != 1 || res.Cycles[27].Number != 28 {
		t.Fatalf("%d cycles", len(res.Cycles))
	}
	near.Equal(t, "first", res.Cycles[0].CapacityAh, 1.8565, 0.0002)
}
