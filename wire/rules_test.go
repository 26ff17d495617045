package wire_test

import (
	"testing"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/wire"
)

// Three designs for each rule, made from the mended rig: one that passes, one
// exactly at the limit (which passes), one that fails by the least step.
type design struct {
	rule     string
	severity finding.Severity
	passes   func(r *rig.Rig)
	limit    func(r *rig.Rig)
	fails    func(r *rig.Rig)
}

func ptr[T any, N float64 | int](v N) *T {
	switch p := any(new(T)).(type) {
	case *q.Current:
		*p = q.Current(v)
		return any(p).(*T)
	case *q.Voltage:
		*p = q.Voltage(v)
		return any(p).(*T)
	case *q.Length:
		*p = q.Length(v)
		return any(p).(*T)
	case *q.Power:
		*p = q.Power(v)
		return any(p).(*T)
	case *q.Duration:
		*p = q.Duration(v)
		return any(p).(*T)
	case *q.Area:
		*p = q.Area(v)
		return any(p).(*T)
	case *q.Ratio:
		*p = q.Ratio(v)
		return any(p).(*T)
	}
	panic("not a quantity used here")
}

func amps(v float64) *q.Current    { return ptr[q.Current](v) }
func volts(v float64) *q.Voltage   { return ptr[q.Voltage](v) }
func metres(v float64) *q.Length   { return ptr[q.Length](v) }
func mm2(v float64) *q.Size        { return &q.Size{Gauge: q.MM2, Number: v} }
func same(*rig.Rig)                {}
func solar(r *rig.Rig) *rig.Source { return &r.Charge[0] }

func fuse(r *rig.Rig, name string) *rig.Fuse {
	for k := range r.Protection.Fuses {
		if r.Protection.Fuses[k].Name == name {
			return &r.Protection.Fuses[k]
		}
	}
	panic("no fuse " + name)
}

func unfuse(r *rig.Rig, name string) {
	var left []rig.Fuse
	for _, f := range r.Protection.Fuses {
		if f.Name != name {
			left = append(left, f)
		}
	}
	r.Protection.Fuses = left
}

func cable(r *rig.Rig, name string) *rig.Cable {
	for k := range r.Cables {
		if r.Cables[k].Name == name {
			return &r.Cables[k]
		}
	}
	panic("no cable " + name)
}

func toSolar(r *rig.Rig) *rig.Cable       { return cable(r, "bus to solar") }
func solarFuse(r *rig.Rig) *rig.Fuse      { return fuse(r, "solar fuse") }
func contactor(r *rig.Rig) *rig.Contactor { return &r.Protection.Contactors[0] }

func give(limit float64) func(*rig.Rig) { return func(r *rig.Rig) { solar(r).Limit = amps(limit) } }

func solarOn(size, limit float64) func(*rig.Rig) {
	return func(r *rig.Rig) { toSolar(r).Size, solar(r).Limit = mm2(size), amps(limit) }
}

func solarFused(size, rating float64) func(*rig.Rig) {
	return func(r *rig.Rig) { toSolar(r).Size, solarFuse(r).Rating = mm2(size), amps(rating) }
}

func solarBare(main float64) func(*rig.Rig) {
	return func(r *rig.Rig) {
		unfuse(r, "solar fuse")
		toSolar(r).Size, fuse(r, "main fuse").Rating = mm2(50), amps(main)
	}
}

func distance(m float64, place string) func(*rig.Rig) {
	return func(r *rig.Rig) { solarFuse(r).Distance, toSolar(r).Place = metres(m), place }
}

func rated(module, main float64) func(*rig.Rig) {
	return func(r *rig.Rig) {
		fuse(r, "module fuse").Rating, fuse(r, "main fuse").Rating = amps(module), amps(main)
	}
}

func slowFuse(size float64) func(*rig.Rig) {
	return func(r *rig.Rig) { toSolar(r).Size, solarFuse(r).Class = mm2(size), "terminal" }
}

func input(v float64) func(*rig.Rig) {
	return func(r *rig.Rig) { solar(r).Input.MaxVoltage = volts(v) }
}

func inputAmps(a float64) func(*rig.Rig) {
	return func(r *rig.Rig) { solar(r).Input.MaxCurrent = amps(a) }
}

func peak(v float64) func(*rig.Rig) {
	return func(r *rig.Rig) { solar(r).Panels[0].PeakVoltage = volts(v) }
}

