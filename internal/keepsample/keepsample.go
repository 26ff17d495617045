// Package keepsample is an invented logbook's result, for tests of what shows it.
//
// May import: keep and finding. For tests.
package keepsample

import (
	"math"
	"time"

	"ampstead/finding"
	"ampstead/keep"
)

// Result is what an invented logbook tells, of n visits to some groups, a fortnight
// apart: group 4 leaks 1.5 mA.
func Result(groups, n int) *keep.Result {
	res := &keep.Result{Readings: n, Balance: keep.Balance{Wanted: true, Hours: 20.6, GainWh: 85}}
	begin := time.Date(2025, 10, 4, 10, 0, 0, 0, time.UTC)
	for i := range n {
		at := begin.AddDate(0, 0, 14*i)
		p := keep.Point{Taken: at.Format(time.RFC3339), Weight: 1}
		low, high := math.Inf(1), math.Inf(-1)
		for k := range groups {
			v := 0.3*math.Sin(float64(k)) + 0.06*math.Sin(float64(3*i+7*k))
			if k == 3 {
				v -= 6.0 * 24 / 1000 * 14 * float64(i) / 4
			}
			p.Groups = append(p.Groups, v)
			low, high = math.Min(low, v), math.Max(high, v)
		}
		p.Ah, p.MV = high-low, 8*(high-low)
		res.Trend = append(res.Trend, p)
		res.From, res.To = begin.Format(time.RFC3339), p.Taken
		res.SpreadMV, res.SpreadAh = p.MV, p.Ah
		if i%4 == 1 {
			res.Capacity.Points = append(res.Capacity.Points, keep.CapacityPoint{When: p.Taken, Ah: 168 - 0.08*float64(i) + 1.5*math.Sin(float64(5*i)), Err: 2.1})
		}
	}
	res.Capacity.Ah, res.Capacity.ErrAh, res.Capacity.Share = 165.8, 0.9, 165.8/188
	res.Capacity.PerYear, res.Capacity.PerYearErr, res.Capacity.Basis = -2.1, 0.8, "7 partial cycles, total least squares"
	lowest := 0.0
	if n > 0 {
		for _, v := range res.Trend[n-1].Groups {
			lowest = math.Min(lowest, v)
		}
	}
	for k := range groups {
		g := keep.Group{Number: k + 1}
		if n > 0 {
			g.OffsetAh = res.Trend[n-1].Groups[k]
			g.BleedAh = g.OffsetAh - lowest
		}
		if k == 3 {
			g.Drifts, g.DriftMA, g.DriftErr = true, 1.5, 0.2
		}
		res.Groups = append(res.Groups, g)
		res.Balance.BleedAh = append(res.Balance.BleedAh, g.BleedAh)
		res.Balance.AddAh = append(res.Balance.AddAh, 0.6-g.OffsetAh)
	}
	told(res)
	res.Life = &keep.Life{Model: "nmc-lab", Multiplier: 1.1, Notes: []string{"the route of the rig, every year the same"}, ByCapacity: keep.Band{Low: 8, Middle: 11.4, High: 15}, ByFunction: keep.Band{Low: 4.6, Middle: 7, High: 9.2}, FirstShort: "January 2034"}
	return res
}

// told fills in what does not depend on the readings.
func told(res *keep.Result) {
	soc := 0.62
	res.SoC, res.SoCErr, res.SmallestLeakMA = &soc, 0.02, 0.6
	res.VisibleAfter = []keep.Visible{{LeakMA: 1, Days: 190}, {LeakMA: 5, Days: 44}, {LeakMA: 20, Days: 14}}
	res.Used = []keep.Used{{ID: "a1", Taken: "2026-02-07T10:00:00Z", Weight: 0, Why: "0.4 h after a load <of 20 A>: relaxation"}, {ID: "a2", Taken: "2026-02-21T10:00:00Z", Weight: 0.5, Why: "flat part of the curve"}, {ID: "a3", Taken: "2026-03-07T10:00:00Z", Weight: 1}}
	res.Balance.Not = []string{"the bank is under load"}
	res.Capacity.Pairs = 7
	res.Resistance = &keep.Quantity{Value: 0.0065, Err: 0.0003, Basis: "2 load steps", When: "2026-11-01", PerYear: 0.0001, PerYearErr: 0.0001}
	res.Today = []keep.Task{
		{Urgency: "now", Do: "bleed group 1 to 3 and 5 to 12 down to group 4", Why: "group 4 <leaks>", By: "2026-11-24"},
		{Urgency: "next visit", Do: "read the groups at rest, near full", Why: "the last readings were on the flat part"},
	}
	res.Next = keep.Visit{Date: "2027-01-10", Why: "group 4 then stands 20 mV from its alarm"}
	res.Back = []keep.Change{{Path: "bank.measured.spread_high", Now: "6 mV", Value: "38 mV", Why: "the latest rested reading"}}
	res.Findings = []finding.Finding{{ID: "drifting-group", Severity: finding.Care, Where: "bank", Found: "group 4 <leaks> 1.5 mA", Because: "it ends the discharge", Mend: "bleed the others"}}
	if n := len(res.Groups); n > 3 {
		res.Groups[3].Since, res.Groups[3].Reached = "2026-02-21", "2028-03-01"
	}
	if n := len(res.Groups); n > 1 {
		res.Groups[1].Step = &keep.Jump{At: "2026-05-02", Ah: -0.8, Err: 0.2, Like: "a link was opened"}
	}
}
