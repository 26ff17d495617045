package choose

import (
	"fmt"
	"math"
	"slices"

	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// What a search varies, in the order of genes.
const (
	whichBattery = iota
	howManyModules
	howMuchPanel
	howTilted
	howMuchHeater
	howThick
	whichWindow
	varied
)

// genes is a whole design: for each thing varied, which of its levels.
type genes [varied]int

// Daily windows a search tries: choices of fit by name.
var windowNames = []string{"gentler", "as recommended", "fuller"}

const recommended = 1 // of windowNames

// Levels of panel, tilt, heater and insulation; ours. Of panel and heater they
// are shares of what the rig has.
var (
	panelShares  = []float64{0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2}
	tilts        = []float64{0, 15, 30, 45}
	heaterShares = []float64{0, 0.5, 1, 2}
	newHeaters   = []float64{0, 30, 60, 120}             // W, where there is none
	thicknesses  = []float64{0, 0.025, 0.05, 0.075, 0.1} // m
	inches       = []float64{0, 0.0254, 0.0508, 0.0762, 0.1016}
)

// mostModules in parallel are tried, or as many as there are.
const mostModules = 4

// space is everything a search may choose from.
type space struct {
	rig     *rig.Rig // as in the file, every setting open
	base    []base
	modules []int
	panels  []float64 // of today's
	tilts   []float64 // degrees; below 0 as the file says
	heaters []float64 // W
	thick   []float64 // m; below 0 as it is
	said    []string  // what is varied
}

// base is a battery ready to be built upon.
type base struct {
	*variant
	rig     *rig.Rig // with the rig's own device limits where they suit it
	windows [3]*rig.Daily
	cost    bill // of today's number of modules
}

// spaceOf works out what may vary. Batteries that cannot be priced in the
// currency of the rest are left out, and named.
func spaceOf(r *rig.Rig, list []variant) (*space, error) {
	s := &space{rig: open(r), thick: []float64{-1}, tilts: []float64{-1}, panels: []float64{1}, heaters: []float64{0}}
	for k := range list {
		b, err := baseOf(r, &list[k])
		if err != nil {
			return nil, err
		}
		s.base = append(s.base, b)
	}
	most := mostModules
	for k := range s.base {
		most = max(most, s.base[k].rig.Bank.Strings)
	}
	for n := range most {
		s.modules = append(s.modules, n+1)
	}
	s.say("battery: %d, each with 1 to %d modules in parallel", len(s.base), most)
	s.roof(r)
	s.warmth(r)
	s.say("daily window: %s, %s or %s", windowNames[0], windowNames[1], windowNames[2])
	return s, nil
}

func (s *space) say(format string, args ...any) {
	s.said = append(s.said, fmt.Sprintf(format, args...))
}

// roof is panels and how they stand. More than a charger's input takes is left out.
func (s *space) roof(r *rig.Rig) {
	watts := panelWatts(r)
	if watts == 0 {
		return
	}
	most, by := 2.0, ""
	for k := range r.Charge {
		if room := inputRoom(&r.Charge[k]); room < most {
			most, by = room, ", for the input of "+r.Charge[k].Name+" takes no more"
		}
	}
	s.panels = slices.DeleteFunc(slices.Clone(panelShares), func(x float64) bool { return x > max(1, most)+1e-9 })
	s.say("panel: %.0f to %.0f W (today %.0f W), each panel larger or smaller on the same chargers%s",
		watts*s.panels[0], watts*s.panels[len(s.panels)-1], watts, by)
	flat := !slices.ContainsFunc(r.Route, func(x rig.Stay) bool { return x.Tilt != nil && *x.Tilt > 0 })
	s.tilts = append([]float64{-1}, tilts...)
	if flat {
		s.tilts = append([]float64{-1}, tilts[1:]...)
	}
	s.say("tilt of the panels at every stay: as it stands, or %.0f to %.0f° towards the noon sun where no facing is given", s.tilts[1], s.tilts[len(s.tilts)-1])
}

// inputRoom is how much more short-circuit current a source's input takes, over
// what its panels give; without a limit, no end.
func inputRoom(c *rig.Source) float64 {
	if c.Input == nil || c.Input.MaxCurrent == nil {
		return math.Inf(1)
	}
	amps := 0.0
	for _, p := range c.Panels {
		if p.ShortCurrent != nil {
			amps += float64(*p.ShortCurrent) * float64(max(1, p.Parallel))
		}
	}
	if amps == 0 {
		return math.Inf(1)
	}
	return float64(*c.Input.MaxCurrent) / amps
}

// warmth is heater and insulation.
func (s *space) warmth(r *rig.Rig) {
	s.heaters = newHeaters
	if r.Heater != nil {
		s.heaters = nil
		for _, share := range heaterShares {
			s.heaters = append(s.heaters, share*float64(*r.Heater.Power))
		}
	}
	s.say("heater: none to %.0f W", s.heaters[len(s.heaters)-1])
	if r.Bank.Box == nil {
		return
	}
	s.thick = slices.Clone(thicknesses)
	if r.About.Units == q.US.String() {
		s.thick = slices.Clone(inches)
	}
	if now := thickness(r.Bank.Box); !slices.Contains(s.thick, now) {
		s.thick = append(s.thick, now)
		slices.Sort(s.thick)
	}
	s.say("insulation: %.0f to %.0f mm", 1000*s.thick[0], 1000*s.thick[len(s.thick)-1])
}

func thickness(b *rig.Box) float64 {
	if b == nil || b.Insulation == nil {
		return 0
	}
	return float64(*b.Insulation)
}

func panelWatts(r *rig.Rig) float64 {
	sum := 0.0
	for _, c := range r.Charge {
		for _, p := range c.Panels {
			sum += float64(*p.Power) * float64(p.Series*max(1, p.Parallel))
		}
	}
	return sum
}

// baseOf prepares a battery. A charger's own lowest and highest voltage stay
// where the charger need not go.
func baseOf(r *rig.Rig, v *variant) (base, error) {
	b := base{variant: v, rig: copyRig(v.rig)}
	if v.rig.Heater == nil && r.Heater != nil {
		dropHeater(b.rig, r.Heater.Name)
	}
	for k := range b.rig.Charge {
		if !v.mustGo(r.Charge[k].Name) {
			b.rig.Charge[k].Lowest, b.rig.Charge[k].Highest = r.Charge[k].Lowest, r.Charge[k].Highest
		}
	}
	if v.from.Capacity == 0 && b.rig.Bank.Measured != nil && v.share.Middle != 1 {
		m := b.rig.Bank.Measured
		m.Estimated = true
		m.Capacity, m.Resistance = times(m.Capacity, 1), times(m.Resistance, 1)
	}
	res, err := fit.Run(b.rig)
	if err != nil {
		return base{}, placed(err, v.cand)
	}
	b.choices(res)
	return b, nil
}

func (v *variant) mustGo(device string) bool {
	return slices.ContainsFunc(v.misfits, func(m Misfit) bool { return m.Device == device && m.Exchange })
}

// choices are the daily windows as wishes; none for what fit recommends.
func (b *base) choices(res *fit.Result) {
	for _, c := range res.Choices {
		k := slices.Index(windowNames, c.Name)
		if k >= 0 && k != recommended && res.Kind.Family != cell.LeadAcid {
			b.windows[k] = daily(c.CellHighV, c.CellLowV)
		}
	}
}

// levels is how many there are of each thing varied.
func (s *space) levels() genes {
	return genes{len(s.base), len(s.modules), len(s.panels), len(s.tilts), len(s.heaters), len(s.thick), len(windowNames)}
}

// plain makes equal designs equal genes: lead-acid has no heater and no window to
// choose.
func (s *space) plain(g genes) genes {
	b := &s.base[g[whichBattery]]
	if b.res.Kind.Family == cell.LeadAcid {
		g[howMuchHeater] = 0
	}
	if b.windows[g[whichWindow]] == nil {
		g[whichWindow] = recommended
	}
	return g
}

// today is a battery in the rig as it stands.
func (s *space) today(battery int) genes {
	g := genes{battery, max(1, s.base[battery].rig.Bank.Strings) - 1, slices.Index(s.panels, 1), 0, 0, 0, recommended}
	if h := s.rig.Heater; h != nil {
		g[howMuchHeater] = slices.Index(s.heaters, float64(*h.Power))
	}
	if len(s.thick) > 1 {
		g[howThick] = slices.Index(s.thick, thickness(s.rig.Bank.Box))
	}
	return s.plain(g)
}
