package choose

import (
	"fmt"
	"math"
	"slices"

	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// nudge is a difference of voltage that is none.
const nudge = 1e-6

// bench compares a rig's devices with a battery in it.
type bench struct {
	old  *rig.Rig // as it is in the file
	rig  *rig.Rig // with the battery
	res  *fit.Result
	sys  q.System
	list []Misfit

	beyond []string // devices whose input it can destroy, with their voltages
}

// compare finds what must be exchanged or changed for a battery.
func compare(old, r *rig.Rig, res *fit.Result) *bench {
	b := &bench{old: old, rig: r, res: res, list: []Misfit{}}
	b.sys, _ = q.ParseSystem(r.About.Units)
	for _, v := range r.Converters {
		b.input(v.Name, float64(*v.InputLow), float64(*v.InputHigh))
	}
	for _, v := range r.Inverters {
		b.input(v.Name, float64(*v.InputLow), float64(*v.InputHigh))
	}
	for k := range r.Charge {
		b.charger(&r.Charge[k])
	}
	b.layers()
	b.around()
	return b
}

// fits reports whether every device works over the battery's whole window.
func (b *bench) fits() bool {
	return !slices.ContainsFunc(b.list, func(m Misfit) bool { return m.Exchange })
}

func (b *bench) exchange(device, mend, found string, args ...any) {
	b.list = append(b.list, Misfit{Device: device, Found: fmt.Sprintf(found, args...), Mend: mend, Exchange: true})
}

func (b *bench) change(device, mend, found string, args ...any) {
	b.list = append(b.list, Misfit{Device: device, Found: fmt.Sprintf(found, args...), Mend: mend})
}

func volts(v float64) string { return q.Volts.Fixed(v, "V", 1) }

// top is the highest voltage a device on the bank meets at 25 °C.
func (b *bench) top() float64 {
	if a := b.res.Kind.Acid; a != nil {
		return max(a.AbsorptionV.Value, a.EqualiseV.Value) * float64(b.rig.Bank.Series)
	}
	return b.res.Window.BankHighV
}

// frosty is the highest at the coldest of the route: lead-acid is charged to
// more volts in the cold.
func (b *bench) frosty() float64 {
	a := b.res.Kind.Acid
	if a == nil {
		return b.top()
	}
	coldest := 25.0
	for _, s := range b.rig.Route {
		if s.Coldest != nil {
			coldest = min(coldest, float64(*s.Coldest))
		}
	}
	cold := (a.AbsorptionV.Value + a.CompensationVPerK.Value*(coldest-25)) * float64(b.rig.Bank.Series)
	return max(cold, b.top())
}

// input compares the range a converter or inverter works from.
func (b *bench) input(name string, low, high float64) {
	top, frosty := b.top(), b.frosty()
	switch {
	case high < top-nudge:
		b.exchange(name, "one that bears at least "+volts(frosty), "it bears %s; this battery can reach %s", volts(high), volts(top))
		b.beyond = append(b.beyond, fmt.Sprintf("%s bears %s, it can reach %s", name, volts(high), volts(top)))
	case high < frosty-nudge:
		b.change(name, "compensation limited to "+volts(high)+" at every charger, or a device that bears more",
			"it bears %s; in frost compensation raises this battery's charge to %s", volts(high), volts(frosty))
	}
	if want := b.dailyLow(); low > want+nudge {
		b.exchange(name, "one that works from "+volts(want),
			"it works from %s; this battery is empty only at %s, so that %.0f %% of its daily energy stays in it", volts(low), volts(want), 100*b.below(low))
	}
}

// dailyLow is where daily use would end, V of the bank.
func (b *bench) dailyLow() float64 { return b.res.Kind.DailyLowV.Value * float64(b.rig.Bank.Series) }

// below is the share of the daily energy under a voltage.
func (b *bench) below(low float64) float64 {
	curve, n := b.res.Kind.Curve, float64(b.rig.Bank.Series)
	bottom, top := curve.SoC(b.res.Kind.DailyLowV.Value), curve.SoC(b.res.Daily.CellHighV)
	whole := curve.Energy(bottom, top)
	if whole <= 0 {
		return 0
	}
	return min(1, max(0, curve.Energy(bottom, curve.SoC(low/n))/whole))
}

// charger compares what a charge source can be set to and fed with.
func (b *bench) charger(src *rig.Source) {
	want := b.absorption(src.Name)
	if src.Lowest != nil && float64(*src.Lowest) > want+nudge {
		b.exchange(src.Name, "one that can be set to "+volts(want), "it cannot be set below %s; this battery wants %s", volts(float64(*src.Lowest)), volts(want))
	}
	if best := b.wanted(); src.Highest != nil && float64(*src.Highest) < best-nudge {
		b.exchange(src.Name, "one that can be set to "+volts(best), "it cannot be set above %s; this battery wants %s and would never be full", volts(float64(*src.Highest)), volts(best))
	}
	if hot, ok := hottest(src); ok && hot < want {
		b.change(src.Name, "one more panel in each string", "its panels give %s when hot, this battery is charged to %s", volts(hot), volts(want))
	}
	if b.res.Kind.Family != cell.LeadAcid && !b.stoppable(src) {
		b.frost(src)
	}
}

// absorption is what fit sets a source to.
func (b *bench) absorption(name string) float64 {
	for _, s := range b.res.Settings {
		if v, ok := s.Value.(float64); ok && s.Device == name && s.Setting == "absorption" {
			return v
		}
	}
	return b.wanted()
}

// wanted is the voltage charged to for a long life, V of the bank.
func (b *bench) wanted() float64 {
	n, k := float64(b.rig.Bank.Series), b.res.Kind
	if k.Acid != nil {
		return k.Acid.AbsorptionV.Value * n
	}
	return min(k.DailyHighV.Value*n, b.res.Daily.BankHighV)
}

// hotK is how much warmer than in the test a panel gets under a high sun.
const hotK = 45

// hottest is the least voltage at the peak of a source's panel strings when hot.
func hottest(src *rig.Source) (float64, bool) {
	least, any := math.Inf(1), false
	for _, p := range src.Panels {
		if p.PeakVoltage == nil {
			continue
		}
		perK := -0.003
		if p.VoltageCoefficient != nil {
			perK = float64(*p.VoltageCoefficient)
		}
		least, any = min(least, float64(*p.PeakVoltage)*float64(p.Series)*(1+perK*hotK)), true
	}
	return least, any
}

// stoppable reports whether something can stop a source in frost: a thermometer
// of its own on the bank, or a cut-out built for cold that reaches it.
func (b *bench) stoppable(src *rig.Source) bool {
	if src.Thermometer == "bank" {
		return true
	}
	for _, c := range b.rig.Protection.Cutouts {
		if !c.Below.Off && (src.StopInput && (c.Stops == "charge" || c.Stops == src.Name) || b.cuts(c.Stops)) {
			return true
		}
	}
	return false
}

// cuts reports whether a name is a contactor between sources and bank.
func (b *bench) cuts(name string) bool {
	for _, c := range b.rig.Protection.Contactors {
		if c.Name == name {
			return c.Opens != "loads"
		}
	}
	return false
}

func (b *bench) frost(src *rig.Source) {
	limit := q.Celsius.Text(b.res.Kind.ChargeMinC.Value, b.sys)
	if src.StopInput {
		b.change(src.Name, "a frost switch at the bank, wired to its stop input", "nothing stops it in frost; this battery must not be charged below %s", limit)
		return
	}
	b.exchange(src.Name, "one with a stop input or a thermometer at the bank", "nothing can stop it in frost; this battery must not be charged below %s", limit)
}

// layers are limits that cannot be staged with the devices there are.
func (b *bench) layers() {
	for _, f := range b.res.Findings {
		if f.ID == "layers-cross" {
			b.exchange("the layers together", f.Mend, "%s", f.Found)
		}
	}
}

// around is what goes with a battery of another kind: meter, heater, box.
func (b *bench) around() {
	groups, lead := b.rig.Bank.Series*max(1, b.rig.Bank.Strings), b.res.Kind.Family == cell.LeadAcid
	for _, m := range b.old.Protection.Meters {
		switch {
		case lead:
			b.change(m.Name, "taken out", "it watches single groups, which lead-acid does not show")
		case m.Watches != groups:
			b.change(m.Name, "wired anew", "it is wired to %d groups; this battery has %d", m.Watches, groups)
		}
	}
	if lead {
		for _, r := range b.old.Protection.Relays {
			b.change(r.Name, "its high side off", "lead-acid is charged to more volts in the cold, and would open it")
		}
	}
	if h := b.old.Heater; h != nil && lead {
		b.change(h.Name, "not needed", "lead-acid is charged in frost without one")
	}
	if b.old.Bank.Box != nil && b.rig.Bank.Box != b.old.Bank.Box {
		x := b.rig.Bank.Box
		b.change("the box", "a larger one", "it is too small: this battery takes %s", b.size(x))
	}
}

func (b *bench) size(x *rig.Box) string {
	text := func(l *q.Length) string { return q.Metres.Text(float64(*l), b.sys) }
	return text(x.Length) + " × " + text(x.Width) + " × " + text(x.Height)
}

// exchanged is the rig with other devices where its own do not work over the
// battery's window or cannot be stopped in frost, so that the battery is judged
// and not they.
func exchanged(r *rig.Rig, res *fit.Result) *rig.Rig {
	b := &bench{old: r, rig: r, res: res}
	c := open(r)
	for k := range c.Converters {
		c.Converters[k].InputLow, c.Converters[k].InputHigh = b.widened(c.Converters[k].InputLow, c.Converters[k].InputHigh)
	}
	for k := range c.Inverters {
		c.Inverters[k].InputLow, c.Inverters[k].InputHigh = b.widened(c.Inverters[k].InputLow, c.Inverters[k].InputHigh)
	}
	for k := range c.Charge {
		x := &c.Charge[k]
		x.Lowest, x.Highest = nil, nil
		if !b.stoppable(x) {
			x.Thermometer = "bank"
		}
	}
	if res.Kind.Family == cell.LeadAcid {
		quiet(c)
	}
	return c
}

func (b *bench) widened(low, high *q.Voltage) (*q.Voltage, *q.Voltage) {
	l, h := min(*low, q.Voltage(b.dailyLow())), max(*high, q.Voltage(b.frosty()))
	return &l, &h
}
