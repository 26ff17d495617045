package start

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/rig"
)

var sourceNames = map[string]string{"solar": "roof solar", "alternator": "alternator charger", "mains": "mains charger"}

// usualCharger is the current of a charger nobody asked about, A; common
// practice, no source.
const usualCharger = 30.0

func (w *writer) charge() {
	p := w.plan
	if len(p.sources) == 0 {
		w.WriteString("\n")
		w.remark(0, "Nothing charges it yet.")
		return
	}
	w.WriteString("\ncharge:\n")
	w.unknown(2, "charge", "panels", "chargers")
	for _, kind := range p.sources {
		limit := usualCharger
		if kind == "solar" {
			roof := p.roof()
			limit = p.charger(roof.watts())
		}
		w.set(2, "- name", sourceNames[kind], "")
		w.set(4, "kind", kind, "")
		w.set(4, "limit", amperes(limit), check("the most it gives, on its label"))
		if slices.Contains(w.plan.guards, "frost") {
			w.set(4, "stop_input", "yes", check("the frost switch is wired to it"))
		}
		if kind == "solar" {
			w.panels()
		}
		if p.chargers != "" {
			w.set(4, "settings", "", check("what its display shows; what is not written down is not checked"))
			w.set(6, "profile", map[string]string{"lead-acid": "agm", "lithium": "lithium", "own": "own"}[p.chargers], w.profileSays())
		}
	}
}

func (w *writer) profileSays() string {
	switch {
	case !w.plan.known["chargers"]:
		return MarkUnknown + ": look at its display"
	case w.plan.chargers == "lead-acid":
		return "or flooded, or gel"
	}
	return ""
}

func (w *writer) panels() {
	roof := w.plan.roof()
	says := check("the volts on the back of a panel")
	w.set(4, "panels", "", "")
	w.set(6, "- series", fmt.Sprint(roof.series), check("how they are joined"))
	w.set(8, "parallel", fmt.Sprint(roof.parallel), "")
	w.set(8, "power", watts(roof.each), "of one panel")
	w.set(8, "open_voltage", volts(roof.open), says)
}

// usualConverter is the power of a converter nobody asked about, W.
const usualConverter = 360.0

func (w *writer) supplies() {
	p := w.plan
	low, high := p.inputs()
	if p.converter() {
		w.WriteString("\nconverters:\n")
		w.set(2, "- name", converterName, "feeds what runs on 12 V")
		w.set(4, "power", watts(usualConverter), check("on its label"))
		w.set(4, "input_low", volts(low), check("on its label; here that of a usual "+fmt.Sprint(p.class())+" V device"))
		w.set(4, "input_high", volts(high), check("likewise"))
	}
	if p.inverter > 0 {
		w.WriteString("\ninverters:\n")
		w.unknown(2, "inverter")
		w.set(2, "- name", inverterName, "")
		w.set(4, "power", watts(p.inverter), "for long")
		w.set(4, "input_low", volts(low), check("in its papers; here that of a usual "+fmt.Sprint(p.class())+" V device"))
		w.set(4, "input_high", volts(high), check("likewise"))
	}
}

func (w *writer) habits() {
	list, unfed := w.plan.fed()
	if len(list)+len(unfed) > 0 {
		w.WriteString("\n")
	}
	for _, l := range unfed {
		w.remark(0, fmt.Sprintf("%s: %s needs mains, and there is no inverter to make it.", MarkCheck, strings.ToLower(l.label)))
	}
	if len(list) == 0 {
		return
	}
	w.WriteString("loads:\n")
	w.unknown(2, "loads")
	w.remark(2, MarkCheck+": powers and hours are typical ones (common practice, no source), save what you typed.")
	taken := w.deviceNames()
	for _, l := range list {
		name := unlike(strings.ToLower(l.label), taken)
		taken = append(taken, name)
		text := fmt.Sprintf("name: %s, on: %s, power: %s, hours: %s", rig.InlineScalar(name), w.plan.feed(l), watts(l.watts), hoursText(l.hours))
		if l.rest != "" {
			text += ", " + l.rest
		}
		w.WriteString("  - {" + text + "}\n")
	}
}

// deviceNames are the names that no appliance may bear.
func (w *writer) deviceNames() []string {
	return []string{"bank", "bus", "charge", "heater", "own", "string", "roof solar", "alternator charger", "mains charger",
		converterName, inverterName, meterName, boardName, padName, "guard relay", "main contactor", "board switch", "frost switch", "main fuse"}
}

// unlike makes a name that is not taken.
func unlike(name string, taken []string) string {
	same := func(s string) bool { return strings.EqualFold(s, name) }
	for base, n := name, 2; slices.ContainsFunc(taken, same); n++ {
		name = fmt.Sprintf("%s %d", base, n)
	}
	return name
}

func (w *writer) guard() {
	p := w.plan
	_, _, asked := Find(w.questions, "guards")
	w.WriteString("\n")
	if len(p.guards) == 0 && p.fuse == 0 {
		w.unknown(0, "guards", "fuse")
		if asked {
			w.remark(0, "Nothing watches over the cells yet; the findings ask for what is missing.")
		}
		return
	}
	w.WriteString("protection:\n")
	w.unknown(2, "guards", "fuse")
	w.relays()
	w.meters()
	if slices.Contains(p.guards, "frost") {
		w.set(2, "cutouts", "", "")
		w.set(4, "- name", "frost switch", "")
		w.set(6, "stops", "charge", check("every charger, or the name of one"))
	}
	if p.fuse > 0 {
		w.set(2, "fuses", "", "")
		w.set(4, "- name", "main fuse", "")
		w.set(6, "guards", "bank", "")
		w.set(6, "rating", amperes(p.fuse), check("add rated_voltage and interrupt, printed on it"))
	}
	if slices.Contains(p.guards, "pad") {
		w.WriteString("\n")
		w.set(0, "heater", "", "")
		w.set(2, "name", padName, "")
		w.set(2, "power", watts(60), check("on its label"))
	}
}

func (w *writer) relays() {
	has := func(guard string) bool { return slices.Contains(w.plan.guards, guard) }
	if has("relay") {
		w.set(2, "relays", "", "")
		w.set(4, "- name", "guard relay", check("its settings are not written down yet"))
		w.set(6, "drives", "main contactor", "")
	}
	if has("relay") || has("board") {
		w.set(2, "contactors", "", "")
	}
	if has("relay") {
		w.set(4, "- name", "main contactor", "")
		w.set(6, "opens", "bank", check("bank, charge or loads"))
	}
	if has("board") {
		w.set(4, "- name", "board switch", "inside the battery")
		w.set(6, "opens", "bank", check("bank, charge or loads"))
	}
}

func (w *writer) meters() {
	has := func(guard string) bool { return slices.Contains(w.plan.guards, guard) }
	if !has("meter") && !has("board") {
		return
	}
	w.set(2, "meters", "", "")
	watched := fmt.Sprint(w.plan.series * w.plan.modules)
	if has("meter") {
		w.set(4, "- name", meterName, check("its alarms are not written down yet"))
		w.set(6, "watches", watched, check("the groups it is wired to"))
	}
	if has("board") {
		w.set(4, "- name", boardName, check("what it switches off at is not written down yet"))
		w.set(6, "watches", watched, check("the groups it is wired to"))
		w.set(6, "drives", "board switch", "")
	}
}
