package choose

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ampstead/fit"
	q "ampstead/quantity"
	"ampstead/rig"
)

// designs turns points into designs, the cheapest first.
func (s *searcher) designs(list []*point) []Design {
	out := make([]Design, len(list))
	for k, p := range list {
		out[k] = Design{
			Name: s.space.name(p.genes), Candidate: s.space.base[p.genes[whichBattery]].name, Set: s.space.set(p.genes),
			Price: p.price, MassKg: p.kg, ShortHours: p.Hours, Years: p.Years.Middle, YearsLow: p.Years.Low, YearsHigh: p.Years.High,
			UsableWh: p.UsableWh, SoCMin: p.SoCMin, Why: s.why(p, list),
		}
	}
	return out
}

// name says what a design is made of.
func (s *space) name(g genes) string {
	b := &s.base[g[whichBattery]]
	battery := b.name
	if b.cand == nil {
		battery = "own modules"
	}
	sys, _ := q.ParseSystem(s.rig.About.Units)
	r := s.build(g)
	parts := []string{fmt.Sprintf("%d × %s", s.modules[g[howManyModules]], battery)}
	if watts := panelWatts(r); watts > 0 {
		parts = append(parts, q.Watts.Text(watts, sys)+s.tiltText(g))
	}
	if r.Heater == nil {
		parts = append(parts, "no heater")
	} else {
		parts = append(parts, q.Watts.Text(heaterWatts(r), sys)+" heater")
	}
	if r.Bank.Box != nil {
		parts = append(parts, q.Metres.Text(thickness(r.Bank.Box), sys)+" insulation")
	}
	if g[whichWindow] != recommended {
		parts = append(parts, windowNames[g[whichWindow]]+" window")
	}
	return strings.Join(parts, ", ")
}

func (s *space) tiltText(g genes) string {
	switch t := s.tilts[g[howTilted]]; {
	case t > 0:
		return fmt.Sprintf(" at %g°", t)
	case t == 0:
		return " flat"
	}
	return ""
}

// set is what a design changes in the rig file, settings left out: those follow
// from it.
func (s *space) set(g genes) map[string]string {
	all := map[string]string{}
	for _, c := range rig.Diff(s.rig, open(s.build(g))) {
		all[c.Path] = c.Value
	}
	return all
}

// Apply is a rig file turned into a design: its changes, and every setting as fit
// recommends for it. Comments stay. It fails where the file has changed so that
// the design no longer applies. Errors: rig.Errors, *fit.InputError.
func Apply(file *rig.File, d *Design) (*rig.File, error) {
	built, err := file.Make(changesOf(d.Set)...)
	if err != nil {
		return nil, err
	}
	bare := open(built.Rig)
	if acid(bare.Bank.Cell) || bare.Bank.Own != nil && acid(bare.Bank.Own.Like) {
		quiet(bare)
	}
	res, err := fit.Run(bare)
	if err != nil {
		return nil, err
	}
	var sheet []rig.Change
	off := offSides(bare)
	for k := range res.Settings {
		if set := &res.Settings[k]; !off[set.Path] {
			sheet = append(sheet, rig.Change{Path: set.Path, Value: written(set, bare.About.Units)})
		}
	}
	return built.SetAll(sheet...)
}

// offSides are the sides of cut-outs that are off: that is how the switch is
// built, whatever would be set on one with both sides.
func offSides(r *rig.Rig) map[string]bool {
	off := map[string]bool{}
	for _, c := range r.Protection.Cutouts {
		at := "protection.cutouts." + c.Name
		off[at+".below"], off[at+".above"] = c.Below.Given && c.Below.Off, c.Above.Given && c.Above.Off
	}
	return off
}

// changesOf puts changes in an order in which they can be made: what goes, from
// the last item on, then the rest, items by their number.
func changesOf(set map[string]string) []rig.Change {
	var list []rig.Change
	for path, value := range set {
		list = append(list, rig.Change{Path: path, Value: value})
	}
	slices.SortFunc(list, func(a, b rig.Change) int {
		if goes := a.Value == ""; goes != (b.Value == "") {
			return map[bool]int{true: -1, false: 1}[goes]
		} else if goes {
			return byStep(b.Path, a.Path)
		}
		return byStep(a.Path, b.Path)
	})
	return list
}

// byStep compares paths step by step, numbers by their value.
func byStep(a, b string) int {
	return slices.CompareFunc(strings.Split(a, "."), strings.Split(b, "."), func(x, y string) int {
		n, errN := strconv.Atoi(x)
		m, errM := strconv.Atoi(y)
		if errN == nil && errM == nil {
			return cmp.Compare(n, m)
		}
		return strings.Compare(x, y)
	})
}

// written is a recommended setting as it goes into the file.
func written(s *fit.Setting, units string) string {
	v, isNumber := s.Value.(float64)
	if !isNumber {
		return fmt.Sprint(s.Value)
	}
	sys, _ := q.ParseSystem(units)
	text := s.Dim.Text(v, sys)
	if back, err := s.Dim.Parse(text); err == nil && max(back-v, v-back) < nudge {
		return text
	}
	return strconv.FormatFloat(v, 'f', -1, 64) + " " + s.Unit
}
