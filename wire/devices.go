package wire

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/physics/convert"
	"ampstead/rig"
)

// device is what a run should lead to.
type device struct {
	name, kind, from, path, detail string
	short                          string // as a run to it is called
}

// listDevices lists everything that hangs on the bank's wiring, in the file's
// order.
func (s *study) listDevices() []device {
	var list []device
	add := func(name, kind, from, path, detail string) {
		list = append(list, device{name, kind, from, path, detail, name})
	}
	for _, c := range s.rig.Charge {
		add(c.Name, KindCharger, circuit.AtBus, "charge."+c.Name, c.Kind+", "+s.amps(float64(*c.Limit)))
	}
	for _, i := range s.rig.Inverters {
		detail := s.watts(float64(*i.Power))
		if i.Surge != nil {
			detail += ", " + s.watts(float64(*i.Surge)) + " for seconds"
		}
		add(i.Name, KindInverter, circuit.AtBus, "inverters."+i.Name, detail)
	}
	for _, c := range s.rig.Converters {
		add(c.Name, KindConverter, circuit.AtBus, "converters."+c.Name, s.watts(float64(*c.Power))+" at "+volts(or(c.Output, usualOutput)))
	}
	if h := s.rig.Heater; h != nil {
		add(h.Name, KindHeater, supplyNode(h.Supply), "heater", s.watts(float64(*h.Power)))
	}
	for _, l := range s.rig.Loads {
		if l.On == circuit.AtBank {
			add(l.Name, KindLoad, circuit.AtBus, "loads."+l.Name, s.watts(float64(*l.Power)))
		}
	}
	return append(list, s.outlets()...)
}

// outlets are the loads of each converter together, unless their cables are
// written down one by one.
func (s *study) outlets() []device {
	var list []device
	for _, c := range s.rig.Converters {
		var names []string
		watts := 0.0
		for _, l := range s.rig.Loads {
			if l.On == c.Name && !s.cabled(l.Name) {
				names = append(names, l.Name)
				watts += float64(*l.Power)
			}
		}
		if len(names) > 0 {
			list = append(list, device{outletOf(c.Name), KindLoad, c.Name, "converters." + c.Name, fmt.Sprintf("%s, %s", strings.Join(names, ", "), s.watts(watts)), "its loads"})
		}
	}
	return list
}

func outletOf(converter string) string { return converter + " loads" }

func (s *study) cabled(name string) bool {
	return slices.ContainsFunc(s.rig.Cables, func(c rig.Cable) bool { return c.From == name || c.To == name })
}

// supplyNode is where a heater is fed from.
func supplyNode(supply string) string {
	if supply == "" || supply == circuit.AtBank {
		return circuit.AtBus
	}
	return supply
}

// kindsOf names what each node is; a name that is missing is some other device.
func (s *study) kindsOf() map[string]string {
	kinds := map[string]string{circuit.AtBank: KindBank, circuit.AtBus: KindBus, KindModules: KindModules}
	for _, l := range s.rig.Loads {
		kinds[l.Name] = KindLoad
	}
	for _, c := range s.rig.Charge {
		for k := range c.Panels {
			kinds[panelNode(&c, k)] = KindPanels
		}
	}
	for _, d := range s.devices {
		kinds[d.name] = d.kind
	}
	return kinds
}

func (s *study) kindOf(node string) string {
	if kind, ok := s.kinds[node]; ok {
		return kind
	}
	return KindOther
}

// panelNode is the name of a string of panels on a charger.
func panelNode(c *rig.Source, k int) string {
	if name := c.Panels[k].Name; name != "" {
		return name
	}
	return fmt.Sprintf("panels %d of %s", k+1, c.Name)
}

// usualOutput is a converter's output that the file does not say, V.
const usualOutput = 13.2

func (s *study) outputOf(converter string) float64 {
	for _, c := range s.rig.Converters {
		if c.Name == converter {
			return or(c.Output, usualOutput)
		}
	}
	return usualOutput
}

// Efficiencies assumed of a device that does not state one.
const (
	usualConverter = 0.88
	usualInverter  = 0.90
)

// intake is what a device draws from the bank and at which voltage.
type intake struct {
	amperes, surge, volts float64
	how                   figure.Use
}

// intakeOf reckons an input current at the lowest voltage the device works at.
func (s *study) intakeOf(power, surge, efficiency, volts float64) intake {
	u := s.figures.Use(convert.InputCurrent, figure.N("power", power), figure.N("efficiency", efficiency), figure.N("voltage", volts))
	amperes := u.Num("current_a")
	return intake{amperes, amperes * max(1, surge/power), volts, u}
}

// lowest is the least voltage at which a device still runs: its cut-off at its
// lowest, its input's end, or the bank's end, whichever comes first.
func (s *study) lowest(inputLow, lowCut, tolerance float64) float64 {
	return max(s.res.LowV, inputLow, lowCut*(1-tolerance))
}

// usualTolerance is the accuracy of a cut-off that does not state it.
const usualTolerance = 0.01

func (s *study) inverterIntake(i *rig.Inverter) intake {
	v := s.lowest(float64(*i.InputLow), on(i.LowCut, 0), or(i.Tolerance, usualTolerance))
	return s.intakeOf(float64(*i.Power), or(i.Surge, 0), or(i.Efficiency, usualInverter), v)
}

func (s *study) converterIntake(c *rig.Converter) intake {
	v := s.lowest(float64(*c.InputLow), on(c.LowCut, 0), or(c.Tolerance, usualTolerance))
	return s.intakeOf(float64(*c.Power), 0, or(c.Efficiency, usualConverter), v)
}
