package fit

import (
	"fmt"
	"strings"

	"ampstead/finding"
	"ampstead/physics/setpoint"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/working"
)

// frosty says whether charging can meet temperatures below the limit: known to,
// or not known not to.
func (s *study) frosty() (known, possible bool) {
	if len(s.rig.Route) == 0 {
		return false, true
	}
	for _, stay := range s.rig.Route {
		switch {
		case stay.Coldest == nil:
			possible = true
		case float64(*stay.Coldest) < s.cell.ChargeMinC.Value+setpoint.FrostStep:
			known = true
		}
	}
	return known, known || possible
}

// noFrostLock names every source that nothing stops when the bank is too cold.
func noFrostLock(s *study) []finding.Finding {
	known, possible := s.frosty()
	if s.acid() || !possible {
		return nil
	}
	severity, when := finding.Care, "how cold the bank gets on the route is not known"
	if known {
		coldest, where := s.coldest()
		severity, when = finding.Stop, fmt.Sprintf("the bank can get as cold as %s (%s)", s.degrees(coldest), where)
	}
	return s.eachSource(func(k int, path string) []finding.Finding {
		src := &s.rig.Charge[k]
		lock, locked := s.lockOf(src)
		path += "frost_lock"
		switch {
		case locked && lock >= s.warm.least-nudge:
			return nil
		case locked:
			return []finding.Finding{s.by(mistake(finding.Care, path, fmt.Sprintf("charging is locked only below %s", s.degrees(lock)),
				fmt.Sprintf("with its accuracy it may still charge at %s, below which a cell plates lithium", s.degrees(s.cell.ChargeMinC.Value)),
				fmt.Sprintf("lock charging below %s", s.degrees(s.warm.least))).By(working.Stated(working.Of("frost lock", lock, q.Celsius))), s.warm.hows...)}
		}
		sources, mend := src.Name, s.mendFrost(src)
		if c := s.idleSwitch(src); c != nil {
			names := s.idledBy(c)
			if names[0] != src.Name {
				return nil // said with the first that it stops
			}
			sources, path = strings.Join(names, ", "), "protection.cutouts."+c.Name+".below"
			mend = fmt.Sprintf("set %s to open below %s", c.Name, s.degrees(s.warm.least))
		}
		return []finding.Finding{s.by(mistake(severity, path, fmt.Sprintf("nothing stops %s in frost; %s", sources, when),
			fmt.Sprintf("below %s charging plates metallic lithium on the cells: capacity is lost for good and they become easier to set alight", s.degrees(s.cell.ChargeMinC.Value)),
			mend).By(s.routeCold()), s.warm.hows...)}
	})
}

// idleSwitch is a cut-out that can stop a source and has no word yet on frost; nil
// without one.
func (s *study) idleSwitch(src *rig.Source) *rig.Cutout {
	for k := range s.rig.Protection.Cutouts {
		if c := &s.rig.Protection.Cutouts[k]; !c.Below.Given && s.stops(c, src) {
			return c
		}
	}
	return nil
}

// idledBy lists the sources that only this cut-out could stop in frost.
func (s *study) idledBy(c *rig.Cutout) []string {
	var names []string
	for k := range s.rig.Charge {
		src := &s.rig.Charge[k]
		if _, locked := s.lockOf(src); !locked && s.idleSwitch(src) == c {
			names = append(names, src.Name)
		}
	}
	return names
}

// lockOf is the highest temperature at which something at the bank stops a
// source from charging.
func (s *study) lockOf(src *rig.Source) (float64, bool) {
	lock, any := 0.0, false
	if v, on := value(src.Settings.FrostLock); on && src.Thermometer == "bank" {
		lock, any = v, true
	}
	for k := range s.rig.Protection.Cutouts {
		c := &s.rig.Protection.Cutouts[k]
		if v, on := value(c.Below); on && s.stops(c, src) && (!any || v > lock) {
			lock, any = v, true
		}
	}
	return lock, any
}

func (s *study) mendFrost(src *rig.Source) string {
	at := s.degrees(s.warm.least)
	switch {
	case src.Thermometer == "bank":
		return fmt.Sprintf("set its frost lock to %s", at)
	case src.StopInput:
		return fmt.Sprintf("fit a frost switch at the bank that opens below %s and wire it to the stop input of %s", at, src.Name)
	}
	return fmt.Sprintf("%s cannot be told to stop: exchange it for one with a stop input or a thermometer at the bank, and lock it below %s", src.Name, at)
}

// heaterOrder is a heater that keeps the bank just too cold to be charged.
func heaterOrder(s *study) []finding.Finding {
	h := s.rig.Heater
	if h == nil || s.acid() {
		return nil
	}
	on, set := value(h.On)
	lock := s.todaysLock()
	if !set || on-s.warm.error >= lock-nudge {
		return nil
	}
	return []finding.Finding{s.by(mistake(finding.Care, "heater.on",
		fmt.Sprintf("the heater starts below %s, but charging is locked below %s", s.degrees(on), s.degrees(lock)),
		"it holds the bank too cold to be charged: it uses energy and lets none in", fmt.Sprintf("set the heater on at %s and off at %s", s.degrees(s.warm.on), s.degrees(s.warm.off))).By(working.Stated(working.Of("heater on", on, q.Celsius), working.Of("highest frost lock", lock, q.Celsius))), s.warm.heat...)}
}

// todaysLock is the highest frost lock in force, or the one advised.
func (s *study) todaysLock() float64 {
	highest, any := 0.0, false
	for k := range s.rig.Charge {
		if v, ok := s.lockOf(&s.rig.Charge[k]); ok && (!any || v > highest) {
			highest, any = v, true
		}
	}
	if !any {
		return s.warm.least
	}
	return highest
}
