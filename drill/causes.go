package drill

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/fit"
	"ampstead/rig"
)

// harms says in words what each kind of harm is.
var harms = map[string]string{
	"cell high":    "a cell is charged past its limit",
	"cell low":     "a cell is emptied past its limit",
	"frost charge": "a cell is charged in frost",
	"cell hot":     "a cell gets too hot",
	"current":      "a cell carries more current than it bears",
}

func inWords(harm string) string {
	if text, ok := harms[harm]; ok {
		return text
	}
	return "a cell comes to harm"
}

// causes says what a lost layer leaves, by layer; %s are the parts that failed.
var causes = map[string]string{
	fit.DisconnHigh: "the last thing that stops charging when a cell is too high has failed (%s), and something charges on",
	fit.AlarmHigh:   "what stops charging at the high alarm has failed (%s), and something charges on",
	fit.DisconnLow:  "the last thing that cuts off the loads when a cell is too low has failed (%s), and something draws on",
	fit.AlarmLow:    "what cuts off at the low alarm has failed (%s), and something draws on",
	frostLayer:      "what stops charging in frost has failed (%s), and the cells are cold",
	heatLayer:       "what stops at high temperature has failed (%s), and something heats on",
}

// cause is one plain sentence on why the pairs of a group reach harm.
func (s *study) cause(k groupKey, runs []harmRun) string {
	if k.layer != "" {
		return fmt.Sprintf(causes[k.layer], s.common(k, runs))
	}
	others := map[int]bool{}
	for _, h := range runs {
		others[s.partner(h, k.kind)] = true
	}
	if len(others) > 1 {
		return fmt.Sprintf("%s, with any one of %d other faults: %s", s.common(k, runs), len(others), inWords(k.harm))
	}
	return fmt.Sprintf("%s, with %s: %s", s.common(k, runs), s.faults[s.partner(runs[0], k.kind)].Name, inWords(k.harm))
}

// partner is the fault of a pair that is not the one of the kind.
func (s *study) partner(h harmRun, kind string) int {
	if s.faults[h.a].Kind == kind {
		return h.b
	}
	return h.a
}

// common is what the pairs of a group share: the parts of the layer that failed,
// or the faults of the kind.
func (s *study) common(k groupKey, runs []harmRun) string {
	var parts []string
	for _, h := range runs {
		for _, f := range []int{h.a, h.b} {
			name := s.faults[f].Name
			switch {
			case k.layer != "" && s.takesAway(f, k.layer):
				name = s.faults[f].Device
			case k.layer != "" || s.faults[f].Kind != k.kind:
				continue
			}
			if !slices.Contains(parts, name) {
				parts = append(parts, name)
			}
		}
	}
	if k.layer != "" {
		return strings.Join(parts, ", ")
	}
	return strings.Join(parts, " or ")
}

func (s *study) isContactor(name string) bool {
	return slices.ContainsFunc(s.rig.Protection.Contactors, func(c rig.Contactor) bool { return c.Name == name })
}
