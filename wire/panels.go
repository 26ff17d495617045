package wire

import (
	"fmt"

	"ampstead/figure"
	"ampstead/physics/panel"
	"ampstead/physics/protect"
	"ampstead/rig"
)

const (
	assumedColdest     = -20.0   // °C, of a rig without a route
	usualVoltSlope     = -0.0036 // 1/K, the steepest that is usual
	usualPowerSlope    = -0.0040 // 1/K
	roofRise           = 35.0    // K of a cell close to a roof over the air
	chargerHeadroom    = 2.0     // V a solar charger needs above the bank
	fusesFromStrings   = 3       // more than two strings in parallel
	usualSeriesFuse    = 15.0    // A, of a panel that does not state it
	unknownTemperature = -1000.0
)

// panels checks every string of panels and each charger's strings together.
func (s *study) panels() {
	cold, where := s.coldest()
	for i := range s.rig.Charge {
		c := &s.rig.Charge[i]
		if len(c.Panels) == 0 {
			continue
		}
		a := s.array(c)
		for k := range c.Panels {
			s.res.Strings = append(s.res.Strings, s.stringOf(c, k, cold, where, a.Strings))
		}
		s.res.Arrays = append(s.res.Arrays, a)
	}
}

// coldest is the lowest temperature of the air along the route, and where.
func (s *study) coldest() (tempC float64, where string) {
	cold, inside := unknownTemperature, false
	for _, stay := range s.rig.Route {
		air := stay.ColdestAir
		if air == nil {
			air = stay.Coldest
		}
		if air != nil && (cold == unknownTemperature || float64(*air) < cold) {
			cold, where, inside = float64(*air), stay.Name, stay.ColdestAir == nil
		}
	}
	if inside {
		s.assume(fmt.Sprintf("route.%s.coldest_air: not given: the panels are reckoned at the bank's coldest, and the air is colder", where))
	}
	if cold == unknownTemperature {
		s.assume(fmt.Sprintf("route: no stay says how cold it gets: panels are reckoned at %s", s.degrees(assumedColdest)))
		return assumedColdest, "assumed"
	}
	return cold, where
}

// stringOf checks one string against its charger's input in the coldest stay.
func (s *study) stringOf(c *rig.Source, k int, cold float64, where string, together int) String {
	p := &c.Panels[k]
	x := String{Charger: c.Name, Name: panelNode(c, k), Path: panelPath(c, k), Series: p.Series, Parallel: max(1, p.Parallel),
		ColdestC: cold, ColdestAt: where, OpenV: float64(*p.OpenVoltage) * float64(p.Series), CoefGiven: p.VoltageCoefficient != nil}
	voc := float64(*p.OpenVoltage)
	slope := or(p.VoltageCoefficient, usualVoltSlope)
	coefficient := s.figures.Use(panel.PanelColdVoltage, figure.N("voc", voc), figure.N("series", p.Series), figure.N("coldest", cold),
		figure.T("method", "coefficient"), figure.N("temperature-coefficient", slope))
	x.CoefficientV, x.ColdV = coefficient.Num("voltage_v"), coefficient.Num("voltage_v")
	x.How = append(x.How, coefficient)
	if table, err := s.figures.Try(panel.PanelColdVoltage, figure.N("voc", voc), figure.N("series", p.Series), figure.N("coldest", cold)); err == nil {
		x.TableV = table.Num("voltage_v") // below -40 °C there is no table
		x.ColdV = max(x.ColdV, x.TableV)
		x.How = append(x.How, table)
	}
	x.Passes = true
	if c.Input != nil && c.Input.MaxVoltage != nil {
		s.against(&x, voc, slope, float64(*c.Input.MaxVoltage))
	}
	s.hot(&x, p)
	s.stringFuses(&x, p, together)
	return x
}

// against compares a string with the input's limit.
func (s *study) against(x *String, voc, slope, limit float64) {
	x.LimitV, x.Passes = limit, x.ColdV <= limit
	for _, method := range []string{"coefficient", "table"} {
		u, err := s.figures.Try(panel.PanelsInSeries, figure.N("limit", limit), figure.N("voc", voc), figure.N("coldest", x.ColdestC),
			figure.T("method", method), figure.N("temperature-coefficient", slope))
		if err != nil {
			continue
		}
		if n := int(u.Num("panels")); x.MostSeries == 0 || n < x.MostSeries {
			x.MostSeries = n
		}
		x.How = append(x.How, u)
	}
}

// hot is the voltage left at peak power on a hot roof, against what the charger
// needs to fill the bank.
func (s *study) hot(x *String, p *rig.PanelString) {
	x.NeedV = s.fit.Daily.BankHighV + chargerHeadroom
	if p.PeakVoltage == nil {
		return
	}
	slope := or(p.PowerCoefficient, usualPowerSlope)
	x.HotV = panel.ColdVoltage(float64(*p.PeakVoltage), float64(p.Series), s.hottest()+roofRise, slope)
}

// stringFuses says whether each string needs its own fuse.
func (s *study) stringFuses(x *String, p *rig.PanelString, together int) {
	isc, _ := panelShort(p)
	x.ShortA = isc
	u := s.figures.Use(panel.PanelCurrent, figure.N("isc", isc), figure.N("parallel", together))
	x.How = append(x.How, u)
	if together < fusesFromStrings || u.Num("others_a") <= or(p.SeriesFuse, usualSeriesFuse) {
		return
	}
	size := s.figures.Use(protect.FuseSize, figure.N("continuous", protect.Continuous*isc))
	x.FuseA = size.Num("size_a")
	x.How = append(x.How, size)
}

// array adds up the strings of one charger.
func (s *study) array(c *rig.Source) Array {
	a := Array{Charger: c.Name, Path: "charge." + c.Name + ".panels", ChargerA: float64(*c.Limit), Passes: true}
	for k := range c.Panels {
		p := &c.Panels[k]
		isc, _ := panelShort(p)
		n := max(1, p.Parallel)
		a.Strings += n
		a.ShortA += isc * float64(n)
		a.PowerW += float64(*p.Power) * float64(p.Series*n)
	}
	u := s.figures.Use(panel.PanelCurrent, figure.N("isc", a.ShortA))
	a.DesignA, a.CableA = u.Num("current_a"), u.Num("conductor_a")
	out := s.figures.Use(panel.ControllerCurrent, figure.N("rated", a.PowerW), figure.N("voltage", s.fit.Daily.BankLowV))
	a.OutputA = out.Num("design_a")
	a.How = append(a.How, u, out)
	if c.Input != nil && c.Input.MaxCurrent != nil {
		a.LimitA = float64(*c.Input.MaxCurrent)
		a.Passes = a.DesignA <= a.LimitA
	}
	return a
}
