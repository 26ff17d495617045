package prove

import (
	"fmt"
	"math"

	"ampstead/fit"
	"ampstead/physics/cell"
	q "ampstead/quantity"
)

// PlanInput is the module to be tested and the gear at hand.
type PlanInput struct {
	Cell       string     // name of the library, or empty with Kind
	Kind       *cell.Cell // a rig's own cell; wins over Cell
	Series     int        // groups in series
	CapacityAh float64    // rated when new, or about: what there may be at most
	LowV       float64    // limits of one cell for this test; 0: the cell's
	HighV      float64
	TempC      float64 // of the place; NaN or 0 with no TempKnown takes 20 °C
	TempKnown  bool

	ChargerA    float64 // what it gives at most
	ChargerMinA float64 // the lowest it can be set to; 0: it cannot be set
	ChargerMinV float64 // lowest and highest top it can be set to; equal when it has one only
	ChargerMaxV float64

	Load      string  // "heater" (a resistor), "inverter" (with what hangs on it) or "current" (an electronic load)
	LoadW     float64 // heater: at LoadV; inverter: what hangs on it, at the mains side
	LoadV     float64 // heater: the voltage its power holds for; inverter: where it switches off, 0 unknown
	LoadA     float64 // electronic load
	KettleOff bool    // what hangs on the inverter switches itself off, as a kettle does
}

// Plan is a test that the gear can do, to be printed.
type Plan struct {
	Title    string     `json:"title"`
	Possible bool       `json:"possible"` // false: with this gear the module cannot be tested; Notes say why
	Cautions []string   `json:"cautions"` // first of all
	Notes    []PlanNote `json:"notes"`    // where the gear and the module do not go together
	Limits   PlanLimits `json:"limits"`
	Steps    []PlanStep `json:"steps"`
	Stops    []string   `json:"stop_at_once"` // whatever the step
	Log      []string   `json:"log"`          // what to write down, how often
	Hours    float64    `json:"hours"`        // without the days of rest at the end
	Ah       float64    `json:"discharge_ah"`
	Wh       float64    `json:"discharge_wh"`
}

// PlanNote is a place where the gear and the module do not go together.
type PlanNote struct {
	ID   string `json:"id"` // "charger-overshoots", "charger-short", "load-small", ...
	Text string `json:"text"`
}

// PlanLimits are what no step may pass. Voltages in V, of the pack and of any one
// group.
type PlanLimits struct {
	PackHighV  float64 `json:"pack_high_v"`
	PackLowV   float64 `json:"pack_low_v"` // where the whole is empty if all groups are alike; a group is mostly first
	GroupHighV float64 `json:"group_high_v"`
	GroupLowV  float64 `json:"group_low_v"`
	ChargeA    float64 `json:"charge_a"` // to set, at most
	TaperA     float64 `json:"taper_a"`  // charging ends when the current has fallen to it
	ChargeMinC float64 `json:"charge_min_c"`
	ChargeMaxC float64 `json:"charge_max_c"`
	StopC      float64 `json:"stop_c"` // of any cell
}

// PlanStep is one thing to do.
type PlanStep struct {
	Number int     `json:"step"`
	Title  string  `json:"title"`
	Do     string  `json:"do"`
	Until  string  `json:"until"`
	Log    string  `json:"log"`
	Hours  float64 `json:"hours"` // about
	Ah     float64 `json:"ah"`    // about, positive charging
}

// planner is a plan in the making.
type planner struct {
	in    PlanInput
	kind  *cell.Cell
	plan  *Plan
	amps  float64 // of the load, mean over the discharge
	toSoC float64 // where charging ends
}

// PlanFor works out the test of a module with the gear at hand, by the recipe of
// standard tests (full charge, rest, discharge at a fifth to a third of the
// capacity an hour, rest, charge, a pulse at about half, weeks of rest). Errors:
// *fit.InputError for an input that makes no sense.
func PlanFor(in PlanInput) (*Plan, error) {
	p := &planner{in: in, kind: in.Kind, plan: &Plan{Possible: true, Notes: []PlanNote{}}}
	if err := p.check(); err != nil {
		return nil, err
	}
	p.plan.Title = fmt.Sprintf("Test of %d groups in series, %s, about %s", p.in.Series, p.kind.Title, q.AmpereHours.Text(p.in.CapacityAh, q.Metric))
	p.limits()
	p.charger()
	p.load()
	p.place()
	p.plan.Cautions = p.cautions()
	p.plan.Stops = p.stops()
	p.plan.Log = p.log()
	if p.plan.Possible {
		p.steps()
	} else {
		p.plan.Steps = []PlanStep{}
	}
	return p.plan, nil
}

func (p *planner) check() error {
	if p.kind == nil {
		kind, err := cell.Lookup(p.in.Cell)
		if err != nil {
			return &fit.InputError{Path: "cell", Message: err.Error(), Expected: "a cell of the library", Example: "nmc532"}
		}
		p.kind = kind
	}
	if !p.in.TempKnown {
		p.in.TempC = 20
	}
	p.in.LowV, p.in.HighV = orElse(p.in.LowV, p.kind.MinV.Value), orElse(p.in.HighV, p.kind.MaxV.Value)
	for _, r := range p.rules() {
		if r.bad {
			return &fit.InputError{Path: r.path, Message: r.message, Expected: r.expected, Example: r.example}
		}
	}
	return nil
}

type planRule struct {
	bad                              bool
	path, message, expected, example string
}

func (p *planner) rules() []planRule {
	in, k := &p.in, p.kind
	volts := func(v float64) string { return q.Volts.Text(v, q.Metric) }
	sense := fmt.Sprintf("between %s and %s for %s", volts(k.MinV.Value), volts(k.MaxV.Value), k.Name)
	return []planRule{
		{in.Series < 1 || in.Series > 1000, "groups", fmt.Sprintf("%d groups in series", in.Series), "a whole number from 1", "7"},
		{!positive(in.CapacityAh), "capacity", "no capacity is given", "the rated capacity of the module", "65 Ah"},
		{!(in.LowV >= k.MinV.Value-1e-9 && in.LowV < in.HighV), "low", volts(in.LowV) + " is no low limit for a test", sense, volts(k.MinV.Value)},
		{!(in.HighV <= k.MaxV.Value+1e-9), "high", volts(in.HighV) + " is no high limit for a test", sense, volts(k.MaxV.Value)},
		{!positive(in.ChargerA), "charger", "no current of the charger is given", "what it gives at most", "10 A"},
		{!positive(in.ChargerMaxV) || in.ChargerMinV > in.ChargerMaxV || in.ChargerMinV < 0, "charger", "the voltage range of the charger makes no sense", "the lowest and highest top it can be set to", "20 V to 30 V"},
		{in.Load != "heater" && in.Load != "inverter" && in.Load != "current", "load", fmt.Sprintf("load %q", in.Load), "heater, inverter or current", "heater"},
		{in.Load != "current" && !positive(in.LoadW), "load", "no power of the load is given", "what it draws", "500 W"},
		{in.Load == "heater" && !positive(in.LoadV), "load", "no voltage goes with the heater's power", "the voltage it is made for", "24 V"},
		{in.Load == "current" && !positive(in.LoadA), "load", "no current of the load is given", "what it draws", "20 A"},
	}
}

func positive(v float64) bool { return v > 0 && !math.IsInf(v, 1) }

func (p *planner) note(id, format string, args ...any) {
	p.plan.Notes = append(p.plan.Notes, PlanNote{id, fmt.Sprintf(format, args...)})
}
