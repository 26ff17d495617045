package ageing

import (
	"fmt"
	"math"
	"testing"

	"ampstead/internal/shared"
	"ampstead/source"
)

// stored are cells at rest: fitted losses of a published decade of storage, where
// the fit holds (to 11 % lost).
func stored(t testing.TB) (list []measured) {
	chemistries := map[string]string{"NCA": ofNCA, "LFP": ofLFP, "LCO": ofLCO}
	keys, conditions := group(shared.Rows(t, "data/battery/ageing-calendar-lam2024.csv"), func(r map[string]string) string {
		return fmt.Sprintf("%s %3s °C %3s", r["chemistry"], r["storage_c"], r["storage_soc_pct"])
	})
	for _, key := range keys {
		rows := conditions[key]
		first := rows[0]
		condition := measured{
			source: source.Lam2024, chemistry: chemistries[first["chemistry"]], cells: len(rows),
			what:  fmt.Sprintf("stored at %s %%, %s °C", first["storage_soc_pct"], first["storage_c"]),
			whole: Stress{SoC: number(t, first, "storage_soc_pct") / 100, TempC: number(t, first, "storage_c")},
		}
		list = append(list, storedAt(t, condition, rows)...)
	}
	return list
}

// storedAt is a condition after one and three years; where it is past the fit
// before, at a tenth lost.
func storedAt(t testing.TB, condition measured, rows []map[string]string) (list []measured) {
	for _, years := range []float64{1, 3} {
		var lost []float64
		for _, row := range rows {
			weeks := years * daysAYear / 7
			lost = append(lost, number(t, row, "a_pct_per_week_pow_b")/100*math.Pow(weeks, number(t, row, "b")))
		}
		if median(lost) > 0.11 {
			break
		}
		m := condition
		m.whole.Days, m.lost, m.early = years*daysAYear, median(lost), years < 3
		if years == 1 {
			m.resistance = median(column(t, rows, "r_ratio_fit_1y"))
		}
		list = append(list, m)
	}
	if len(list) == 2 {
		return list
	}
	var days []float64
	for _, row := range rows {
		days = append(days, 7*math.Pow(10/number(t, row, "a_pct_per_week_pow_b"), 1/number(t, row, "b")))
	}
	tenth := condition
	tenth.whole.Days, tenth.lost = median(days), 0.1
	return append(list, tenth)
}

func column(t testing.TB, rows []map[string]string, name string) (list []float64) {
	for _, row := range rows {
		list = append(list, number(t, row, name))
	}
	return list
}

// largeCell is an iron-phosphate cell of 102 Ah under hard cycling, at the middle
// of eleven cycles first below 80 %. How it was discharged is not stated: taken
// as fully, at 1C.
func largeCell(t testing.TB) measured {
	rows := shared.Rows(t, "data/battery/lfp102-cell1-capacity.csv")
	health := column(t, rows, "soh_label")
	full := 0.0
	for k, row := range rows {
		full += number(t, row, "charged_ah") / 102
		if k >= 5 && median(health[k-5:k+6]) < 0.8 {
			break
		}
	}
	return measured{source: source.He2026, chemistry: ofLFP, what: "whole charges at 1C, cell at 35–49 °C (42 taken)", cells: 1, lost: 0.2,
		whole: Stress{Days: full * cyclingDays(1, 1), SoC: 0.5, TempC: 42, Depth: 1, Throughput: full, CRate: 1}}
}

// endOfLife is a small cell of which the chemistry is not stated, at the first
// discharge of 1.4 Ah or less.
func endOfLife(t testing.TB) measured {
	rows := shared.Rows(t, "data/battery/nasa-b0005-capacity.csv")
	full := 0.0
	for _, row := range rows {
		capacity := number(t, row, "capacity_ah")
		full += capacity / 2
		if capacity <= 1.4 {
			break
		}
	}
	return measured{source: source.Saha2007, chemistry: notStated, what: "0–100 %, 0.75C in, 1C out, 24 °C", cells: 1,
		lost:  1 - 1.4/number(t, rows[0], "capacity_ah"),
		whole: Stress{Days: full * cyclingDays(0.75, 1), SoC: 0.5, TempC: 24, Depth: 1, Throughput: full, CRate: 0.875}}
}

// openData is all of it.
func openData(t testing.TB) []measured {
	list := append(digitised(t), twentyFour(t)...)
	list = append(list, wholeCycles(t)...)
	list = append(list, stored(t)...)
	return append(list, largeCell(t), endOfLife(t))
}
