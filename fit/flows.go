package fit

import (
	"math"

	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/physics/conductor"
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
	limits    []float64 // of each charge source, by its device
	set       []float64 // as limited today
	share     []float64 // recommended
	charge    float64   // sum of limits
	recharge  float64   // sum of shares
	today     float64   // sum of set
	discharge float64   // inverters and converters at full power, bank at its daily low
	allowed   float64   // charge current the cells take when warm
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
		share := limit * math.Min(1, f.allowed/f.charge)
		if share >= 1 {
			share = floorTo(share, 1)
		}
		f.share = append(f.share, share)
		f.recharge += share
	}
	f.discharge = s.dischargeCurrent()
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

// dischargeCurrent is what everything on the bank can draw for long.
func (s *study) dischargeCurrent() float64 {
	volts := s.cell.DailyLowV.Value * s.series()
	watts := 0.0
	for _, inv := range s.rig.Inverters {
		watts += float64(*inv.Power) / or(inv.Efficiency, assumedInverterEfficiency)
	}
	for _, conv := range s.rig.Converters {
		watts += float64(*conv.Power) / or(conv.Efficiency, assumedConverterEfficiency)
	}
	for _, l := range s.rig.Loads {
		if l.On == "bank" {
			watts += float64(*l.Power)
		}
	}
	return watts / volts
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
