package drill

import (
	"slices"

	"ampstead/fit"
	"ampstead/rig"
)

// withContactor adds a contactor that opens one branch.
func withContactor(r *rig.Rig, name, opens string) {
	r.Protection.Contactors = append(r.Protection.Contactors, rig.Contactor{Name: name, Opens: opens})
}

// withRelay adds a voltage relay on a contactor of its own.
func withRelay(r *rig.Rig, relay, contactor, opens string) {
	withContactor(r, contactor, opens)
	r.Protection.Relays = append(r.Protection.Relays, rig.Relay{Name: relay, Drives: contactor, Senses: "bank"})
}

func relaySheet(name string) []string { return []string{"protection.relays." + name + "."} }

// idleMeter is the first cell meter that switches nothing, or -1.
func idleMeter(r *rig.Rig) int {
	return slices.IndexFunc(r.Protection.Meters, func(m rig.Meter) bool { return m.Drives == "" })
}

func meterToContactor(r *rig.Rig, _ *fit.Result) *addition {
	at := slices.IndexFunc(r.Protection.Contactors, func(c rig.Contactor) bool { return c.Opens != "loads" })
	k := idleMeter(r)
	if at < 0 || k < 0 {
		return nil
	}
	contactor := r.Protection.Contactors[at].Name
	return &addition{
		name:    "the output of the " + r.Protection.Meters[k].Name + " wired to the " + contactor,
		about:   "it then has its own sensor and its own logic, but shares the contactor: a welded contact defeats both",
		against: anyHarm,
		change:  func(r *rig.Rig) { r.Protection.Meters[k].Drives = contactor },
	}
}

func chargeSwitchedByMeter(r *rig.Rig, _ *fit.Result) *addition {
	k := idleMeter(r)
	if len(r.Charge) == 0 || k < 0 && len(r.Protection.Meters) > 0 {
		return nil
	}
	contactor, meter := fresh(r, "charge contactor"), fresh(r, "cell meter")
	about := "the contactor is in the charge line alone and driven by nothing else; tapped fuses at every group"
	if k >= 0 {
		return &addition{
			name:  "the output of the " + r.Protection.Meters[k].Name + " wired to a " + contactor + " of its own",
			about: about, against: chargeHarm,
			change: func(r *rig.Rig) {
				withContactor(r, contactor, "charge")
				r.Protection.Meters[k].Drives = contactor
			},
		}
	}
	return &addition{
		name:  "a " + meter + " on every group, its output wired to a " + contactor + " of its own",
		about: about, against: chargeHarm, sheets: []string{"protection.meters." + meter + "."},
		change: func(r *rig.Rig) {
			withContactor(r, contactor, "charge")
			watches := r.Bank.Series * max(1, r.Bank.Strings)
			r.Protection.Meters = append(r.Protection.Meters, rig.Meter{Name: meter, Watches: watches, Drives: contactor})
		},
	}
}

// ownRelay is a second voltage relay with its own contactor in one branch.
func ownRelay(opens, where string, against []string) func(*rig.Rig, *fit.Result) *addition {
	return func(r *rig.Rig, _ *fit.Result) *addition {
		relay, contactor := fresh(r, "voltage relay"), fresh(r, where+" contactor")
		return &addition{
			name:    "a " + relay + " with a " + contactor + " of its own",
			about:   "its sense wires go to the bank's terminals by themselves, with their own fuse; it shares neither relay, coil supply nor contact with what is there",
			against: against, sheets: relaySheet(relay),
			change: func(r *rig.Rig) { withRelay(r, relay, contactor, opens) },
		}
	}
}

var (
	secondChargeRelay = ownRelay("charge", "charge", []string{"cell high"})
	secondLoadRelay   = ownRelay("loads", "load", []string{"cell low"})
	secondBankRelay   = ownRelay("bank", "bank", []string{"cell high", "cell low"})
)

// ownCutout is a temperature switch that opens a contactor of its own in the
// charge line, for chargers that cannot be told to stop, or that do not listen.
func ownCutout(kind, about string, cold bool, against []string) func(*rig.Rig, *fit.Result) *addition {
	return func(r *rig.Rig, _ *fit.Result) *addition {
		if len(r.Charge) == 0 {
			return nil
		}
		name, contactor := fresh(r, kind), fresh(r, "charge contactor")
		return &addition{
			name:  "a " + name + " with a " + contactor + " of its own",
			about: about, against: against, sheets: cutoutSheet(name, cold),
			change: func(r *rig.Rig) {
				withContactor(r, contactor, "charge")
				withCutout(r, name, contactor, cold)
			},
		}
	}
}

var (
	frostContactor = ownCutout("frost switch", "the contactor cuts off every charger, whether it listens or not; it shares neither sensor nor contact with what is there", true, []string{"frost charge"})
	heatContactor  = ownCutout("heat switch", "the contactor cuts off every charger, whether it listens or not; it shares neither sensor nor contact with what is there", false, hotCharge)
)
