package prove

import (
	"fmt"
	"math"

	q "ampstead/quantity"
)

// Rates of a test, 1/h: the recipe asks for a fifth to a third of the capacity an
// hour; beyond half of it the sag ends the test early; below a fiftieth it takes
// longer than anyone watches. Habit, no source.
const (
	largeRate    = 0.5
	smallRate    = 1.0 / 10
	tooSmallRate = 1.0 / 50
	taperRate    = 1.0 / 20
	inverterLoss = 0.12 // of what it draws, beside nothing known of it
	marginV      = 0.005
)

// limits are those of the cell in this test.
func (p *planner) limits() {
	n := float64(p.in.Series)
	p.plan.Limits = PlanLimits{
		PackHighV: n * p.in.HighV, PackLowV: n * p.in.LowV, GroupHighV: p.in.HighV, GroupLowV: p.in.LowV,
		TaperA:     taperRate * p.in.CapacityAh,
		ChargeMinC: p.kind.ChargeMinC.Value, ChargeMaxC: p.kind.ChargeMaxC.Value, StopC: p.kind.AlarmC.Value,
	}
}

// charger sees whether it can fill the module, and not over-fill it.
func (p *planner) charger() {
	l, in := &p.plan.Limits, &p.in
	n := float64(in.Series)
	p.toSoC = 1
	switch {
	case in.ChargerMinV > l.PackHighV+n*marginV:
		p.refuse("charger-overshoots", "the charger ends at %s at the lowest and the module's limit is %s (%s a group): it would over-charge it; do not connect it",
			volts(in.ChargerMinV), volts(l.PackHighV), volts(l.GroupHighV))
		return
	case in.ChargerMaxV < n*p.kind.Curve.Voltage(0.5):
		p.refuse("charger-short", "the charger ends at %s, where the module is less than half full (its top is %s): it cannot be filled with it",
			volts(in.ChargerMaxV), volts(l.PackHighV))
		return
	case in.ChargerMaxV < l.PackHighV-n*marginV:
		p.toSoC = p.kind.Curve.SoC(in.ChargerMaxV / n)
		l.PackHighV, l.GroupHighV = in.ChargerMaxV, in.HighV
		p.note("charger-short", "the charger ends at %s, %s a group: about %.0f %% of charge; the capacity will have to be carried on along the curve, with a larger error",
			volts(in.ChargerMaxV), volts(in.ChargerMaxV/n), 100*p.toSoC)
	}
	p.chargeCurrent()
}

func (p *planner) chargeCurrent() {
	l, in := &p.plan.Limits, &p.in
	most := p.kind.ChargeRate(in.TempC) * in.CapacityAh
	if most == 0 {
		p.refuse("no-charge-at-this-temperature", "at %s such a cell must not be charged; warm the module to %s or more and keep it there, or wait for a place between %s and %s",
			celsius(in.TempC), celsius(l.ChargeMinC+5), celsius(l.ChargeMinC), celsius(l.ChargeMaxC))
		return
	}
	l.ChargeA = min(in.ChargerA, most)
	switch {
	case in.ChargerA <= most:
	case in.ChargerMinA > 0 && in.ChargerMinA <= most:
		p.note("charger-strong", "the charger gives up to %s and the module takes %s at %s: set it to %s or less", amps(in.ChargerA), amps(most), celsius(in.TempC), amps(most))
	default:
		p.refuse("charger-strong", "the charger gives %s and cannot be set below; the module takes %s at most at %s", amps(max(in.ChargerMinA, in.ChargerA)), amps(most), celsius(in.TempC))
	}
	if l.ChargeA < taperRate*in.CapacityAh {
		l.TaperA = l.ChargeA / 2
		p.note("charger-small", "the charger gives %s, less than a twentieth of the capacity an hour: charging takes %.0f h, and ends when the current has fallen to %s",
			amps(l.ChargeA), in.CapacityAh/l.ChargeA, amps(l.TaperA))
	}
}

// refuse says that the module cannot be tested with this gear.
func (p *planner) refuse(id, format string, args ...any) {
	p.note(id, format, args...)
	p.plan.Possible = false
}

// load sees what the load draws and whether that makes a test.
func (p *planner) load() {
	p.amps = p.drawn()
	ah, rate := p.in.CapacityAh, p.amps/p.in.CapacityAh
	most := p.kind.DischargeRateAt(p.in.TempC)
	switch {
	case rate > most:
		p.refuse("load-too-large", "the load draws about %s, %.1f times the capacity an hour; such a cell gives %.1f at most at %s: take a smaller one", amps(p.amps), rate, most, celsius(p.in.TempC))
	case rate > largeRate:
		p.note("load-large", "the load draws about %s, %.2f of the capacity an hour: the sag ends the test early and the capacity reads low by some percent; %s to %s is better",
			amps(p.amps), rate, amps(ah/5), amps(ah/3))
	case rate < tooSmallRate:
		p.refuse("load-too-small", "the load draws about %s: the discharge would take %.0f h, which nobody watches; take one of %s to %s", amps(p.amps), ah/p.amps, amps(ah/5), amps(ah/3))
	case rate < smallRate:
		p.note("load-small", "the load draws about %s: the discharge takes %.0f h and must not go unwatched; %s to %s is better. A pulse with it hardly shows the resistance",
			amps(p.amps), ah/p.amps, amps(ah/5), amps(ah/3))
	}
	p.loadKind()
}

