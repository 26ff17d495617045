package wire

import (
	"ampstead/figure"
	"ampstead/physics/protect"
)

// padMost is the most heat a plastic-cased cell is given, W/cm² (source.PadHabit).
const padMost = 0.2

// heater works out the pad's current, heat on its area and fuse.
func (s *study) heater() {
	h := s.rig.Heater
	if h == nil {
		return
	}
	power := float64(*h.Power)
	x := &Heater{Name: h.Name, PowerW: power, Supply: supplyNode(h.Supply), MostWCM2: padMost, LeastCM2: power / padMost}
	if r := s.endOf(h.Name); r != nil {
		x.CurrentA, x.FuseA = r.CurrentA, r.FuseA
		x.How = append(x.How, r.How...)
	}
	if h.Area == nil {
		s.assume("heater.area: not given, so the heat on a cell is not checked")
	} else {
		u := s.figures.Use(protect.PadDensity, figure.N("power", power), figure.N("area", *h.Area))
		x.AreaCM2, x.DensityWCM2 = float64(*h.Area)*1e4, u.Num("w_per_cm2")
		x.How = append(x.How, u)
	}
	s.res.Heater = x
}
