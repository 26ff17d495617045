package drill

import (
	"cmp"
	"slices"

	"ampstead/fit"
)

// layersOf are the layers that stand before each kind of harm, the outermost
// first. They are those of fit's ladder outside the daily limits, and frost and
// heat.
var layersOf = map[string][]string{
	"cell high":    {fit.DisconnHigh, fit.AlarmHigh},
	"cell low":     {fit.DisconnLow, fit.AlarmLow},
	"frost charge": {frostLayer},
	"cell hot":     {heatLayer},
}

// groupKey is what the pairs of a group have in common: the kind of harm, and
// the layer that one of the two faults takes away, or else a kind of fault.
type groupKey struct{ harm, layer, kind string }

// groups gathers the pairs that reach harm by what they have in common. A pair
// of which one fault takes a protective layer away goes under that layer; of the
// rest, each goes under the kind of fault that most of them share.
func (s *study) groups() []Group {
	by := map[groupKey][]harmRun{}
	rest := map[string][]harmRun{}
	for _, h := range s.harm {
		if layer := s.layerLost(h); layer != "" {
			k := groupKey{harm: h.out.Harm, layer: layer}
			by[k] = append(by[k], h)
		} else {
			rest[h.out.Harm] = append(rest[h.out.Harm], h)
		}
	}
	for harm, runs := range rest {
		s.byKind(by, harm, runs)
	}
	s.grouped = by
	list := []Group{}
	for _, k := range sortedKeys(by) {
		list = append(list, s.group(k, by[k]))
	}
	return list
}

// byKind splits runs up by the kind of fault that most of them share, then the
// rest by the next, until none is left.
func (s *study) byKind(by map[groupKey][]harmRun, harm string, runs []harmRun) {
	for len(runs) > 0 {
		k := groupKey{harm: harm, kind: s.commonest(runs)}
		var rest []harmRun
		for _, h := range runs {
			if s.hasKind(h, k.kind) {
				by[k] = append(by[k], h)
			} else {
				rest = append(rest, h)
			}
		}
		runs = rest
	}
}

func (s *study) hasKind(h harmRun, kind string) bool {
	return s.faults[h.a].Kind == kind || s.faults[h.b].Kind == kind
}

// commonest is the kind of fault in most runs; of equals the first in the
// alphabet. The weather is not taken for a cause: nothing mends it.
func (s *study) commonest(runs []harmRun) string {
	count := map[string]int{}
	for _, h := range runs {
		kinds := []string{s.faults[h.a].Kind, s.faults[h.b].Kind}
		for k, f := range []int{h.a, h.b} {
			if s.faults[f].Device != weather && (k == 0 || kinds[0] != kinds[1]) {
				count[kinds[k]]++
			}
		}
	}
	best := ""
	for kind, n := range count {
		if n > count[best] || n == count[best] && kind < best {
			best = kind
		}
	}
	return best
}

// sortedKeys orders groups: by kind of harm, the outer layers first, then kinds of
// faults.
func sortedKeys(by map[groupKey][]harmRun) []groupKey {
	keys := make([]groupKey, 0, len(by))
	for k := range by {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(x, y groupKey) int {
		return cmp.Or(cmp.Compare(x.harm, y.harm), cmp.Compare(depth(x), depth(y)), cmp.Compare(x.kind, y.kind))
	})
	return keys
}

func depth(k groupKey) int {
	if k.layer == "" {
		return len(layersOf[k.harm])
	}
	return slices.Index(layersOf[k.harm], k.layer)
}

// layerLost is the outermost layer before this harm that one of the two faults
// takes away, or "".
func (s *study) layerLost(h harmRun) string {
	for _, layer := range layersOf[h.out.Harm] {
		if s.takesAway(h.a, layer) || s.takesAway(h.b, layer) {
			return layer
		}
	}
	return ""
}

// takesAway reports whether a fault sits in a part that a switching guard of the
// layer cannot do without: the guard itself, or the contactor it opens.
func (s *study) takesAway(fault int, layer string) bool {
	device := s.faults[fault].Device
	return slices.ContainsFunc(s.guards, func(g Guard) bool {
		return g.Layer == layer && g.Switch != "" && (g.Device == device || g.Switch == device && s.isContactor(device))
	})
}

func (s *study) group(k groupKey, runs []harmRun) Group {
	g := Group{Harm: k.harm, Common: s.common(k, runs), Cause: s.cause(k, runs), Pairs: [][2]string{}, Scenes: []string{}, Worst: runs[0].out}
	scenes := make([]bool, len(s.scenes))
	last := [2]int{-1, -1}
	for _, h := range runs {
		if pair := [2]int{h.a, h.b}; pair != last {
			g.Pairs = append(g.Pairs, [2]string{s.faults[h.a].Name, s.faults[h.b].Name})
			last = pair
		}
		scenes[h.scene] = true
		g.Silent = g.Silent || s.silent(h)
		if graver(h.out, g.Worst) {
			g.Worst = h.out
		}
	}
	for k, in := range scenes {
		if in {
			g.Scenes = append(g.Scenes, s.scenes[k].Name)
		}
	}
	return g
}

// silent reports whether one of the two faults goes unnoticed until the other
// comes.
func (s *study) silent(h harmRun) bool { return s.dormant(h.a) || s.dormant(h.b) }

// dormant reports whether nothing tells of a fault in any scene that is in order
// without it, so that it waits for a second one. The weather is no part that fails.
func (s *study) dormant(fault int) bool {
	if s.faults[fault].Device == weather {
		return false
	}
	for scene, o := range s.single[fault] {
		if !o.Silent && s.base[scene].Outcome != Harm {
			return false
		}
	}
	return true
}

// weather is what faults of the surroundings have as their device.
const weather = "surroundings"

// graver reports whether a is the worse of two runs that reach harm.
func graver(a, b Outcome) bool {
	if a.FrostAh != b.FrostAh && a.Harm == "frost charge" {
		return a.FrostAh > b.FrostAh
	}
	if a.MarginMV != b.MarginMV {
		return a.MarginMV < b.MarginMV
	}
	return a.HarmAt < b.HarmAt
}
