package wire

import (
	"fmt"
	"math"

	"ampstead/figure"
	"ampstead/physics/conductor"
	"ampstead/physics/protect"
	"ampstead/rig"
)

const (
	usualFaradsPerWatt = 5e-6 // of an inverter that does not state its capacitors
	preChargeFraction  = 0.95 // of the bank's voltage at which a contactor may close
	preChargeTime      = 1.0  // s
	pulseMargin        = 2.0  // pulse rating of the resistor over the energy
)

// preCharge finds the resistor that fills the inverters' capacitors before the
// contactor that feeds them closes.
func (s *study) preCharge() {
	c := s.feeding()
	farads, assumed := s.farads()
	if c == nil || farads <= 0 {
		return
	}
	p := &PreCharge{Contactor: c.Name, VoltageV: s.res.TopV, CapacitanceF: farads, Assumed: assumed, GivenOhm: or(c.PreCharge, 0), Fraction: preChargeFraction}
	p.Ohm = p.GivenOhm
	if p.Ohm == 0 {
		u := s.figures.Use(protect.PreChargeFigure, figure.N("capacitance", farads), figure.N("voltage", p.VoltageV),
			figure.N("time", preChargeTime), figure.N("fraction", preChargeFraction))
		p.Ohm = onSale(u.Num("resistance_ohm"))
		p.How = append(p.How, u)
	}
	u := s.figures.Use(protect.PreChargeTimeFigure, figure.N("capacitance", farads), figure.N("voltage", p.VoltageV),
		figure.N("resistance", p.Ohm), figure.N("fraction", preChargeFraction))
	p.TimeS, p.PeakA, p.PeakW, p.EnergyJ = u.Num("time_s"), u.Num("peak_a"), u.Num("peak_w"), u.Num("energy_j")
	p.PulseRatingJ, p.StepV = pulseMargin*p.EnergyJ, u.Num("step_v")
	p.How = append(p.How, u)
	p.IdleHolds = s.idleHolds(p)
	s.inrush(p)
	s.res.PreCharge = p
}

// feeding is the contactor that feeds the inverters.
func (s *study) feeding() *rig.Contactor {
	for k := range s.rig.Protection.Contactors {
		if c := &s.rig.Protection.Contactors[k]; c.Opens != "charge" {
			return c
		}
	}
	return nil
}

// farads is what all inverters have on their dc side.
func (s *study) farads() (sum float64, assumed bool) {
	for _, i := range s.rig.Inverters {
		if i.InputCapacitance == nil {
			guess := usualFaradsPerWatt * float64(*i.Power)
			s.assume(fmt.Sprintf("inverters.%s.input_capacitance: taken as %.3g mF, 5 µF for each watt", i.Name, guess*1e3))
			sum, assumed = sum+guess, true
			continue
		}
		sum += float64(*i.InputCapacitance)
	}
	return sum, assumed
}

// inrush is what the contactor closes onto, with and without pre-charge.
func (s *study) inrush(p *PreCharge) {
	loop := s.short.Ohm + s.loopTo()
	with := s.figures.Use(protect.ClosingCurrent, figure.N("voltage", p.VoltageV), figure.N("fraction", p.Fraction), figure.N("loop", loop))
	without := s.figures.Use(protect.ClosingCurrent, figure.N("voltage", p.VoltageV), figure.N("fraction", 0.0), figure.N("loop", loop))
	p.InrushA, p.WithoutA = with.Num("current_a"), without.Num("current_a")
	p.How = append(p.How, with, without)
}

// loopTo is the cold cable between the bank and the nearest inverter, Ω.
func (s *study) loopTo() float64 {
	best := math.Inf(1)
	for _, i := range s.rig.Inverters {
		ohm := 0.0
		for at := s.endOf(i.Name); at != nil; at = at.parent {
			if perM, err := conductor.Resistance(at.size, 20); err == nil {
				ohm += conductor.Drop(perM, at.LengthM, 1)
			}
		}
		best = min(best, ohm)
	}
	if math.IsInf(best, 1) {
		return 0
	}
	return best
}

// onSale is the next resistance of the E12 series at or below ohm, so that the
// time is kept.
func onSale(ohm float64) float64 {
	series := []float64{8.2, 6.8, 5.6, 4.7, 3.9, 3.3, 2.7, 2.2, 1.8, 1.5, 1.2, 1}
	decade := math.Pow(10, math.Floor(math.Log10(ohm)))
	for _, v := range series {
		if v*decade <= ohm*(1+1e-9) {
			return tidy(v * decade)
		}
	}
	return tidy(decade)
}

// idleHolds reports whether what the inverters draw while idle keeps their
// capacitors below the closing voltage.
func (s *study) idleHolds(p *PreCharge) bool {
	watts := 0.0
	for _, i := range s.rig.Inverters {
		watts += or(i.Idle, 0)
	}
	return p.VoltageV-watts/p.VoltageV*p.Ohm < p.Fraction*p.VoltageV
}
