package drill

import (
	"ampstead/finding"
	q "ampstead/quantity"
	"ampstead/working"
)

// ran are the workings of numbers read off one run: which it was, what it came
// to, and the lines it was judged by.
func (s *study) ran(o *Outcome) []finding.Working {
	what := "read off the run with nothing wrong in " + o.Scene
	switch {
	case o.Second != "":
		what = "read off the run of " + o.Fault + " with " + o.Second + " in " + o.Scene
	case o.Fault != "":
		what = "read off the run of " + o.Fault + " in " + o.Scene
	}
	row := working.Row("", o, "highest_cell_v", "lowest_cell_v", "hottest_c", "coldest_c", "frost_charge_ah", "margin_mv", "worst_cell_share", "harm_after_s", "alarm_after_s", "time_to_react_s")
	k, l := s.fit.Kind, &s.limits
	return []finding.Working{working.Faults.Run(what, row.Outputs...),
		working.Taken("a cell comes to harm above", l.highV, q.Volts, k.MaxV.Source), working.Taken("a cell comes to harm below", l.lowV, q.Volts, k.MinV.Source),
		working.Taken("a cell comes to harm when as warm", l.hotC, q.Celsius, k.HarmC.Source)}
}
