package drill

import (
	"slices"
	"strings"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// touched are the runs of which the course can change when a set-point moves. Out
// of a threshold's reach nothing does: a run counts when the device acted in it,
// or when what it watches came within the range of the threshold. Faults of the
// device itself do not count: a drift is one.
func (s *study) touched(p setPoint, way float64) []harmRun {
	var list []harmRun
	for f := -1; f < len(s.faults); f++ {
		for scene := range s.scenes {
			h := harmRun{f, -1, scene, s.base[scene]}
			if f >= 0 {
				h.out = s.single[f][scene]
			}
			own := f >= 0 && s.faults[f].Device == p.Device
			if !own && h.out.Outcome != Harm && s.reaches(p, way, &h.out) {
				list = append(list, h)
			}
		}
	}
	return list
}

// reaches reports whether a set-point has a say in a run.
func (s *study) reaches(p setPoint, way float64, o *Outcome) bool {
	if slices.ContainsFunc(o.Acts, func(a Act) bool { return a.Device == p.Device }) {
		return true
	}
	reach := driftMost * p.tol
	cells := 1.0
	if !strings.HasPrefix(p.Setting.Setting, "alarm") {
		cells = float64(max(1, s.rig.Bank.Series))
	}
	switch p.Setting.Setting {
	case "high", "alarm high":
		return way < 0 && o.HighV*cells >= p.value-reach
	case "absorption", "float":
		return o.HighV*cells >= p.value-reach
	case "low", "alarm low":
		return way > 0 && o.LowV*cells <= p.value+reach
	case "low cut":
		return o.LowV*cells <= p.value+reach
	case "below", "frost lock", "on", "off":
		return o.ColdC <= p.value+reach
	}
	return o.HotC >= p.value-reach
}

// Accuracies taken where the file has none: those that fit takes; common
// practice, no source.
const (
	assumedShare = 0.01
	assumedCellV = 0.010
	assumedK     = 2.0
)

// toleranceOf is how far a device may be off at a setting, in the setting's unit.
func toleranceOf(r *rig.Rig, set fit.Setting, value float64) float64 {
	p := &r.Protection
	for k := range p.Meters {
		if p.Meters[k].Name == set.Device && set.Setting != "hot" {
			return or(p.Meters[k].Tolerance, assumedCellV)
		}
	}
	for k := range p.Cutouts {
		if p.Cutouts[k].Name == set.Device {
			return or(p.Cutouts[k].Tolerance, assumedK)
		}
	}
	if set.Dim == q.Celsius || strings.HasSuffix(set.Path, "frost_lock") {
		if r.Heater != nil && r.Heater.Name == set.Device {
			return or(r.Heater.Tolerance, assumedK)
		}
		return assumedK
	}
	return value * shareOf(r, set.Device)
}

// shareOf is the accuracy of a device on the whole bank, as a share.
func shareOf(r *rig.Rig, device string) float64 {
	for k := range r.Charge {
		if r.Charge[k].Name == device {
			return or(r.Charge[k].Tolerance, assumedShare)
		}
	}
	for k := range r.Converters {
		if r.Converters[k].Name == device {
			return or(r.Converters[k].Tolerance, assumedShare)
		}
	}
	for k := range r.Inverters {
		if r.Inverters[k].Name == device {
			return or(r.Inverters[k].Tolerance, assumedShare)
		}
	}
	for k := range r.Protection.Relays {
		if r.Protection.Relays[k].Name == device {
			return or(r.Protection.Relays[k].Tolerance, assumedShare)
		}
	}
	return 0
}

// or returns an optional quantity's value, or what is taken without one.
func or[Q q.Quantity](v *Q, instead float64) float64 {
	if v == nil {
		return instead
	}
	return float64(*v)
}