// place says when it is too cold or hot for a capacity that compares: standard
// tests are made at 20 ± 5 °C.
func (p *planner) place() {
	if math.Abs(p.in.TempC-20) > 5 {
		p.note("place-temperature", "standard tests are made at 20 ± 5 °C; at %s the capacity and above all the resistance will differ from that: log the temperature of the cells", celsius(p.in.TempC))
	}
}

// drawn is the load's current at the middle of the discharge, A.
func (p *planner) drawn() float64 {
	mid := float64(p.in.Series) * p.kind.Curve.Voltage(0.5)
	switch p.in.Load {
	case "heater":
		return p.in.LoadW / (p.in.LoadV * p.in.LoadV) * mid
	case "inverter":
		return p.in.LoadW / (1 - inverterLoss) / mid
	}
	return p.in.LoadA
}

func (p *planner) loadKind() {
	l := &p.plan.Limits
	switch {
	case p.in.Load == "heater" && l.PackHighV > p.in.LoadV*1.15:
		p.note("heater-over-voltage", "the heater is made for %s and the full module gives %s: it draws %s there instead of %s, and may burn out; take one for a higher voltage, or two in series",
			volts(p.in.LoadV), volts(l.PackHighV), watts(p.in.LoadW*sq(l.PackHighV/p.in.LoadV)), watts(p.in.LoadW))
	case p.in.Load == "inverter" && p.in.LoadV > l.PackLowV:
		soc := p.kind.Curve.SoC(p.in.LoadV / float64(p.in.Series))
		p.note("inverter-stops-early", "the inverter switches off at %s, above the module's %s: the discharge ends at about %.0f %% of charge and the rest is carried on along the curve",
			volts(p.in.LoadV), volts(l.PackLowV), 100*soc)
	case p.in.Load == "inverter" && p.in.LoadV == 0:
		p.note("inverter-low-cut", "look up where the inverter switches off; above %s it ends the discharge early", volts(l.PackLowV))
	}
	if p.in.Load == "inverter" && p.in.KettleOff {
		p.note("kettle-switches-off", "a kettle stops when it boils: refill it with cold water each time and log through the pauses, or use a heater without a thermostat; as a pulse it is just right")
	}
}

func sq(v float64) float64 { return v * v }

func volts(v float64) string   { return q.Volts.Text(round(v, 2), q.Metric) }
func amps(v float64) string    { return q.Amperes.Text(round(v, 1), q.Metric) }
func watts(v float64) string   { return q.Watts.Text(math.Round(v), q.Metric) }
func celsius(v float64) string { return q.Celsius.Text(v, q.Metric) }

func round(v float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(v*p) / p
}

func (p *planner) cautions() []string {
	l := &p.plan.Limits
	list := []string{
		fmt.Sprintf("A module of %s and %s can give thousands of amperes into a short and cannot be switched off. Take off rings and watches, insulate tools, wear glasses, and fit a fuse within reach of its positive pole before anything else.",
			volts(float64(p.in.Series)*p.kind.NominalV.Value), q.AmpereHours.Text(p.in.CapacityAh, q.Metric)),
		"Do not test a module that is swollen, dented, wet, corroded, or smells sweet or sharp, nor one with a group below 1.5 V.",
		"Test outdoors or in a shed of stone or metal, on ground that does not burn, two metres from anything that does. Smoke of lithium cells is poisonous: go away from it, upwind, and call the fire brigade; much water cools, little does not.",
		fmt.Sprintf("Never charge below %s or above %s cell temperature.", celsius(l.ChargeMinC), celsius(l.ChargeMaxC)),
		"Stay with it. Charging and discharging end by the first group that reaches its limit, not by the pack's voltage; without a device that watches every group, a person does.",
	}
	if n := float64(p.in.Series) * p.in.HighV; n > 60 {
		list = append(list, fmt.Sprintf("The module stands at up to %s: above 60 V d.c. a touch can kill. Never work on it alone, cover every pole.", volts(n)))
	}
	return list
}

func (p *planner) stops() []string {
	l := &p.plan.Limits
	return []string{
		fmt.Sprintf("any group above %s, or below %s under load", volts(l.GroupHighV), volts(l.GroupLowV)),
		fmt.Sprintf("any cell at %s, or one that warms while the others do not", celsius(l.StopC)),
		"swelling, hissing, smell, smoke: open the disconnect if it can be reached without bending over the module, and go away",
		"a joint or cable too hot to keep a finger on (about 55 °C)",
		"a voltage that jumps, or a meter that stops logging",
	}
}

func (p *planner) log() []string {
	return []string{
		"time, pack voltage at the poles (by two wires of its own, not those that carry current), current with its sign, the voltage of every group to 1 mV, one temperature for each module",
		"every second in the first minute after each change of current and during pulses; every 10 s otherwise; every minute in rests, every hour in the long rest",
		"without a logger for the groups: read all of them by hand before each change, one minute and ten minutes after it, then every ten minutes, and every minute below " + volts(p.kind.DailyLowV.Value) + " in any group",
		"do not stop the log between the steps: what the rests show belongs to the test",
	}
}
