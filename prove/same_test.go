package prove_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ampstead/benchlog"
	_ "ampstead/internal/fixedseed"
	"ampstead/internal/near"
	"ampstead/prove"
)

// dress writes the rows of a plain file (time_s, voltage_v, current_a,
// temperature_c) as another logger might.
type dress struct {
	time, volt, amps string  // headers with units
	perS, perV, perA float64 // what a second, a volt, an ampere is written as
	separator        string
	comma            bool
	from             float64 // s on the clock at the first row
}

func (d dress) write(rows []string) []byte {
	var b strings.Builder
	fmt.Fprintln(&b, strings.Join([]string{d.time, d.volt, d.amps}, d.separator))
	for _, row := range rows[1:] {
		var t, v, a float64
		fmt.Sscanf(strings.ReplaceAll(row, ",", " "), "%g %g %g", &t, &v, &a)
		line := fmt.Sprintf("%.6f|%.6f|%.6f", (t+d.from)*d.perS, v*d.perV, a*d.perA)
		if d.comma {
			line = strings.ReplaceAll(line, ".", ",")
		}
		fmt.Fprintln(&b, strings.ReplaceAll(line, "|", d.separator))
	}
	return []byte(b.String())
}

// Units, sign, separator and where the clock starts must leave every result as
// it was.
func TestDressLeavesResultsUnchanged(t *testing.T) {
	all := lines(t, smallSlow)
	rows := all[:2:2]
	for k := 2; k < len(all); k += 2 {
		rows = append(rows, all[k])
	}
	plain := dress{"time_s", "voltage_v", "current_a", 1, 1, 1, ",", false, 0}
	want := runText(t, "plain.csv", plain.write(rows), prove.Options{Cell: "nmc811-21700"})
	rapid.Check(t, func(rt *rapid.T) {
		d := plain
		if rapid.Bool().Draw(rt, "hours") {
			d.time, d.perS = "time [h]", 1.0/3600
		}
		if rapid.Bool().Draw(rt, "milli") {
			d.volt, d.perV, d.amps, d.perA = "voltage (mV)", 1000, "current (mA)", 1000
		}
		sign := benchlog.Options{Sign: "charge"}
		if rapid.Bool().Draw(rt, "discharge positive") {
			d.perA, sign.Sign = -d.perA, "discharge"
		}
		if rapid.Bool().Draw(rt, "semicolon") {
			d.separator, d.comma = ";", true
		}
		d.from = rapid.Float64Range(0, 1e5).Draw(rt, "from")
		got, err := prove.Run(t.Context(), "dressed.csv", strings.NewReader(string(d.write(rows))), sign, prove.Options{Cell: "nmc811-21700"})
		if err != nil {
			rt.Fatal(err)
		}
		near.Relative(t, "capacity", got.CapacityAh, want.CapacityAh, 1e-3)
		near.Relative(t, "energy", got.EnergyWh, want.EnergyWh, 1e-3)
		near.Relative(t, fmt.Sprintf("%+v resistance", d), got.Resistance, want.Resistance, 0.01)
		if len(got.Segments) != len(want.Segments) || len(got.Cycles) != len(want.Cycles) {
			rt.Errorf("%d segments and %d cycles, plainly %d and %d", len(got.Segments), len(got.Cycles), len(want.Segments), len(want.Cycles))
		}
	})
}
