package prove

import (
	"fmt"

	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/source"
	"ampstead/working"
)

// workings are what stands behind the numbers of a finding: what was read from
// the log, of its group or of the whole, and the thresholds it is held against.
func (s *study) workings(f *finding.Finding) []finding.Working {
	r := s.res
	which := fmt.Sprintf("read from the log: %d rows, %d stretches", r.Rows, len(r.Segments))
	switch f.ID {
	case "imbalance", "weak-group", "group-leak":
		return append(s.ofGroup(f.Where, which), working.Taken("counts as a shortfall from", weakShare, q.Fraction, source.SalvageHabit))
	case "faded":
		row := working.Row("", r, "capacity_ah", "capacity_error_ah")
		return []finding.Working{working.Bench.Run(which, row.Outputs...), working.Stated(working.Of("rated", s.o.RatedAh, q.AmpereHours)),
			working.Found("capacity over rated", working.Of("left", r.CapacityAh/s.o.RatedAh, q.Fraction))}
	case "balance-first":
		now, then := s.stringAh()
		return []finding.Working{working.Bench.Run(which, working.Of("as it stands", now, q.AmpereHours), working.Of("balanced", then, q.AmpereHours))}
	case "deep-discharge-seen", "overcharge-seen":
		m := s.measures()
		return []finding.Working{working.Bench.Run(which, working.Of("lowest", m["deepest"].value, q.Volts), working.Of("highest, above the limit", m["highest"].value, q.Volts)),
			working.Taken("charge limit", s.kind.MaxV.Value, q.Volts, s.kind.MaxV.Source), working.Taken("copper may begin to dissolve below", deepV, q.Volts, source.OverDischarge)}
	}
	if how, ok := counted[f.ID]; ok {
		return []finding.Working{working.Found(how), working.Bench.Run(which)}
	}
	return []finding.Working{working.Bench.Run(which)}
}

// counted tells how the numbers of a warning are counted in the log.
var counted = map[string]string{
	"groups-unseen":       "the cell's rest curve tells what charge is left at the mean voltage where the discharge ended",
	"curve-mismatch":      "root mean square of what is left between the group's voltages and the curve fitted to them",
	"sampling-too-slow":   "time from the step of current to the first reading after it",
	"not-half-full":       "charge before the step, from the rest voltage by the cell's curve, or counted from full",
	"sense-through-leads": "jump of voltage over jump of current at the first reading, against the typical resistance of the cell",
	"clock-step":          "difference of two times of rows that follow each other",
	"current-offset":      "mean of the current over the rests, and that over the longest stretch",
	"group-sum":           "mean of the sum of the groups less the voltage at the terminals, at rest and under load",
	"not-simultaneous":    "largest difference between the sum of the groups and the terminals",
	"counter":             "the logger's own column of charge, and the current added up over time",
	"gap":                 "intervals much longer than the usual one, with the current on both sides over their length",
	"voltage-resolution":  "smallest step between readings of voltage, over the drop of voltage at the largest step of current",
	"limit-overshot":      "lowest and highest voltage of a cell or of the mean cell in the log, against the limits given",
	"groups-guessed":      "highest voltage of the log over the charge limit of the cell",
}

// ofGroup are the numbers of one group, beside those of the best.
func (s *study) ofGroup(where, which string) []finding.Working {
	best := 0.0
	for _, g := range s.res.Groups {
		best = max(best, g.CapacityAh)
	}
	for _, g := range s.res.Groups {
		if fmt.Sprintf("group %d", g.Number) == where {
			row := working.Row("", g, "capacity_ah", "capacity_error_ah", "offset_ah", "offset_error_ah", "lost_ah", "lost_error_ah", "leak_ma", "leak_error_ma", "rest_v", "end_v")
			return []finding.Working{working.Bench.Run(which, append(row.Outputs, working.Of("best group", best, q.AmpereHours), working.Of("less than the best", best-g.CapacityAh, q.AmpereHours))...)}
		}
	}
	return []finding.Working{working.Bench.Run(which)}
}
