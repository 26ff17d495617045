package ageing

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"testing"

	"ampstead/internal/shared"
	"ampstead/source"
)

// The chemistries of the open data.
const (
	ofNMC     = "nickel-manganese-cobalt"
	ofNCA     = "nickel-cobalt-aluminium"
	ofLFP     = "iron-phosphate"
	ofLCO     = "cobalt-oxide"
	notStated = "chemistry not stated"
)

// measured is one condition of the open data and what it had cost by a time.
type measured struct {
	source     source.Source
	chemistry  string
	what       string
	cells      int
	whole      Stress // all that the cells went through by then
	lost       float64
	resistance float64 // factor, 0 where not known
	early      bool    // a later point of the same condition counts for the spread
}

func (m measured) storage() bool { return m.whole.Throughput == 0 }

func number(t testing.TB, row map[string]string, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("%s of %v: %v", column, row, err)
	}
	return v
}

func median(list []float64) float64 { return percentile(list, 0.5) }

// percentile is straight between the sorted values.
func percentile(list []float64, p float64) float64 {
	list = slices.Sorted(slices.Values(list))
	at := p * float64(len(list)-1)
	k := min(int(at), len(list)-2)
	if k < 0 {
		return list[0]
	}
	return list[k] + (at-float64(k))*(list[k+1]-list[k])
}

// group gathers rows by a key, in the order of the keys.
func group[K cmp.Ordered](rows []map[string]string, key func(map[string]string) K) (keys []K, groups map[K][]map[string]string) {
	groups = map[K][]map[string]string{}
	for _, row := range rows {
		groups[key(row)] = append(groups[key(row)], row)
	}
	return slices.Sorted(maps.Keys(groups)), groups
}

// cyclingDays is how long a full equivalent takes at these rates without rests;
// the publications behind the tables do not say more.
func cyclingDays(chargeC, dischargeC float64) float64 { return (1/chargeC + 1/dischargeC) / 24 }

// digitised is the table of full equivalents to 80 % by chemistry, window, rate
// and temperature.
func digitised(t testing.TB) (list []measured) {
	chemistries := map[string]string{"NMC": ofNMC, "NCA": ofNCA, "LFP": ofLFP}
	for _, row := range shared.Rows(t, "data/battery/ageing-snl-efc-to-80pct.csv") {
		low, high := number(t, row, "soc_min_pct")/100, number(t, row, "soc_max_pct")/100
		charge, discharge := number(t, row, "charge_c"), number(t, row, "discharge_c")
		full := number(t, row, "efc_at_80pct_mean")
		m := measured{source: source.Preger2020, chemistry: chemistries[row["chemistry"]], lost: 0.2, whole: Stress{
			Days: full * cyclingDays(charge, discharge), SoC: (low + high) / 2, TempC: number(t, row, "chamber_c"),
			Depth: high - low, Throughput: full, CRate: (charge + discharge) / 2,
		}}
		m.what = fmt.Sprintf("%s–%s %%, %sC in, %sC out, %s °C", row["soc_min_pct"], row["soc_max_pct"], row["charge_c"], row["discharge_c"], row["chamber_c"])
		if row["basis"] == "extrapolated" {
			m.what += ", extrapolated"
		}
		list = append(list, m)
	}
	return list
}

// crossing is where a falling column passes a capacity, between two rows.
func crossing(t testing.TB, rows []map[string]string, capacity float64, column string) (float64, bool) {
	for k := 1; k < len(rows); k++ {
		c0, c1 := number(t, rows[k-1], "capacity_fraction"), number(t, rows[k], "capacity_fraction")
		if c0 > capacity && c1 <= capacity {
			share := (c0 - capacity) / (c0 - c1)
			x0, x1 := number(t, rows[k-1], column), number(t, rows[k], column)
			return x0 + share*(x1-x0), true
		}
	}
	return 0, false
}

// crossings are those of every cell that gets there.
func crossings(t testing.TB, cells map[string][]map[string]string, capacity float64, column string) (list []float64) {
	for _, name := range slices.Sorted(maps.Keys(cells)) {
		if v, ok := crossing(t, cells[name], capacity, column); ok {
			list = append(list, v)
		}
	}
	return list
}

// twentyFour are equal cells under one regime.
func twentyFour(t testing.TB) (list []measured) {
	names, cells := group(shared.Rows(t, "data/battery/ageing-nmc-sanyo-24cells.csv"), func(r map[string]string) string { return r["cell"] })
	for _, capacity := range []float64{0.9, 0.8} {
		full, days := median(crossings(t, cells, capacity, "efc")), median(crossings(t, cells, capacity, "days"))
		list = append(list, measured{
			source: source.Baumhoefer2014, chemistry: ofNMC, what: "56 % about 3.70 V, 1.1C, cells at 29 °C", cells: len(names), lost: 1 - capacity,
			whole:      Stress{Days: days, SoC: 0.5, CellV: 3.70, TempC: 29, Depth: 0.56, Throughput: full, CRate: 1.1},
			resistance: median(crossings(t, cells, capacity, "r10s_ratio")), early: capacity > 0.8,
		})
	}
	return list
}

// wholeCycles are nickel-rich cells cycled from empty to full; the deepest level
// that most cells of a condition reach counts.
func wholeCycles(t testing.TB) (list []measured) {
	rows := shared.Rows(t, "data/battery/ageing-nca-nmc-zhu2022.csv")
	keys, conditions := group(rows, func(r map[string]string) string {
		return r["chemistry"] + " " + r["charge_c"] + "C in, " + r["discharge_c"] + "C out, " + r["chamber_c"] + " °C"
	})
	for _, key := range keys {
		list = append(list, wholeCyclesOf(t, conditions[key])...)
	}
	return list
}

func wholeCyclesOf(t testing.TB, rows []map[string]string) (list []measured) {
	names, cells := group(rows, func(r map[string]string) string { return r["cell"] })
	first := rows[0]
	chemistry := ofNCA
	if first["chemistry"][:3] == "NMC" {
		chemistry = ofNMC
	}
	charge, discharge := number(t, first, "charge_c"), number(t, first, "discharge_c")
	for _, capacity := range []float64{0.95, 0.9, 0.85, 0.8} {
		at := crossings(t, cells, capacity, "efc")
		if 2*len(at) <= len(names) {
			break
		}
		full := median(at)
		for k := range list {
			list[k].early = true
		}
		list = append(list, measured{
			source: source.Zhu2022, chemistry: chemistry, cells: len(at), lost: 1 - capacity,
			what: fmt.Sprintf("0–100 %%, %sC in, %sC out, %s °C", first["charge_c"], first["discharge_c"], first["chamber_c"]),
			whole: Stress{Days: full * cyclingDays(charge, discharge), SoC: 0.5, TempC: number(t, first, "chamber_c"), Depth: 1,
				Throughput: full, CRate: (charge + discharge) / 2},
		})
	}
	return list[max(0, len(list)-2):]
}
