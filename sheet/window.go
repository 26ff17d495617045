package sheet

import (
	"strconv"

	"ampstead/fit"
	q "ampstead/quantity"
)

// WindowRow is one property of the safe window and of the daily window.
type WindowRow struct {
	What        string
	Safe, Daily Number
}

func (b *builder) window() []WindowRow {
	safe, daily := b.res.Window, b.res.Daily
	row := func(what string, text func(fit.Window) string, keys ...string) WindowRow {
		return WindowRow{what,
			b.number(text(safe), about(safe.How, keys...)), b.number(text(daily), about(daily.How, keys...))}
	}
	return []WindowRow{
		row("one cell", func(w fit.Window) string { return between(w.CellLowV, w.CellHighV, 3) }),
		row("whole bank", func(w fit.Window) string { return between(w.BankLowV, w.BankHighV, 1) }, "low_v", "high_v"),
		row("charge level (state of charge)", func(w fit.Window) string { return percentSpan(w.LowSoC, w.HighSoC) }, "charge_ah"),
		row("usable charge", func(w fit.Window) string { return q.AmpereHours.Text(w.UsableAh, b.sys) }, "charge_ah"),
		row("usable energy", func(w fit.Window) string { return q.WattHours.Text(w.UsableWh, b.sys) }, "energy_wh"),
	}
}

// between writes a range of voltage, both ends with the same decimals.
func between(low, high float64, decimals int) string {
	n := max(places(low, decimals, 3), places(high, decimals, 3))
	return strconv.FormatFloat(low, 'f', n, 64) + " to " + q.Volts.Fixed(high, "V", n)
}

func percentSpan(low, high float64) string {
	return percent(low) + " to " + percent(high)
}
