package shelf

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"ampstead/fit"
	"ampstead/prove"
	"ampstead/quantity"
)

// Gear is what a person has for a test, as they say it: a charger as "29.4 V 20 A"
// or "20 V to 30 V 10 A", a load as "heater 24 V 500 W", "inverter 1500 W",
// "kettle 2000 W" or "20 A". Empty takes what suits the module.
type Gear struct{ Charger, Load, Temperature string }

// Plan works out the test of what is known with the gear at hand. Errors:
// *fit.InputError with the path "charger", "load", "temperature" or one of those
// of prove.PlanFor.
func Plan(known prove.Options, g Gear) (*prove.Plan, error) {
	in := prove.PlanInput{Cell: known.Cell, Kind: known.Kind, Series: known.Groups, CapacityAh: known.RatedAh, LowV: known.LowV, HighV: known.HighV}
	for _, read := range []func(*prove.PlanInput) error{g.temperature, g.charger, g.load} {
		if err := read(&in); err != nil {
			return nil, err
		}
	}
	return prove.PlanFor(in)
}

func (g Gear) temperature(in *prove.PlanInput) error {
	if g.Temperature == "" {
		return nil
	}
	v, err := quantity.Celsius.Parse(g.Temperature)
	if err != nil {
		return &fit.InputError{Path: "temperature", Message: err.Error(), Expected: "the temperature of the place", Example: "8 °C"}
	}
	in.TempC, in.TempKnown = v, true
	return nil
}

// usual rates of a test, 1/h.
const (
	usualCharge = 0.2
	usualLoad   = 0.25
)

func (g Gear) charger(in *prove.PlanInput) error {
	expected := "its voltage and the current it gives, or the range of each"
	if g.Charger == "" {
		in.ChargerA, in.ChargerMinA, in.ChargerMaxV = usualCharge*in.CapacityAh, usualCharge*in.CapacityAh/10, math.MaxFloat32 // set to whatever the module takes
		return nil
	}
	said, err := readGear(g.Charger)
	if err != nil || len(said.volts) < 1 || len(said.volts) > 2 || len(said.amps) < 1 || len(said.amps) > 2 || len(said.watts) > 0 {
		return &fit.InputError{Path: "charger", Message: gearMessage(g.Charger, err), Expected: expected, Example: "29.4 V 20 A"}
	}
	in.ChargerMinV, in.ChargerMaxV = ends(said.volts)
	least, most := ends(said.amps)
	in.ChargerA = most
	if least < most {
		in.ChargerMinA = least
	}
	return nil
}

// ends are the lowest and highest of one or two values.
func ends(list []float64) (low, high float64) {
	last := list[len(list)-1]
	return math.Min(list[0], last), math.Max(list[0], last)
}

// mains is the voltage from which a load is one for mains, behind an inverter.
const mains = 100

func (g Gear) load(in *prove.PlanInput) error {
	if g.Load == "" {
		in.Load, in.LoadA = "current", usualLoad*in.CapacityAh
		return nil
	}
	said, err := readGear(g.Load)
	if err != nil || len(said.watts)+len(said.amps) != 1 || len(said.volts) > 1 {
		return &fit.InputError{Path: "load", Message: gearMessage(g.Load, err), Expected: "its power or its current; a heater's power with the voltage it is made for", Example: "heater 24 V 500 W"}
	}
	volts := 0.0
	if len(said.volts) == 1 {
		volts = said.volts[0]
	}
	switch {
	case len(said.amps) == 1:
		in.Load, in.LoadA = "current", said.amps[0]
		return nil
	case said.word == "heater" && volts > 0 && volts < mains, said.word == "" && volts > 0 && volts < mains:
		in.Load, in.LoadV = "heater", volts
	default:
		in.Load, in.KettleOff = "inverter", said.word == "kettle"
		if volts < mains {
			in.LoadV = volts // where the inverter switches off
		}
	}
	in.LoadW = said.watts[0]
	return nil
}

// gear is what was found in such words.
type gear struct {
	volts, amps, watts []float64
	word               string // "heater", "inverter" or "kettle", the last of them
}

var gearPart = regexp.MustCompile(`[0-9]+(?:[.,][0-9]+)?\s*[A-Za-z]+|\S+`)

func readGear(text string) (gear, error) {
	var out gear
	for _, part := range gearPart.FindAllString(text, -1) {
		if err := out.take(part); err != nil {
			return out, err
		}
	}
	return out, nil
}

func (g *gear) take(part string) error {
	for _, d := range []struct {
		dim *quantity.Dimension
		to  *[]float64
	}{{quantity.Volts, &g.volts}, {quantity.Amperes, &g.amps}, {quantity.Watts, &g.watts}} {
		if v, err := d.dim.Parse(strings.Replace(part, ",", ".", 1)); err == nil && v > 0 {
			*d.to = append(*d.to, v)
			return nil
		}
	}
	switch word := strings.ToLower(strings.Trim(part, ",;.")); word {
	case "heater", "inverter", "kettle":
		if g.word != "kettle" {
			g.word = word // "inverter with a kettle" is both
		}
	case "", "to", "and", "at", "with", "a", "an", "on", "from", "-", "–", "..":
	default:
		return fmt.Errorf("%q is no voltage, current or power", part)
	}
	return nil
}

func gearMessage(text string, err error) string {
	if err != nil {
		return err.Error()
	}
	return fmt.Sprintf("%q does not say enough, or says too much", text)
}
