package choose

import (
	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/source"
	"ampstead/working"
)

// workings are what stands behind the numbers of a finding about one battery.
func (v *variant) workings(id string) []finding.Working {
	w := v.res.Window
	switch id {
	case "candidate-too-high":
		return append([]finding.Working{working.Row("its safe window on this rig", w, "bank_low_v", "bank_high_v"), working.Stated(v.bears()...)}, working.Uses(w.How...)...)
	case "near-its-end":
		return []finding.Working{working.Years.Run("the ageing model run over its age and distance, or what was measured of it",
			working.Of("least left", v.least(), q.Fraction), working.Of("middle", v.share.Middle, q.Fraction)),
			working.Taken("the models say little below", 0.7, q.Fraction, source.SecondLife)}
	}
	return nil
}

// bears are the highest voltages the devices on the bank bear.
func (v *variant) bears() []finding.Value {
	var list []finding.Value
	for _, x := range v.rig.Inverters {
		list = append(list, working.Of(x.Name+", input high", float64(*x.InputHigh), q.Volts))
	}
	for _, x := range v.rig.Converters {
		list = append(list, working.Of(x.Name+", input high", float64(*x.InputHigh), q.Volts))
	}
	return list
}
