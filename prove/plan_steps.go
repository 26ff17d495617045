package prove

import (
	"fmt"
	"math"
)

// pulseSoC is where the pulse is taken, and the standing of a test's ends.
const (
	pulseSoC     = 0.5
	restDays     = 14
	meterV       = 0.001 // V, what a meter for groups resolves
	taperHours   = 1.0   // of falling current at the end of a charge, about
	pauseHours   = 1.0   // of rest before and after a discharge
	pulseSeconds = 10
)

// steps lays out the recipe.
func (p *planner) steps() {
	l := &p.plan.Limits
	ah := p.in.CapacityAh * p.toSoC
	charge := ah/l.ChargeA + taperHours
	p.add("Look and measure", "Look at every cell and joint. Measure each group's voltage and between each pole and the case. Connect fuse, disconnect, meter and logger, and start the log.",
		"ten minutes of log at rest", "every 10 s", 0.2, 0)
	p.add("Charge", fmt.Sprintf("Set the charger to %s and at most %s. Charge until the current has fallen to %s. Watch the highest group.", volts(l.PackHighV), amps(l.ChargeA), amps(l.TaperA)),
		fmt.Sprintf("current at %s, or the first group at %s (then lower the charger's voltage by what that group is over the mean)", amps(l.TaperA), volts(l.GroupHighV)), "every 10 s", charge, ah)
	p.add("Rest", "Disconnect the charger. Nothing draws current.", "one hour has passed", "every minute", pauseHours, 0)
	p.discharge(ah)
	p.add("Rest", "Disconnect the load at once when the first group is at its limit. Nothing draws current.", "one hour has passed", "every second in the first minute, then every minute", pauseHours, 0)
	p.add("Charge to half", fmt.Sprintf("Charge as before, with at most %s.", amps(l.ChargeA)), fmt.Sprintf("about %.0f Ah have gone in; then one hour of rest", pulseSoC*ah), "every 10 s", pulseSoC*ah/l.ChargeA+pauseHours, pulseSoC*ah)
	p.pulse()
	p.add("Charge", "Charge to the top as in the first charge.", "as in the first charge", "every 10 s", (1-pulseSoC)*ah/l.ChargeA+taperHours, (1-pulseSoC)*ah)
	p.plan.Hours = 0
	for _, s := range p.plan.Steps {
		p.plan.Hours += s.Hours
	}
	p.add("Long rest", "Disconnect everything, the sense wires too if they draw current. Read every group after one day, then on the same hours of the day, at one temperature.",
		fmt.Sprintf("%d days have passed, 30 are better", restDays), "once a day, by hand", 24*restDays, 0)
}

func (p *planner) discharge(ah float64) {
	l := &p.plan.Limits
	low := p.kind.Curve.SoC(p.in.LowV)
	if p.in.Load == "inverter" && p.in.LoadV > l.PackLowV {
		low = p.kind.Curve.SoC(p.in.LoadV / float64(p.in.Series))
	}
	out := ah - low*p.in.CapacityAh
	p.plan.Ah, p.plan.Wh = out, p.in.CapacityAh*float64(p.in.Series)*p.kind.Curve.Energy(low, p.toSoC)
	p.add("Discharge", fmt.Sprintf("Connect the load, about %s. Watch the lowest group all the time from %s on: near the end it falls ten times as fast as before.", amps(p.amps), volts(p.kind.DailyLowV.Value)),
		fmt.Sprintf("the first group at %s under load; the pack is then still above %s", volts(l.GroupLowV), volts(l.PackLowV)),
		"every second in the first minute, then every 10 s", out/p.amps, -out)
}

// pulse is the step of current that shows the resistance; where the load is so
// small that the meter hardly sees it, the step says so.
func (p *planner) pulse() {
	ohm := p.kind.ResistanceOhm(p.in.CapacityAh, p.in.TempC)
	seen := p.amps * ohm
	share := meterV * math.Sqrt(2.0/12) / seen
	do := fmt.Sprintf("Connect the load for %d s from rest, disconnect it for a minute, and do that three times. Each group should fall by about %.0f mV in %d s; a meter of 1 mV then knows its resistance to %.0f %%.",
		pulseSeconds, 1000*seen, pulseSeconds, math.Ceil(100*share))
	if share > 0.1 {
		p.note("pulse-small", "a pulse of %s moves a group by %.1f mV only: take a larger load for the pulse, a kettle at an inverter or a starter's worth of lamps, up to %s",
			amps(p.amps), 1000*seen, amps(min(1, p.kind.DischargeRateAt(p.in.TempC))*p.in.CapacityAh))
	}
	p.add("Pulse", do, "three pulses are logged", "every second or faster", 0.1, -3*p.amps*pulseSeconds/3600)
}

func (p *planner) add(title, do, until, log string, hours, ah float64) {
	p.plan.Steps = append(p.plan.Steps, PlanStep{len(p.plan.Steps) + 1, title, do, until, log, hours, ah})
}