func third(seriesFuse float64) func(*rig.Rig) {
	return func(r *rig.Rig) {
		for k := range solar(r).Panels {
			solar(r).Panels[k].SeriesFuse = amps(seriesFuse)
		}
		solar(r).Panels[0].Parallel = 2
	}
}

func ring(power, start float64) func(*rig.Rig) {
	return func(r *rig.Rig) { r.Loads[2].Power, r.Loads[2].Start = ptr[q.Power](power), ptr[q.Power](start) }
}

func drop(share float64) func(*rig.Rig) {
	return func(r *rig.Rig) { toSolar(r).DropLimit = ptr[q.Ratio](share) }
}

// wayToSolar is what the mended rig loses up to its solar charger, as a fraction.
func wayToSolar(t *testing.T) float64 {
	for _, c := range example(t, "curlew").Circuits {
		if c.Name == "bus to solar" {
			return c.WayPercent / 100
		}
	}
	t.Fatal("no such circuit")
	return 0
}

func designs(t *testing.T) []design {
	way := wayToSolar(t)
	return []design{
		// 1.25 × 48 A is the 60 A of its fuse.
		{"fuse-too-small", finding.Care, give(45), give(48), give(48.1)},
		// 33 CFR 183.455: 178 mm, 1016 mm enclosed.
		{"fuse-distance", finding.Care, distance(0.1, ""), distance(0.178, ""), distance(0.179, "")},
		{"fuse-distance", finding.Care, distance(0.1, "enclosed"), distance(1.016, "enclosed"), distance(0.3, "")},
		{"fuse-distance", finding.Stop, distance(0.1, ""), distance(1.016, ""), distance(1.017, "")},
		// Two module fuses share the current: 2 × 200 A over 200 A is 2.
		{"fuse-coordination", finding.Note, rated(225, 200), rated(200, 200), rated(175, 200)},
		// 10 mm² on lugs of 75 °C carries 65 A: 1.25 × 52 A.
		{"cable-too-small", finding.Care, solarOn(16, 52), solarOn(10, 52), solarOn(10, 52.1)},
		{"cable-too-small", finding.Stop, solarOn(10, 52), solarOn(10, 65), solarOn(10, 65.1)},
		{"cable-too-small", finding.Care, drop(0.03), drop(way * (1 + 1e-6)), drop(way * 0.999)},
		{"cable-too-small", finding.Care, same, func(r *rig.Rig) { cable(r, "bus to heater pad").Size = mm2(1) },
			func(r *rig.Rig) { cable(r, "bus to heater pad").Size = mm2(0.75) }},
		// 50 V and more: 65 A, or the next standard fuse of 70 A.
		{"cable-unprotected", finding.Care, solarFused(10, 60), solarFused(10, 65), solarFused(10, 66)},
		{"cable-unprotected", finding.Stop, solarFused(10, 60), solarFused(10, 70), solarFused(10, 71)},
		// Without a fuse of its own, the main fuse must be small enough: 50 mm² carries 210 A.
		{"cable-unprotected", finding.Stop, solarBare(150), solarBare(210), solarBare(226)},
		{"cable-unprotected", finding.Stop, same, same, func(r *rig.Rig) { unfuse(r, "solar fuse") }},
		// 0.1 s of 15.27 kA needs 48.3 mm² of copper at k = 100; 70 mm² has 63.4, 50 mm² 44.7.
		{"short-withstand", finding.Care, same, slowFuse(70), slowFuse(50)},
		{"cable-adrift", finding.Care, same, same, func(r *rig.Rig) { cable(r, "bus to heater pad").From = "frost switch" }},
		{"cable-missing", finding.Note, same, same, func(r *rig.Rig) { r.Cables = r.Cables[:len(r.Cables)-1] }},
		{"contactor-current", finding.Stop, same, func(r *rig.Rig) { contactor(r).Continuous = amps(110) }, func(r *rig.Rig) { contactor(r).Continuous = amps(109.9) }},
		{"contactor-current", finding.Note, same, same, func(r *rig.Rig) { contactor(r).Continuous = nil }},
		// The inverter's surge over its steady draw, on top of everything.
		{"contactor-break", finding.Care, same, func(r *rig.Rig) { contactor(r).Break = amps(172.3531) }, func(r *rig.Rig) { contactor(r).Break = amps(172.35) }},
		{"contactor-break", finding.Note, same, same, func(r *rig.Rig) { contactor(r).Break = nil }},
		{"contactor-polarised", finding.Care, same, func(r *rig.Rig) { contactor(r).Polarised, contactor(r).Opens = true, "charge" }, func(r *rig.Rig) { contactor(r).Polarised = true }},
		{"no-pre-charge", finding.Care, same, func(r *rig.Rig) { contactor(r).PreCharge, r.Inverters = nil, nil }, func(r *rig.Rig) { contactor(r).PreCharge = nil }},
		// 22 Ω × 15 mF × ln 20 = 0.9886 s.
		{"pre-charge-short", finding.Care, same, func(r *rig.Rig) { contactor(r).PreChargeTime = ptr[q.Duration](0.9887) }, func(r *rig.Rig) { contactor(r).PreChargeTime = ptr[q.Duration](0.988) }},
		{"pre-charge-short", finding.Note, same, same, func(r *rig.Rig) { contactor(r).PreChargeTime = nil }},
		// 2 × 46.4 V × (1 + 0.0029 × 34) = 101.950 V, by table × 1.14 = 105.792 V.
		{"string-too-high", finding.Care, same, input(105.7921), input(105.79)},
		{"string-too-high", finding.Stop, same, input(101.9501), input(101.95)},
		// At 65 °C 85.2 % of the peak voltage is left; 49.2 V and 2 V are needed.
		{"string-too-low", finding.Care, same, peak(30.047), peak(30.046)},
		{"panel-current", finding.Care, same, inputAmps(23), inputAmps(22.9)},
		{"panel-current", finding.Stop, same, inputAmps(18.4), inputAmps(18.3)},
		// Two others drive 2 × 1.25 × 9.2 A = 23 A.
		{"panel-fuse", finding.Care, same, third(23), third(22.9)},
		{"supply-overloaded", finding.Care, same, ring(3000, 0), ring(3001, 0)},
		{"supply-overloaded", finding.Care, same, ring(1400, 6000), ring(1400, 6001)},
		{"supply-overloaded", finding.Note, same, ring(2120, 0), ring(2121, 0)},
		// 90 W on 450 cm² is 0.2 W/cm².
		{"heater-density", finding.Care, same, func(r *rig.Rig) { r.Heater.Area = ptr[q.Area](0.045) }, func(r *rig.Rig) { r.Heater.Area = ptr[q.Area](0.0449) }},
		// The branch's own short, behind the main cable: 15 266 A.
		{"interrupt-rating", finding.Stop, same, func(r *rig.Rig) { solarFuse(r).Interrupt = amps(15267) }, func(r *rig.Rig) { solarFuse(r).Interrupt = amps(15265) }},
		{"interrupt-rating", finding.Stop, same, func(r *rig.Rig) { fuse(r, "main fuse").Interrupt = amps(19335) }, func(r *rig.Rig) { fuse(r, "main fuse").Interrupt = amps(19334) }},
		{"fuse-voltage", finding.Stop, same, func(r *rig.Rig) { solarFuse(r).RatedVoltage = volts(50.4) }, func(r *rig.Rig) { solarFuse(r).RatedVoltage = volts(50.3) }},
		{"no-main-fuse", finding.Stop, same, same, func(r *rig.Rig) { unfuse(r, "main fuse") }},
		{"no-string-fuse", finding.Care, same, func(r *rig.Rig) { unfuse(r, "module fuse"); r.Bank.Strings = 1 }, func(r *rig.Rig) { unfuse(r, "module fuse") }},
	}
}

func has(list []finding.Finding, id string, severity finding.Severity) bool {
	for _, f := range list {
		if f.ID == id && f.Severity == severity {
			return true
		}
	}
	return false
}

func TestThreeDesignsOfEachRule(t *testing.T) {
	tested := map[string]bool{}
	for _, d := range designs(t) {
		tested[d.rule] = true
		for name, change := range map[string]func(*rig.Rig){"passes": d.passes, "limit": d.limit, "fails": d.fails} {
			r, _ := load(t, "curlew")
			change(r)
			if got := has(run(t, r).Findings, d.rule, d.severity); got != (name == "fails") {
				t.Errorf("%s %s: %s: found %v", d.rule, d.severity, name, got)
			}
		}
	}
	for _, id := range wire.RuleIDs() {
		if !tested[id] {
			t.Errorf("no design for %s", id)
		}
	}
}
