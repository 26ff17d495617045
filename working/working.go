package working

import (
	"math"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/quantity"
	"ampstead/source"
)

// Uses are the workings of figures that were applied, each application once.
func Uses(uses ...figure.Use) []finding.Working {
	var list []finding.Working
	for _, u := range uses {
		if u.Figure != nil {
			list = append(list, Use(u))
		}
	}
	return list
}

// Use is the working of one figure that was applied.
func Use(u figure.Use) finding.Working {
	w := finding.Working{What: u.Figure.Answers, Figure: u.Figure.Name}
	for _, in := range u.Figure.Inputs {
		w.Inputs = append(w.Inputs, input(u, in))
	}
	for _, o := range u.Figure.Outputs {
		if v, ok := u.Out[o.Key]; ok {
			w.Outputs = append(w.Outputs, finding.Value{Name: o.Key, Value: sound(v), Unit: base(o.Dim)})
		}
	}
	return w
}

// input is what went in; what was not given took its default.
func input(u figure.Use, in figure.Input) finding.Value {
	v := finding.Value{Name: in.Name, Value: in.Default}
	for _, a := range u.In {
		if a.Name != in.Name {
			continue
		}
		if v.Value = a.Text; in.Dim == nil {
			continue
		}
		if in.List {
			if list, err := figure.ReadList(in.Name, in.Dim, a.Text); err == nil {
				v.Value, v.Unit = list, base(in.Dim)
			}
			continue
		}
		v.Value, v.Unit = sound(a.Num), base(in.Dim)
	}
	return v
}

// Share is the unit of a value of 0 to 1.
const Share = "fraction"

// base is the unit a value is given in.
func base(d *quantity.Dimension) string {
	switch d {
	case nil:
		return ""
	case quantity.Fraction:
		return Share
	}
	return d.Base
}

// sound keeps what JSON cannot write out of a working.
func sound(v any) any {
	if f, ok := v.(float64); ok && (math.IsNaN(f) || math.IsInf(f, 0)) {
		return "no number"
	}
	return v
}

// Taken is a value that no equation gives: a limit of the cell, a habit of the
// trade, in the dimension's base unit, with where it comes from.
func Taken(what string, v float64, d *quantity.Dimension, from source.Source) finding.Working {
	return finding.Working{What: what, Inputs: []finding.Value{Of("value", v, d)}, Source: from.Text, Standing: string(from.Standing)}
}

// Stated are values the owner wrote into the rig file.
func Stated(values ...finding.Value) finding.Working {
	return finding.Working{What: "as the rig file says", Inputs: values}
}

// Found are values worked out on the way, by what the words say.
func Found(what string, values ...finding.Value) finding.Working {
	return finding.Working{What: what, Outputs: values}
}

// Of is one named number in the dimension's base unit.
func Of(name string, v float64, d *quantity.Dimension) finding.Value {
	return finding.Value{Name: name, Value: sound(v), Unit: base(d)}
}
