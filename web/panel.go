package web

import (
	"fmt"

	"ampstead/finding"
	"ampstead/quantity"
	"ampstead/wire"
)

// panel shows what follows from the values, beside the form.
type panel struct {
	Tally    tally
	Since    *since // what the last edit did to the findings; nil when that is not known
	Findings []panelFinding
	Rows     []panelRow
}

type panelFinding struct {
	finding.Finding
	To string
}

type panelRow struct{ What, Value string }

func (now *reading) panel() panel {
	if now.result == nil {
		return panel{}
	}
	safe, daily := now.result.Window, now.result.Daily
	p := panel{Tally: tallyOf(now.found()), Since: now.since}
	to := now.places()
	for _, f := range now.found() {
		p.Findings = append(p.Findings, panelFinding{f, to.link(f.Where)})
	}
	p.Rows = []panelRow{
		{"safe window", span(safe.BankLowV, safe.BankHighV)},
		{"daily window", span(daily.BankLowV, daily.BankHighV)},
		{"usable in it", quantity.WattHours.Text(daily.UsableWh, now.units)},
		{"one cell in it", span(daily.CellLowV, daily.CellHighV)},
	}
	p.Rows = append(p.Rows, wireRows(now.wired, now.units)...)
	return p
}

// wireRows are what the wiring comes to: the worst drop on the way to a device, the
// short circuit of the bank, and the fuse that is furthest from interrupting its own.
func wireRows(w *wire.Result, units quantity.System) []panelRow {
	if w == nil {
		return nil
	}
	var rows []panelRow
	if worst := worstWay(w.Circuits); worst != nil {
		rows = append(rows, panelRow{"worst drop, to " + worst.To, fmt.Sprintf("%.1f %%, limit %.0f %%", worst.WayPercent, worst.DropLimit)})
	}
	rows = append(rows, panelRow{"short circuit of the bank", quantity.Amperes.Text(w.ShortA, units)})
	if f := weakestFuse(w.Fuses); f != nil {
		can := "not known"
		if f.InterruptA > 0 {
			can = quantity.Amperes.Text(f.InterruptA, units)
		}
		rows = append(rows, panelRow{f.Name + " interrupts", can + ", needs " + quantity.Amperes.Text(f.NeededA, units)})
	}
	return rows
}

// worstWay is the run at whose end the share of its limit is largest.
func worstWay(list []wire.Circuit) *wire.Circuit {
	var worst *wire.Circuit
	for i := range list {
		c := &list[i]
		if c.DropLimit > 0 && (worst == nil || c.WayPercent/c.DropLimit > worst.WayPercent/worst.DropLimit) {
			worst = c
		}
	}
	return worst
}

func weakestFuse(list []wire.Fuse) *wire.Fuse {
	var weakest *wire.Fuse
	for i := range list {
		f := &list[i]
		if f.Proposed || f.NeededA <= 0 {
			continue
		}
		if weakest == nil || f.InterruptA/f.NeededA < weakest.InterruptA/weakest.NeededA {
			weakest = f
		}
	}
	return weakest
}

func span(low, high float64) string {
	decimals := 1
	if high < 6 {
		decimals = 2
	}
	return quantity.Volts.Fixed(low, "", decimals) + " to " + quantity.Volts.Fixed(high, "V", decimals)
}
