package start

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ampstead/physics/cell"
	"ampstead/quantity"
)

// battery is one kind of battery in plain words.
type battery struct {
	value, label, note string
	short              string // for the picture
	cell               string // of the library
	acid, used         bool
	low, high, nominal float64 // V of one cell that a label's voltage stands for
	ah                 float64 // one module or battery, when it is not known, on the low side
	series             int     // when it is not known, on the low side
}

var batteries = []battery{
	{value: "module-flat", label: "A module out of an electric car: flat cells in hard metal cases", note: "marked Li-ion, NMC or NCM; 3.6 or 3.7 V a cell",
		short: "car module, flat cells", cell: "nmc532", used: true, low: 3.55, high: 3.75, nominal: 3.65, ah: 50, series: 6},
	{value: "module-round", label: "A module out of an electric car: many small round cells", note: "finger-thick steel cans, dozens or hundreds of them",
		short: "car module, round cells", cell: "nca", used: true, low: 3.55, high: 3.75, nominal: 3.6, ah: 100, series: 6},
	{value: "module-pouch", label: "A module out of an electric car: soft foil pouches in a stack", note: "often inside thin metal cans; mostly from older cars",
		short: "car module, pouches", cell: "lmo-blend-pouch", used: true, low: 3.6, high: 3.85, nominal: 3.7, ah: 40, series: 6},
	{value: "iron", label: "A new iron-phosphate battery", note: "marked LiFePO4 or LFP; 3.2 V a cell, so 12.8, 25.6 or 51.2 V",
		short: "iron-phosphate", cell: "lfp", low: 3.0, high: 3.3, nominal: 3.2, ah: 50, series: 4},
	{value: "lead-wet", label: "Lead-acid with caps, topped up with water", note: "flooded; 12 V a block",
		short: "lead-acid, flooded", cell: "lead-acid-flooded", acid: true, low: 1.95, high: 2.1, nominal: 2, ah: 80, series: 6},
	{value: "lead-sealed", label: "Lead-acid, sealed", note: "marked AGM or GEL; 12 V a block",
		short: "lead-acid, sealed", cell: "lead-acid-agm", acid: true, low: 1.95, high: 2.1, nominal: 2, ah: 80, series: 6},
}

// unknownBattery is a lithium battery of which nothing is known: it is held to
// what both iron-phosphate and nickel cells bear.
var unknownBattery = battery{short: "lithium, kind not known", cell: "lfp", used: true, low: 3.15, high: 3.75, nominal: 3.2, ah: 50, series: 4}

// What an unknown cell is held to, V: the most an iron-phosphate cell and the
// least a nickel cell of the library bears.
func unknownLimits() (high, low float64) {
	iron, err := cell.Lookup("lfp")
	if err != nil {
		return 3.6, 3
	}
	nickel, err := cell.Lookup("nmc532")
	if err != nil {
		return iron.MaxV.Value, 3
	}
	return iron.MaxV.Value, nickel.MinV.Value
}

func batteryChoices() []Choice {
	list := make([]Choice, len(batteries))
	for i, b := range batteries {
		list[i] = Choice{b.value, b.label, b.note}
	}
	return list
}

func findBattery(value string) *battery {
	for i := range batteries {
		if batteries[i].value == value {
			return &batteries[i]
		}
	}
	return &unknownBattery
}

// mostGroups is as many as a house battery of this kind of job has: above it,
// a cell kind's voltage alone does not tell the count.
const mostGroups = 200

// groups reads how many groups are in series: the number itself, or the voltage
// on the label.
func (b *battery) groups(text string) (int, error) {
	if n, err := strconv.Atoi(text); err == nil {
		return inReach(n)
	}
	if strings.Trim(text, "0123456789.") == "" {
		return 0, &Problem{Message: fmt.Sprintf("%.60q is no whole number and has no unit", text), Expected: "a whole number, or a voltage with its V", Example: "12 or 44 V"}
	}
	volts, err := amount(quantity.Volts, text, 1, 1000)
	if err != nil {
		return 0, err
	}
	n, err := b.count(volts, text)
	if err != nil {
		return 0, err
	}
	return inReach(n)
}

// inReach refuses more groups than a rig file takes.
func inReach(n int) (int, error) {
	if n < 1 || n > mostGroups {
		return 0, &Problem{Message: fmt.Sprintf("%d groups are out of reach", n), Expected: fmt.Sprintf("a whole number from 1 to %d", mostGroups), Example: "12"}
	}
	return n, nil
}

// classes are round names for a voltage rather than the voltage itself, V.
var classes = map[float64]bool{12: true, 24: true, 36: true, 48: true}

// count is how many groups make a label's voltage.
func (b *battery) count(volts float64, text string) (int, error) {
	least := max(1, int(math.Ceil(volts/b.high-1e-9)))
	most := int(math.Floor(volts/b.low + 1e-9))
	switch exact := int(math.Round(volts / b.nominal)); {
	case most < least:
		return 0, &Problem{Message: fmt.Sprintf("no whole number of cells makes %s", text), Expected: "the voltage printed on the label, not one that was measured; or the count", Example: "12"}
	case most == least || b == &unknownBattery:
		return least, nil
	case exact >= 1 && math.Abs(volts/float64(exact)-b.nominal) < 0.006 && (b.acid || !classes[volts]):
		return exact, nil
	}
	bad := &Problem{Message: fmt.Sprintf("%s can be %d to %d groups", text, least, most), Expected: "the count", Example: strconv.Itoa(most)}
	for n := least; n <= min(most, least+7); n++ {
		bad.Perhaps = append(bad.Perhaps, Choice{Value: strconv.Itoa(n), Label: fmt.Sprintf("%d groups", n)})
	}
	return 0, bad
}

// capacity reads what one module holds: amp-hours, or energy that is turned into
// them. Ah.
func (b *battery) capacity(text string, series int) (float64, error) {
	if ah, err := quantity.AmpereHours.Parse(text); err == nil {
		return b.bounded(ah, text)
	}
	wh, err := quantity.WattHours.Parse(text)
	if err != nil {
		return 0, &Problem{Message: fmt.Sprintf("%.60q is neither a charge nor an energy", text), Expected: "amp-hours or kilowatt-hours, with the unit", Example: "94 Ah or 2.1 kWh"}
	}
	return b.bounded(math.Round(10*wh/(float64(series)*b.nominal))/10, text)
}

func (b *battery) bounded(ah float64, text string) (float64, error) {
	if ah < 1 || ah > 2000 {
		return 0, &Problem{Message: fmt.Sprintf("%s is out of reach", text), Expected: "1 Ah to 2000 Ah", Example: "94 Ah"}
	}
	return ah, nil
}
