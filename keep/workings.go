package keep

import (
	"fmt"
	"math"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/source"
	"ampstead/working"
)

// workings are what stands behind the numbers of a finding: what the readings
// told of its group or of all, and the limits it is held against.
func (s *study) workings(f *finding.Finding) []finding.Working {
	which := fmt.Sprintf("from %d readings, %s to %s", s.res.Readings, s.res.From, s.res.To)
	switch f.ID {
	case "group-outside":
		return []finding.Working{s.lastReading(), working.Taken("charge limit", s.fit.Window.CellHighV, q.Volts, s.plant.kind.MaxV.Source), working.Taken("discharge limit", s.fit.Window.CellLowV, q.Volts, s.plant.kind.MinV.Source),
			working.Taken("copper begins to dissolve below", careV, q.Volts, source.OverDischarge), working.Taken("not charged again below", deadV, q.Volts, source.OverDischarge)}
	case "groups-apart":
		b := &s.res.Balance
		return []finding.Working{working.Log.Run(which, working.Of("apart", spread(s.offsets()), q.AmpereHours), finding.Value{Name: "to bleed from each", Value: b.BleedAh, Unit: "Ah"},
			finding.Value{Name: "to add to each", Value: b.AddAh, Unit: "Ah"}, finding.Value{Name: "with the balancer", Value: b.Hours, Unit: "h"}, working.Of("energy it brings", b.GainWh, q.WattHours))}
	}
	for k, g := range s.res.Groups {
		if groupPath(g.Number) != f.Where {
			continue
		}
		row := working.Row("", g, "offset_ah", "offset_error_ah", "drift_ma", "drift_error_ma").Outputs
		if g.Step != nil {
			row = append(row, working.Row("", g.Step, "ah", "error_ah").Outputs...)
		}
		month := math.Abs(g.DriftMA) / 1000 * monthH / s.plant.ah[k]
		return []finding.Working{working.Log.Run(which, row...), working.Found("drift × 30 days over the group's capacity", working.Of("in a month", month, q.Fraction)),
			working.Taken("worth mending from", careMonth, q.Fraction, source.SalvageHabit), working.Taken("stop from", stopMonth, q.Fraction, source.SalvageHabit)}
	}
	return []finding.Working{working.Log.Run(which)}
}

// lastReading are the voltages of the groups as they were read last.
func (s *study) lastReading() finding.Working {
	w := working.Found("as read last, " + s.res.To)
	if len(s.visits) > 0 {
		w.Outputs = []finding.Value{{Name: "each group", Value: s.visits[len(s.visits)-1].raw, Unit: "V"}}
	}
	return w
}
