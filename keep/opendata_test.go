package keep

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"ampstead/fit"
	"ampstead/internal/golden"
	"ampstead/internal/near"
	"ampstead/rig"
	"ampstead/store"
)

// pulseTest reads the ten rests of an hour of a vehicle's pouch cell and the
// charge between them, as the tester counted it.
func pulseTest(t testing.TB) (rests []rest) {
	list := rows(t, "ev2013-cell-hppc-25c.csv.gz")
	ah, step := 0.0, 0.0
	for k := 1; k < len(list); k++ {
		if list[k]["step"] != list[k-1]["step"] {
			if list[k]["step"] == 6 {
				rests = append(rests, rest{list[k-1]["voltage_v"], ah, 1})
			}
			step = 0
		}
		if s := list[k]["step_ah"]; math.Abs(list[k]["current_a"]) > 0.1 { // a rest carries the last step's sum
			ah, step = ah+s-step, s
		}
	}
	return rests
}

// batteries reads the retired batteries: rests of ten minutes after charging, by
// number.
func batteries(t testing.TB, name string, nominal float64) (rests map[int][]rest, capacity map[int]float64) {
	rests, capacity = map[int][]rest{}, map[int]float64{}
	for _, x := range rows(t, name) {
		b := int(x["battery"])
		rests[b] = append(rests[b], rest{x["rest_v_10min"], x["soc_of_nominal"] * nominal, 1.0 / 6})
		capacity[b] = x["capacity_ah"]
	}
	return rests, capacity
}

// sisterCurve is what an owner would enter who measured one battery.
func sisterCurve(rests []rest, capacity float64) string {
	text := "{soc: 0 %, voltage: 3.0 V}"
	for _, x := range rests {
		text += fmt.Sprintf(", {soc: %.4f %%, voltage: %.4f V}", 100*x.ah/capacity, x.volt)
	}
	return text + ", {soc: 100 %, voltage: 4.2 V}"
}

// misses gathers errors of capacities, shares.
type misses struct {
	name, truth string
	errs        []float64
	sigmas      []float64
	none        int // logs that told no capacity
}

func (m *misses) add(c Capacity, truth float64) {
	if c.Pairs == 0 {
		m.none++
		return
	}
	m.errs, m.sigmas = append(m.errs, c.Ah/truth-1), append(m.sigmas, c.ErrAh/truth)
}

func (m *misses) within(share float64) (n int) {
	for _, e := range m.errs {
		if math.Abs(e) <= share {
			n++
		}
	}
	return n
}

func (m *misses) row() string {
	if len(m.errs) == 0 {
		return fmt.Sprintf("| %s | %s | none of %d | | | |\n", m.name, m.truth, m.none)
	}
	sorted := slices.Clone(m.errs)
	slices.Sort(sorted)
	inside := 0
	for k, e := range m.errs {
		if math.Abs(e) <= 2*m.sigmas[k] {
			inside++
		}
	}
	n := len(sorted)
	return fmt.Sprintf("| %s | %s | %d of %d | %+.1f %% (%+.1f to %+.1f %%) | %d | %d |\n", m.name, m.truth, n, n+m.none,
		100*middle(sorted), 100*sorted[0], 100*sorted[n-1], m.within(0.02), inside)
}

const cyclesRead = 12

// A vehicle's pouch cell on the curve of its kind: the capacity to 3.0 V at a
// third of it an hour is 30.50 Ah.
func ownKind(t testing.TB) *misses {
	m := &misses{name: "pouch cell of a vehicle, rests of 1 h; its kind's curve, which was drawn from this very test", truth: "30.50 Ah"}
	r, f := oneCell(t, "lmo-blend-pouch", "", 33.1)
	for seed := range uint64(10) {
		m.add(partial(t, r, f, pulseTest(t), cyclesRead, seed), 30.50)
	}
	return m
}

// Retired 21 Ah pouch batteries: on a library curve of another make, and on one
// measured on a single sister battery.
func retired(t testing.TB, kind string, sister int, aged bool) *misses {
	rests, capacity := batteries(t, "retired-nmc21-pulses.csv", 21)
	m := &misses{name: "retired 21 Ah batteries above 90 % of rated", truth: "17.1 to 21.2 Ah"}
	if aged {
		m.name = "retired 21 Ah batteries below 90 %"
	}
	curve := ""
	m.name += ", rests of 10 min; library curve " + kind
	if sister > 0 {
		curve = sisterCurve(rests[sister], capacity[sister])
		m.name = strings.Replace(m.name, "library curve "+kind, "curve measured on one sound sister", 1)
	}
	r, f := oneCell(t, kind, curve, 21)
	for b := 1; b <= 51; b += 2 {
		if b != sister && rests[b] != nil && (capacity[b] < 0.9*21) == aged {
			m.add(partial(t, r, f, rests[b], cyclesRead, uint64(b)), capacity[b])
		}
	}
	return m
}

// Retired iron-phosphate batteries: every rest lies between 5 and 50 % of rated,
// most of it plateau.
func retiredIron(t testing.TB) *misses {
	rests, capacity := batteries(t, "retired-lfp35-pulses.csv", 35)
	m := &misses{name: "retired 35 Ah iron-phosphate batteries, 5 to 50 % of rated; library curve lfp", truth: "26.0 to 32.3 Ah"}
	r, f := oneCell(t, "lfp", "", 35)
	for b := 1; b <= 55; b += 2 {
		if rests[b] != nil {
			m.add(partial(t, r, f, rests[b], cyclesRead, uint64(b)), capacity[b])
		}
	}
	return m
}

