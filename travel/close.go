package travel

import (
	"math"

	"ampstead/engine"
)

// open starts the books of the year after the days before it.
func (r *drive) open() {
	y := &r.out.Year
	s := r.a.Engine.Sense()
	r.a.Engine.Worst = engine.Extremes{
		HighV: s.HighV, LowV: s.LowV, HotC: s.HotC, ColdC: s.ColdC, BusV: s.BusV,
	}
	y.ColdestCharge = math.Inf(1)
	r.a.Bank.OpenBooks()
	r.start = r.a.Engine.Books()
}

// close sums the days and checks the books.
func (r *drive) close() {
	y := &r.out.Year
	for d := range r.out.days {
		y.add(&r.out.days[d].Energies)
	}
	w := r.a.Engine.Worst
	y.CellHighV, y.CellLowV, y.BusHighV = w.HighV, w.LowV, w.BusV
	y.BankTempMin, y.BankTempMax = w.ColdC, w.HotC
	if math.IsInf(y.ColdestCharge, 1) {
		y.ColdestCharge = w.ColdC
	}
	y.SoCMin = 1
	for d := range r.out.days {
		y.SoCMin = min(y.SoCMin, r.out.days[d].socLow)
	}
	y.SoCP5 = r.out.percentile(0.05)
	bank := r.a.Bank.Books()
	y.FullCycles = bank.OutAh / r.w.fit.Cell.Capacity
	y.Error = max(bank.Gap(), bank.HeatGap(), r.busGap(), sunGap(&y.Energies), loadGap(&y.Energies))
	r.out.span = r.span.span()
	if r.strain != nil {
		r.out.stress = r.strain.end()
	}
}

// busGap is what is missing on the bus: source = load + cables + bank.
func (r *drive) busGap() float64 {
	a, b := r.a.Engine.Books(), r.start
	source, load := a.SourceWh-b.SourceWh, a.LoadWh-b.LoadWh
	cable, bank := a.CableWh-b.CableWh, a.BankWh-b.BankWh
	return gap(source-load-cable-bank, source+load)
}

// sunGap and loadGap are what is missing in the accounts of travel itself.
func sunGap(e *Energies) float64 {
	return gap(e.SunOffered-e.SunCaught-e.LostFull-e.LostFrost-e.LostLimit-e.LostStopped-e.Conversion, e.SunOffered)
}

func loadGap(e *Energies) float64 { return gap(e.Load-e.Served-e.Unserved, e.Load) }
