package drill

import "ampstead/rig"

// use is how much of a load counts.
type use func(*rig.Load) float64

// usual is the mean draw of what runs day and night: what cools, and what has a
// duty instead of hours.
func usual(l *rig.Load) float64 {
	switch {
	case l.Duty != nil:
		return float64(*l.Power) * float64(*l.Duty)
	case l.Follows == "warmth" && l.Hours != nil:
		return float64(*l.Power) * float64(*l.Hours) / 86400
	case l.Follows == "warmth":
		return float64(*l.Power) / 3
	}
	return 0
}

// every is the draw of a load while it runs.
func every(l *rig.Load) float64 { return float64(*l.Power) * float64(max(1, l.People)) }

func nothing(*rig.Load) float64 { return 0 }

// demand is what the loads ask for from a moment on. Inverters are asked for a
// share of their rated power, or for more when the loads counted draw more.
func (s *scenery) demand(at float64, of use, share float64) beat {
	b := beat{at: at}
	for k := range s.rig.Converters {
		v := &s.rig.Converters[k]
		b.converters = append(b.converters, min(s.drawOn(v.Name, of), float64(*v.Power)))
	}
	for k := range s.rig.Inverters {
		v := &s.rig.Inverters[k]
		watts := share * float64(*v.Power)
		if share == 0 {
			watts = min(s.drawOn(v.Name, of), float64(*v.Power))
		}
		b.inverters = append(b.inverters, watts)
	}
	for k := range s.rig.Loads {
		if l := &s.rig.Loads[k]; l.On == "bank" {
			side := 0
			if l.BypassesRelay {
				side = 1
			}
			b.direct[side] += of(l)
		}
	}
	return b
}

func (s *scenery) drawOn(name string, of use) float64 {
	sum := 0.0
	for k := range s.rig.Loads {
		if l := &s.rig.Loads[k]; l.On == name {
			sum += of(l)
		}
	}
	return sum
}

// Mains and its chargers; ours. A charger draws more than it gives.
const (
	mainsV          = 230.0
	mainsVUS        = 120.0
	mainsEfficiency = 0.88
	powerFactor     = 0.95
	unboundedW      = 1e12
)

// mainsWatts is what a charger makes of the mains current allowed.
func (s *scenery) mainsWatts(p *stay) float64 {
	volts := mainsV
	if s.rig.About.Units == "us" {
		volts = mainsVUS
	}
	return p.hookupA * volts * mainsEfficiency * powerFactor
}
