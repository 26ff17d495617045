package fit

import (
	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/physics/conductor"
	"ampstead/physics/setpoint"
)

// Efficiencies assumed of a device that does not state one.
const (
	assumedConverterEfficiency = 0.88
	assumedInverterEfficiency  = 0.90
)

// hotCable is the conductor temperature at which sensing drops are taken, °C:
// a warm cable drops more.
const hotCable = 75.0

// flows are the largest currents in the rig, A.
type flows struct {
	limits    []float64  // of each charge source, by its device
	set       []float64  // as limited today
	share     []float64  // recommended
	charge    float64    // sum of limits
	recharge  float64    // sum of shares
	today     float64    // sum of set
	discharge float64    // inverters and converters at full power, bank at its daily low
	allowed   float64    // charge current the cells take when warm
	drawn     figure.Use // behind discharge
}

func (s *study) flowsOf() flows {
	f := flows{allowed: s.warmRate() * s.info.Capacity}
	for _, src := range s.rig.Charge {
		limit := float64(*src.Limit)
		set, on := value(src.Settings.Current)
		if !on {
			set = limit
		}
		f.limits, f.set = append(f.limits, limit), append(f.set, set)
		f.charge += limit
		f.today += set
	}
	for _, limit := range f.limits {
		share := setpoint.Share(limit, f.charge, f.allowed)
		f.share = append(f.share, share)
		f.recharge += share
	}
	draw := s.draws()
	f.drawn = s.figures.Use(setpoint.BankDraw, figure.L("powers", draw), figure.N("voltage", s.cell.DailyLowV.Value*s.series()))
	f.discharge = f.drawn.Num("current_a")
	return f
}

// warmRate is the cell's highest charge rate at any temperature, 1/h.
func (s *study) warmRate() float64 {
	best := 0.0
	for _, p := range s.cell.ChargeRates.Points {
		best = max(best, s.cell.ChargeRate(p.TempC))
	}
	return best
}

// draws is what each thing on the bank takes from it at full power, W; a single
// nothing when there is none.
func (s *study) draws() []float64 {
	watts := []float64{}
	for _, inv := range s.rig.Inverters {
		watts = append(watts, float64(*inv.Power)/or(inv.Efficiency, assumedInverterEfficiency))
	}
	for _, conv := range s.rig.Converters {
		watts = append(watts, float64(*conv.Power)/or(conv.Efficiency, assumedConverterEfficiency))
	}
	for _, l := range s.rig.Loads {
		if l.On == "bank" {
			watts = append(watts, float64(*l.Power))
		}
	}
	if len(watts) == 0 {
		return []float64{0}
	}
	return watts
}

// drop is the voltage between the bank and a device's terminals (V): along the
// way through rig.cables, the last run carries own, every run before it total.
// Without a way there is nothing to count.
func (s *study) drop(device string, own, total float64) (float64, []figure.Use) {
	way := circuit.Way(s.rig.Cables, circuit.AtBank, device)
	sum := 0.0
	var hows []figure.Use
	for k, c := range way {
		current := total
		if k == len(way)-1 {
			current = own
		}
		u, err := s.figures.Try(conductor.VoltageDrop, figure.T("size", c.Size.String()), figure.N("length", *c.Length),
			figure.N("current", current), figure.N("voltage", s.window.BankNominalV), figure.N("temperature", hotCable))
		if err != nil {
			s.figures.Fail(&InputError{Path: "cables." + c.Name, Message: err.Error(), Expected: "a cable that carries " + s.amps(current)})
			continue
		}
		sum += u.Num("drop_v")
		hows = append(hows, u)
	}
	return sum, hows
}
