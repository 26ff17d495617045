package wire_test

import (
	"encoding/json"
	"errors"
	"testing"

	"pgregory.net/rapid"

	"ampstead/finding"
	"ampstead/fit"
	_ "ampstead/internal/fixedseed" // property tests draw the same every run
	q "ampstead/quantity"
	"ampstead/rig"
	"ampstead/wire"
)

// A bank alone has no circuits, and only its missing fuse to speak of.
func TestBankAlone(t *testing.T) {
	r, _ := load(t, "dipper")
	res := run(t, &rig.Rig{About: r.About, Bank: r.Bank})
	if len(res.Circuits) != 0 || !has(res.Findings, "no-main-fuse", finding.Stop) {
		t.Errorf("%d circuits, findings %v", len(res.Circuits), listed(res.Findings))
	}
}

// Nothing written down: everything is proposed, with fuses, and only said so.
func TestEverythingIsProposed(t *testing.T) {
	r, _ := load(t, "curlew")
	r.Cables, r.Protection.Fuses = nil, nil
	res := run(t, r)
	for _, c := range res.Circuits {
		if !c.Proposed || c.Size == "" || c.Size != c.SmallestSize || !c.LengthAssumed {
			t.Errorf("%s: %+v", c.Name, c)
		}
	}
	for _, f := range res.Findings {
		if f.ID != "no-main-fuse" && f.ID != "no-string-fuse" && f.ID != "cable-missing" {
			t.Errorf("%s at %s: %s", f.ID, f.Where, f.Found)
		}
	}
}

// A contactor may be written as a node of the way, and a device be fed straight
// from the bank.
func TestWaysThroughAContactor(t *testing.T) {
	r, _ := load(t, "curlew")
	main := cable(r, "bank to bus")
	main.To = "main contactor"
	second := *main
	second.Name, second.From, second.To = "contactor to bus", "main contactor", "bus"
	r.Cables = append(r.Cables, second)
	res := run(t, r)
	first, next := circuitOf(res, "bank to bus"), circuitOf(res, "contactor to bus")
	if first.CurrentA != next.CurrentA || first.FuseA != 150 || !next.FuseShared {
		t.Errorf("%g A and %g A, fuses %g A and shared %v", first.CurrentA, next.CurrentA, first.FuseA, next.FuseShared)
	}
	branch := circuitOf(res, "bus to solar")
	if !(branch.ShortStartA < next.ShortStartA && next.ShortStartA < first.ShortStartA) {
		t.Errorf("short %g, %g, %g A", first.ShortStartA, next.ShortStartA, branch.ShortStartA)
	}
}

// A heater on the converter's side is reckoned at its output voltage, and a
// panel's lead written down counts as that string's.
func TestOtherSides(t *testing.T) {
	r, _ := load(t, "curlew")
	r.Heater.Supply = "12 V converter"
	pad := cable(r, "bus to heater pad")
	pad.From = "12 V converter"
	lead := *pad
	lead.Name, lead.From, lead.To, lead.Size = "roof lead", "left side", "roof solar", mm2(4)
	r.Cables = append(r.Cables, lead)
	res := run(t, r)
	if c := circuitOf(res, pad.Name); c.AtV != 13.2 || c.InterruptA != 0 {
		t.Errorf("pad: %g V, short %g A", c.AtV, c.InterruptA)
	}
	if c := circuitOf(res, "roof lead"); c.Proposed || c.CurrentA != 11.5 || c.ShortStartA != 0 {
		t.Errorf("lead: %+v", c)
	}
}

func TestRefusesASizeOfNoTable(t *testing.T) {
	r, f := load(t, "curlew")
	cable(r, "bus to solar").Size = mm2(240)
	var in *fit.InputError
	if _, err := wire.Run(r, f, wire.Options{}); !errors.As(err, &in) || in.Path != "cables.bus to solar" {
		t.Errorf("got %v", err)
	}
}

// A cold place below the table, or none at all, is still answered.
func TestColdBeyondTheTable(t *testing.T) {
	r, _ := load(t, "curlew")
	cold := q.Temperature(-48)
	r.Route[1].ColdestAir = &cold
	x := run(t, r).Strings[0]
	if x.TableV != 0 || x.ColdV != x.CoefficientV || x.ColdestC != -48 {
		t.Errorf("%+v", x)
	}
	r.Route = nil
	res := run(t, r)
	if res.Strings[0].ColdestC != -20 || len(res.Assumed) == 0 {
		t.Errorf("%+v, assumed %v", res.Strings[0], res.Assumed)
	}
}

// Whatever is left out of a rig, it is answered in numbers.
func TestPartsMayBeMissing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, _ := loadText()
		keep := func(what string) bool { return rapid.Bool().Draw(t, what) }
		r.Cables = some(t, "cable", r.Cables)
		r.Protection.Fuses = some(t, "fuse", r.Protection.Fuses)
		r.Charge = some(t, "charger", r.Charge)
		r.Loads = some(t, "load", r.Loads)
		if !keep("inverter") {
			r.Inverters = nil
		}
		if !keep("converter") {
			r.Converters = nil
		}
		if !keep("heater") {
			r.Heater = nil
		}
		if !keep("contactor") {
			r.Protection.Contactors, r.Protection.Relays = nil, nil
		}
		r.Bank.Strings = rapid.IntRange(0, 3).Draw(t, "strings")
		if _, err := json.Marshal(run(t, r)); err != nil {
			t.Fatal(err)
		}
	})
}

func some[T any](t *rapid.T, what string, list []T) []T {
	var left []T
	for _, x := range list {
		if rapid.Bool().Draw(t, what) {
			left = append(left, x)
		}
	}
	return left
}
