package fit

import (
	"fmt"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/conductor"
	q "ampstead/quantity"
	"ampstead/rig"
)

// warmShort is the cell temperature at which the prospective short-circuit
// current is taken, °C: a warm cell gives more.
const warmShort = 45

func (s *study) fusesOf(guards string) []*rig.Fuse {
	var list []*rig.Fuse
	for k := range s.rig.Protection.Fuses {
		if f := &s.rig.Protection.Fuses[k]; f.Guards == guards {
			list = append(list, f)
		}
	}
	return list
}

func noMainFuse(s *study) []finding.Finding {
	if len(s.fusesOf("bank")) > 0 {
		return nil
	}
	return []finding.Finding{mistake(finding.Stop, "protection.fuses", "no fuse guards the bank",
		fmt.Sprintf("a short would draw about %s until something burns", s.amps(s.shortCurrent())),
		"fit a main fuse within a hand's breadth of the bank that can interrupt this current at "+s.volts(s.window.BankHighV))}
}

func noStringFuse(s *study) []finding.Finding {
	strings := s.rig.Bank.Strings
	if strings < 2 || len(s.fusesOf("string")) > 0 {
		return nil
	}
	return []finding.Finding{mistake(finding.Care, "protection.fuses", fmt.Sprintf("%d strings in parallel without a fuse in each", strings),
		fmt.Sprintf("when one string fails short the others feed it with about %s, and the main fuse does not see it", s.amps(s.stringCurrent())),
		"fit a fuse in each string, beside the module")}
}

// shortCurrent is the prospective current of the whole bank at its terminals, A:
// full, warm, with the resistance of new cells or less, without any cable.
func (s *study) shortCurrent() float64 {
	ohm, _ := s.cell.Split(s.cell.ResistanceOhm(s.info.RatedAh, warmShort) * s.series())
	if measured, _ := s.cell.Split(s.info.Ohm); measured < ohm {
		ohm = measured
	}
	return s.use(conductor.ShortCircuit, figure.N("voltage", s.window.BankHighV), figure.N("bank-resistance", ohm)).Num("current_a")
}

// stringCurrent is what a string's fuse meets: its own string into a short, or
// all others into the string.
func (s *study) stringCurrent() float64 {
	n := float64(max(1, s.rig.Bank.Strings))
	return s.shortCurrent() * max(1, n-1) / n
}

// bankFuses are the main and string fuses, each with the current it may meet.
func (s *study) bankFuses(check func(f *rig.Fuse, meets float64) []finding.Finding) []finding.Finding {
	var list []finding.Finding
	for _, f := range s.fusesOf("bank") {
		list = append(list, check(f, s.shortCurrent())...)
	}
	for _, f := range s.fusesOf("string") {
		list = append(list, check(f, s.stringCurrent())...)
	}
	return list
}

func interruptRating(s *study) []finding.Finding {
	return s.bankFuses(func(f *rig.Fuse, meets float64) []finding.Finding {
		path := "protection.fuses." + f.Name + ".interrupt"
		need := fmt.Sprintf("use a fuse that interrupts at least %s dc at %s", q.Amperes.Fixed(meets, "kA", 1), s.volts(s.window.BankHighV))
		switch {
		case f.Interrupt == nil:
			return []finding.Finding{mistake(finding.Care, path, fmt.Sprintf("%s states no interrupt rating; a short can draw %s", f.Name, q.Amperes.Fixed(meets, "kA", 1)),
				"a fuse that cannot interrupt what flows through it burns on as an arc", need)}
		case float64(*f.Interrupt) < meets:
			return []finding.Finding{mistake(finding.Stop, path,
				fmt.Sprintf("%s interrupts %s; a short can draw %s", f.Name, q.Amperes.Fixed(float64(*f.Interrupt), "kA", 1), q.Amperes.Fixed(meets, "kA", 1)),
				"above its rating a fuse does not clear the short but bursts or burns on as an arc; the current is reckoned full, warm and with new cells", need)}
		}
		return nil
	})
}

func fuseVoltage(s *study) []finding.Finding {
	return s.bankFuses(func(f *rig.Fuse, _ float64) []finding.Finding {
		path := "protection.fuses." + f.Name + ".rated_voltage"
		mend := fmt.Sprintf("use a fuse rated for at least %s dc", s.volts(s.window.BankHighV))
		switch {
		case f.RatedVoltage == nil:
			return []finding.Finding{mistake(finding.Care, path, f.Name+" states no dc voltage", "a fuse breaks dc only up to its rated voltage", mend)}
		case float64(*f.RatedVoltage) < s.window.BankHighV-nudge:
			return []finding.Finding{mistake(finding.Stop, path,
				fmt.Sprintf("%s is rated for %s; the bank reaches %s", f.Name, s.volts(float64(*f.RatedVoltage)), s.volts(s.window.BankHighV)),
				"above its voltage the arc inside a fuse does not go out", mend)}
		}
		return nil
	})
}
