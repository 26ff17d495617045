package drill

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// outcome sums up a run. What people would do is not played: an alarm counts as
// a layer that acted when somebody is there to hear it, and the time from the
// first sign to harm is told, but nothing is switched by hand.
func (t *turn) outcome() Outcome {
	w, x, l := &t.watch, &t.e.Worst, &t.p.limits
	o := Outcome{
		Scene: t.p.scenes[t.scene].Name, Harm: w.harm, HarmAt: w.harmAt, AlarmAt: w.signAt, ReactS: -1, FirstAt: -1,
		HighV: x.HighV, LowV: x.LowV, HotC: x.HotC, ColdC: x.ColdC,
		FrostAh: w.frostAh, PeakShare: w.peak, LostPower: w.lost, GapWh: t.gapWh(), Acts: t.acts(),
	}
	t.named(&o)
	o.Side, o.WorstV, o.MarginMV = "high", x.HighV, 1000*(l.highV-x.HighV)
	if low := 1000 * (x.LowV - l.lowV); low < o.MarginMV {
		o.Side, o.WorstV, o.MarginMV = "low", x.LowV, low
	}
	if d := w.first(); d != nil {
		o.FirstLayer, o.FirstAt = d.layer, d.at
	}
	if w.harmAt >= 0 && w.signAt >= 0 && w.signAt < w.harmAt {
		o.ReactS = w.harmAt - w.signAt
	}
	o.Outcome = t.verdict(&o)
	o.Silent = t.silent(&o)
	return o
}

func (t *turn) named(o *Outcome) {
	if len(t.faults) > 0 {
		o.Fault = t.p.faults[t.faults[0]].Name
	}
	if len(t.faults) > 1 {
		o.Second = t.p.faults[t.faults[1]].Name
	}
}

// verdict judges a run. What a layer stopped in time is caught, unless no cell
// was in danger and something was lost by it.
func (t *turn) verdict(o *Outcome) Verdict {
	l := &t.p.limits
	switch {
	case o.Harm != "":
		return Harm
	case l.highV-o.HighV < l.nearHigh, o.LowV-l.lowV < l.nearLow, o.FrostAh > 0, o.HotC > l.hotC-nearHot:
		return Near
	case o.LostPower && !t.watch.danger:
		return Nuisance
	case o.FirstLayer != "":
		return Caught
	case o.LostPower:
		return Nuisance
	}
	return None
}

// silent reports whether nothing told the person before harm, or, where no harm
// came, whether nothing told of the fault: a sign that the scene gives by itself
// does not.
func (t *turn) silent(o *Outcome) bool {
	if o.Harm != "" {
		return o.AlarmAt < 0 || o.AlarmAt >= o.HarmAt
	}
	for _, k := range t.faults {
		if t.p.faults[k].Tells {
			return false
		}
	}
	return len(t.faults) > 0 && (o.AlarmAt < 0 || t.p.signs[t.scene] >= 0)
}

// first is the layer of which something came first, or nil.
func (w *watch) first() *deed {
	var first *deed
	for k := range w.acts {
		if d := &w.acts[k]; d.at >= 0 && !d.wrong && (first == nil || d.at < first.at) {
			first = d
		}
	}
	return first
}

// acts are the layers in the order in which something came of them; those that
// judged in vain come last, with At -1.
func (t *turn) acts() []Act {
	w := &t.watch
	list := make([]Act, 0, len(w.acts))
	for k := range w.acts {
		d := &w.acts[k]
		list = append(list, Act{At: d.at, Layer: d.layer, Device: t.p.parts[d.part].name, Did: t.did(d)})
	}
	slices.SortStableFunc(list, func(a, b Act) int { return cmp.Compare(inVainLast(a.At), inVainLast(b.At)) })
	return list
}

func inVainLast(at float64) float64 {
	if at < 0 {
		return math.Inf(1)
	}
	return at
}

// did says what a layer did.
func (t *turn) did(d *deed) string {
	var parts []string
	if d.did != "" {
		parts = append(parts, d.did)
	}
	if d.sounds {
		parts = append(parts, "sounded")
	}
	verb := map[bool]string{true: "opened ", false: "stopped "}
	for k, to := range t.p.parts[d.part].targets {
		if d.obeyed>>k&1 != 0 {
			parts = append(parts, verb[t.p.parts[to].what == other && t.isContactor(to)]+t.p.parts[to].name)
		}
	}
	if parts == nil {
		return "acted, and nothing obeyed"
	}
	if d.wrong {
		parts = append(parts, "though nothing asked for it")
	}
	return strings.Join(parts, ", ")
}

func (t *turn) isContactor(part int) bool { return slices.Contains(t.a.Contactors, part) }

// gapWh is by how much the books of bus and bank fail to close, Wh.
func (t *turn) gapWh() float64 {
	e, b := t.e.Books(), t.a.Bank.Books()
	bus := e.SourceWh - e.LoadWh - e.CableWh - e.BankWh
	inside := b.TerminalWh - b.StoredWh - b.RelaxWh + b.ShiftWh - b.HeatWh - b.LeakWh - b.LinksWh
	return math.Abs(bus) + math.Abs(inside) + math.Abs(e.BankWh-b.TerminalWh)
}