// one runs a single pair.
func one(t testing.TB, r *rig.Rig, f *fit.Result, from, to rest) Capacity {
	t.Helper()
	var list []store.Reading
	for k, x := range []rest{from, to} {
		list = append(list, store.Reading{ID: fmt.Sprint("r", k), Version: 1, Taken: start.Add(time.Duration(k) * time.Hour), Groups: []*float64{&x.volt}, CountAh: &x.ah, RestH: &x.hours, Meter: "bench"})
	}
	res, err := Run(context.Background(), r, f, list, []store.Meter{{Name: "bench", StepV: 0.0001, ErrorV: 0.001}}, nil, Options{Now: start})
	if err != nil {
		t.Fatal(err)
	}
	return res.Capacity
}

// The small cell's slow discharge and the charge after it, on the curve measured
// of its kind.
func smallCell(t testing.TB) *misses {
	m := &misses{name: "5 Ah cell, discharge from 4.18 V and charge back, rests of 1 h and 2 h; curve measured on its kind", truth: "4.945 Ah"}
	curve := ""
	for _, x := range rows(t, "lgm50-ocv-25c.csv") {
		curve += fmt.Sprintf(", {soc: %g %%, voltage: %g V}", x["soc_pct"], x["ocv_v"])
	}
	list := rows(t, "lgm50-discharge-0.1c-25c.csv.gz")
	ah := 0.0
	var rests []rest
	for k := 1; k < len(list); k++ {
		ah += (list[k]["current_a"] + list[k-1]["current_a"]) / 2 * (list[k]["time_s"] - list[k-1]["time_s"]) / 3600
		if k == 1 || list[k-1]["current_a"] == 0 && list[k]["current_a"] != 0 || k == len(list)-1 {
			rests = append(rests, rest{list[k-1]["voltage_v"], ah, 1})
		}
	}
	r, f := oneCell(t, "nmc811", curve[2:], 5)
	for k := 1; k < len(rests); k++ {
		m.add(one(t, r, f, rests[k-1], rests[k]), 4.945)
	}
	return m
}

// bigIron reads charges of a 102 Ah iron-phosphate cell at 1C on its own first
// charge as the curve, since it never rests: pieces of so much of the charge
// from where they begin, both shares of rated.
func bigIron(t testing.TB, name string, from, size float64) *misses {
	m := &misses{name: name, truth: "102.5 down to 67.5 Ah"}
	by := map[int][]rest{}
	for _, x := range rows(t, "lfp102-cell1-charges.csv.gz") {
		by[int(x["cycle"])] = append(by[int(x["cycle"])], rest{x["voltage_v"], x["charged_ah"], 24})
	}
	first := by[2]
	curve, last := "", -1.0
	for k, x := range first {
		if x.volt > last+0.0005 || k == 0 {
			curve += fmt.Sprintf(", {soc: %.5f %%, voltage: %.4f V}", 100*x.ah/first[len(first)-1].ah, x.volt)
			last = x.volt
		}
	}
	if !strings.HasSuffix(curve, fmt.Sprintf("voltage: %.4f V}", first[len(first)-1].volt)) {
		curve += fmt.Sprintf(", {soc: 100 %%, voltage: %.4f V}", last+0.001)
	}
	curve = strings.Replace(curve[2:], "soc: 100.00000", "soc: 100", 1)
	r, f := oneCell(t, "lfp", curve, 102.5)
	for cycle := 6; cycle <= 474; cycle += 4 {
		list := by[cycle]
		if len(list) == 0 {
			continue
		}
		end := list[len(list)-1]
		a := list[min(len(list)-1, int(from*102.5/0.8342))]
		b := list[min(len(list)-1, int((from+size)*102.5/0.8342))]
		if from+size >= 1 {
			b = end
		}
		m.add(one(t, r, f, a, b), end.ah)
	}
	return m
}

func TestCapacityFromPartialCyclesOfOpenData(t *testing.T) {
	sound := retired(t, "nmc532", 11, false)
	kind := ownKind(t)
	table := []*misses{kind, smallCell(t), sound, retired(t, "nmc532", 11, true), retired(t, "nmc532", 0, false),
		retiredIron(t),
		bigIron(t, "102 Ah iron-phosphate cell at 1C, pieces from 20 to 60 % of rated; its own first charge as the curve", 0.2, 0.4),
		bigIron(t, "the same, pieces from 50 to 90 %", 0.5, 0.4),
		bigIron(t, "the same, from 10 % to the end of charge, 3.65 V", 0.1, 1)}
	text := "| data | truth | logs that told a capacity | error, middle (range) | within 2 % | within 2 sigma |\n|---|---|---|---|---|---|\n"
	for _, m := range table {
		text += m.row()
	}
	for _, e := range kind.errs {
		near.Equal(t, "pouch cell", e, 0, 0.02)
	}
	if n := len(sound.errs); sound.within(0.02) < n*9/10 {
		t.Errorf("%d of %d sound retired batteries within 2 %%", sound.within(0.02), n)
	}
	golden.Check(t, "capacity.md", []byte(text))
}
