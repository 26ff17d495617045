package fit

import (
	"fmt"

	"ampstead/figure"
	"ampstead/physics/cell"
)

// A gentler window leaves this much of the charge out at each end; ours.
const gentleStep = 0.10

// choices are narrower and wider daily windows with what each costs.
func (s *study) choices() []Choice {
	low, high := s.dailyLow(), s.dailyHigh()
	fits := s.fits(s.ladder)
	curve := s.cell.Curve
	widestLow, widestHigh := s.widest(low, high)
	base := s.energyBetween(low, high)
	list := []Choice{}
	add := func(name string, low, high float64, fits bool, why string) {
		if low < high {
			list = append(list, s.choice(name, low, high, fits, why, base))
		}
	}
	add("gentler", curve.Voltage(curve.SoC(low)+gentleStep/2), curve.Voltage(curve.SoC(high)-gentleStep), fits,
		"charge less far and stop a little earlier: for the months when there is plenty")
	add("as recommended", low, high, fits, "what the settings sheet sets")
	add("fuller", widestLow, widestHigh, fits, "the most that still fits inside alarm and disconnect with every tolerance against you")
	add("to the limits", s.cell.MinV.Value, s.cell.MaxV.Value, false, "no room for an alarm or a disconnect: for comparison only")
	return list
}

// widest is the daily window as far out as fits.
func (s *study) widest(low, high float64) (float64, float64) {
	for _, m := range s.ladder.members(DailyLow) {
		low = min(low, max(m.fits, m.least)/m.th.Series)
	}
	for _, m := range s.ladder.members(DailyHigh) {
		high = max(high, m.fits/m.th.Series)
	}
	return low, high
}

func (s *study) energyBetween(low, high float64) float64 {
	from, to := s.cell.Curve.SoC(low), s.cell.Curve.SoC(high)
	return s.cell.Curve.Energy(from, to) * s.info.Capacity * s.series()
}

func (s *study) choice(name string, low, high float64, fits bool, why string, base float64) Choice {
	energy := s.energyUse(low, high)
	c := Choice{Name: name, CellLowV: tidy(low), CellHighV: tidy(high), UsableWh: energy.Num("energy_wh"), Fits: fits, Why: why, How: []figure.Use{energy}}
	if base > 0 {
		c.EnergyShare = tidy(c.UsableWh / base)
	}
	if stress, ok := s.stress(high, s.dailyHigh()); ok {
		c.MeanStress = tidy(stress.Num("factor"))
		c.How = append(c.How, stress)
	}
	if c.MeanStress != 0 && c.MeanStress != 1 {
		c.Why += fmt.Sprintf("; resting at its top ages the cell %.2f times as fast as the recommended top", c.MeanStress)
	}
	return c
}

// stressLow and stressHigh bound the cell voltages the stress figure takes.
const stressLow, stressHigh = 3.2, 4.4

// hasStressModel reports whether the calendar model by voltage speaks of this
// kind of cell.
func (s *study) hasStressModel() bool {
	f := s.cell.Family
	return f == cell.NCA || f == cell.NMC || f == cell.LMO
}

// stress compares calendar ageing at two resting voltages, where a model exists.
func (s *study) stress(at, reference float64) (figure.Use, bool) {
	if !s.hasStressModel() || min(at, reference) < stressLow || max(at, reference) > stressHigh {
		return figure.Use{}, false
	}
	u := s.figures.Use(cell.CalendarStress, figure.T("cell", s.cell.Name), figure.N("voltage", at), figure.N("reference", reference))
	return u, u.Figure != nil
}
