package circuit

import (
	"fmt"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/working"
)

// Bank is a bank with the fuses that guard it, for the rules below. Each rule
// returns findings without an ID, which the stage's table of rules gives.
type Bank struct {
	Rig   *rig.Rig
	Sys   q.System
	Short Short
}

// Fuses lists the fuses of a rig that guard one thing.
func Fuses(r *rig.Rig, guards string) []*rig.Fuse {
	var list []*rig.Fuse
	for k := range r.Protection.Fuses {
		if f := &r.Protection.Fuses[k]; f.Guards == guards {
			list = append(list, f)
		}
	}
	return list
}

// NoMainFuse looks for a fuse at the bank.
func NoMainFuse(b Bank) []finding.Finding {
	if len(Fuses(b.Rig, "bank")) > 0 {
		return nil
	}
	return one(finding.Stop, "protection.fuses", "no fuse guards the bank",
		fmt.Sprintf("a short would draw about %s until something burns", b.amps(b.Short.BankA())),
		"fit a main fuse within a hand's breadth of the bank that can interrupt this current at "+volts(b.Short.TopV), b.Short.Workings()...)
}

// NoStringFuse looks for a fuse in each of several strings.
func NoStringFuse(b Bank) []finding.Finding {
	if b.Short.Strings < 2 || len(Fuses(b.Rig, "string")) > 0 {
		return nil
	}
	return one(finding.Care, "protection.fuses", fmt.Sprintf("%d strings in parallel without a fuse in each", b.Short.Strings),
		fmt.Sprintf("when one string fails short the others feed it with about %s, and the main fuse does not see it", b.amps(b.Short.StringA())),
		"fit a fuse in each string, beside the module", b.Short.Workings()...)
}

// InterruptRating compares main and string fuses with the short they may meet.
func InterruptRating(b Bank) []finding.Finding {
	return b.eachFuse(func(f *rig.Fuse, meets float64) []finding.Finding {
		return Interrupts(f, meets, b.Short.TopV, "the current is reckoned full, warm and with new cells", b.Short.Workings()...)
	})
}

// Interrupts compares one fuse with the current it may meet; how says on what
// that current rests, and behind what it was worked out by.
func Interrupts(f *rig.Fuse, meetsA, topV float64, how string, behind ...finding.Working) []finding.Finding {
	behind = append(behind, working.Found("the bank charged to its top", working.Of("highest voltage", topV, q.Volts)))
	path := "protection.fuses." + f.Name + ".interrupt"
	need := fmt.Sprintf("use a fuse that interrupts at least %s dc at %s", kiloamps(meetsA), volts(topV))
	switch {
	case f.Interrupt == nil:
		return one(finding.Care, path, fmt.Sprintf("%s states no interrupt rating; a short can draw %s", f.Name, kiloamps(meetsA)),
			"a fuse that cannot interrupt what flows through it burns on as an arc", need, behind...)
	case float64(*f.Interrupt) < meetsA:
		return one(finding.Stop, path,
			fmt.Sprintf("%s interrupts %s; a short can draw %s", f.Name, kiloamps(float64(*f.Interrupt)), kiloamps(meetsA)),
			"above its rating a fuse does not clear the short but bursts or burns on as an arc; "+how, need,
			append(behind, working.Stated(working.Of("interrupt", float64(*f.Interrupt), q.Amperes)))...)
	}
	return nil
}

// FuseVoltage compares the rated voltage of main and string fuses with the bank's top.
func FuseVoltage(b Bank) []finding.Finding {
	return b.eachFuse(func(f *rig.Fuse, _ float64) []finding.Finding { return BearsVoltage(f, b.Short.TopV) })
}

// BearsVoltage compares one fuse with the highest voltage across it.
func BearsVoltage(f *rig.Fuse, topV float64) []finding.Finding {
	const rounding = 1e-6 // V, dust of floating point
	path := "protection.fuses." + f.Name + ".rated_voltage"
	top := working.Found("the bank charged to its top", working.Of("highest voltage", topV, q.Volts))
	mend := fmt.Sprintf("use a fuse rated for at least %s dc", volts(topV))
	switch {
	case f.RatedVoltage == nil:
		return one(finding.Care, path, f.Name+" states no dc voltage", "a fuse breaks dc only up to its rated voltage", mend, top)
	case float64(*f.RatedVoltage) < topV-rounding:
		return one(finding.Stop, path,
			fmt.Sprintf("%s is rated for %s; the bank reaches %s", f.Name, volts(float64(*f.RatedVoltage)), volts(topV)),
			"above its voltage the arc inside a fuse does not go out", mend,
			top, working.Stated(working.Of("rated voltage", float64(*f.RatedVoltage), q.Volts)))
	}
	return nil
}

// eachFuse checks the main and string fuses, each with the current it may meet.
func (b Bank) eachFuse(check func(f *rig.Fuse, meetsA float64) []finding.Finding) []finding.Finding {
	var list []finding.Finding
	for _, f := range Fuses(b.Rig, "bank") {
		list = append(list, check(f, b.Short.BankA())...)
	}
	for _, f := range Fuses(b.Rig, "string") {
		list = append(list, check(f, b.Short.StringA())...)
	}
	return list
}

func one(severity finding.Severity, where, found, because, mend string, behind ...finding.Working) []finding.Finding {
	f := finding.Finding{Severity: severity, Where: where, Found: found, Because: because, Mend: mend}
	return []finding.Finding{f.By(behind...)}
}

func (b Bank) amps(v float64) string { return q.Amperes.Text(v, b.Sys) }

func volts(v float64) string    { return q.Volts.Fixed(v, "V", 2) }
func kiloamps(v float64) string { return q.Amperes.Fixed(v, "kA", 1) }
