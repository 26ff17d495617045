package shelf

import (
	"maps"

	"ampstead/benchlog"
	"ampstead/fit"
	"ampstead/prove"
	"ampstead/rig"
)

// Known is what a rig says of a log of one of its strings, and of the cell that
// its fit found.
func Known(r *rig.Rig, res *fit.Result) prove.Options {
	o := prove.Options{Cell: res.Cell.Name, Kind: res.Kind, Groups: r.Bank.Series}
	if r.Bank.CellCapacity != nil {
		o.RatedAh = float64(*r.Bank.CellCapacity) * float64(max(1, r.Bank.CellsPerGroup))
	}
	return o
}

// Over returns a layout in which what is given in over goes before what is kept.
func Over(kept, over benchlog.Options) benchlog.Options {
	o := kept
	for _, f := range []struct {
		to   *string
		from string
	}{{&o.Separator, over.Separator}, {&o.Decimal, over.Decimal}, {&o.Time, over.Time}, {&o.Sign, over.Sign}} {
		if f.from != "" {
			*f.to = f.from
		}
	}
	if over.Groups > 0 {
		o.Groups = over.Groups
	}
	if len(over.Columns) > 0 {
		o.Columns = maps.Clone(kept.Columns)
		if o.Columns == nil {
			o.Columns = map[string]string{}
		}
		maps.Copy(o.Columns, over.Columns)
	}
	return o
}
