package fit

import (
	"ampstead/figure"
	"ampstead/physics/cell"
)

// safeWindow is the range no cell ever leaves.
func (s *study) safeWindow() Window {
	w := s.windowOf(s.cell.MinV.Value, s.cell.MaxV.Value)
	span := s.figures.Use(cell.SeriesSpan, figure.T("cell", s.cell.Name), figure.N("series", s.series()))
	w.How = append([]figure.Use{span}, w.How...)
	return w
}

// windowOf describes the range between two cell voltages and the energy in it.
func (s *study) windowOf(low, high float64) Window {
	n := s.series()
	curve := s.cell.Curve
	w := Window{CellLowV: low, CellHighV: high, BankLowV: tidy(low * n), BankHighV: tidy(high * n),
		BankNominalV: tidy(s.cell.NominalV.Value * n),
		LowSoC:       curve.SoC(low), HighSoC: curve.SoC(high)}
	if low >= high {
		return w // layers that cross leave nothing
	}
	energy := s.energyUse(low, high)
	w.UsableAh, w.UsableWh = energy.Num("charge_ah"), energy.Num("energy_wh")
	w.How = []figure.Use{energy}
	return w
}

func (s *study) energyUse(low, high float64) figure.Use {
	return s.figures.Use(cell.WindowEnergy, figure.T("cell", s.cell.Name), figure.N("low", low), figure.N("high", high),
		figure.N("series", s.series()), figure.N("capacity", s.info.Capacity))
}

// daily is the window the recommended settings keep day by day: from the
// highest low cut to the highest charge voltage, as set, per cell.
func (s *study) daily() Window { return s.windowOf(s.dailyLow(), s.dailyHigh()) }

func (s *study) dailyHigh() float64 {
	top, any := 0.0, false
	for _, m := range s.ladder.members(DailyHigh) {
		top, any = max(top, m.cellSet()), true
	}
	if !any {
		return min(s.cell.DailyHighV.Value, s.cell.MaxV.Value)
	}
	return tidy(min(top, s.cell.MaxV.Value))
}

func (s *study) dailyLow() float64 {
	bottom, any := s.cell.MaxV.Value, false
	for _, m := range s.ladder.members(DailyLow) {
		bottom, any = min(bottom, m.cellSet()), true
	}
	if !any {
		bottom = s.cell.DailyLowV.Value
	}
	return tidy(max(bottom, s.cell.MinV.Value))
}
