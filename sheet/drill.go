package sheet

import (
	"slices"
	"strings"

	"ampstead/drill"
	"ampstead/finding"
	"ampstead/quantity"
)

// Drill is what a drill found, as text.
type Drill struct {
	Answer     []string // sentences, the most important first
	Scenes     []DrillScene
	Devices    []DrillDevice
	Uncovered  []UncoveredRow // single faults that reach harm
	Unchanging []string       // faults that change how no scene ends
	NoSingles  string         // what to say where none does
	Groups     []GroupRow     // pairs that reach harm
	Additions  []AdditionRow
	Silent     []string
	Margins    []MarginRow
	Rehearsal  []drill.Rehearsal
	Guards     []drill.Guard
	Cautions   []string
	Assumed    []string
	Findings   []Finding
	Figures    []string // names of the figures behind it
	Count      string   // "24 faults in 7 scenes"
	Run        *Played  // the run shown on the page; nil for none
	Pick       string   // address of the page that shows one run, empty for none

	res    *drill.Result
	strips []drill.Strip // of the runs that paper shows
}

// DrillScene is a moment of use.
type DrillScene struct{ Name, About, Facts string }

// DrillDevice is a part of the rig with its faults.
type DrillDevice struct {
	Name   string
	Faults []FaultRow
}

// FaultRow is one fault with the scene in which it went worst.
type FaultRow struct {
	Name, How          string
	End, Scene, First  string
	Nearness, To, Full string // To leads to the run, Full is the whole name
	Harm, Silent       bool
	Same               bool // no scene ends otherwise than by itself
}

// UncoveredRow is a single fault that reaches harm.
type UncoveredRow struct {
	Faults, Scenes, Harm, Addition string
	Silent                         bool
}

// GroupRow is the pairs that reach harm for one reason.
type GroupRow struct {
	Cause, Common, Harm, Scenes string
	Pairs                       []string // the first of them
	More                        int      // and how many more
	Addition                    string
	Worst, To                   string
	Silent                      bool
}

// AdditionRow is a change that was tried.
type AdditionRow struct{ Name, About, Covers, Creates, Loss, Causes string }

// MarginRow is how far a set-point can drift.
type MarginRow struct {
	Device, Setting, Value string
	Down, Up, Tolerance    string
	Changes                []string // what changes beyond, downwards and upwards
	Tight                  bool     // less than the device's own tolerance
}

// WithDrill returns the model with a drill, its findings apart from those of the
// other stages; strips are those paper shows, as Strips makes them.
func (m *Model) WithDrill(res *drill.Result, strips ...drill.Strip) *Model {
	with := *m
	if res == nil {
		return &with
	}
	with.Drill = &Drill{res: res, strips: strips, Answer: DrillAnswer(res), Scenes: m.drillScenes(res), Devices: drillDevices(res),
		Uncovered: uncoveredRows(res), NoSingles: NoSingles(res), Unchanging: unchanging(res), Groups: groupRows(res), Additions: additionRows(res), Silent: SilentByDevice(res), Margins: MarginRows(res, m.Units),
		Rehearsal: rehearsals(res), Guards: res.Guards, Cautions: DrillCautions(), Assumed: sentencesOf(res.Assumed),
		Findings: m.drillFindings(res.Findings), Figures: res.Figures, Count: counted(len(res.Faults), "fault") + " in " + counted(len(res.Scenes), "scene")}
	return &with
}

// PickedAt returns the model with links from the drill's marks to the page that
// shows one run.
func (m *Model) PickedAt(page string) *Model {
	with := *m
	if m.Drill == nil {
		return &with
	}
	d := *m.Drill
	d.Pick, d.Devices, d.Groups = page, nil, slices.Clone(d.Groups)
	for _, device := range m.Drill.Devices {
		device.Faults = slices.Clone(device.Faults)
		for i, f := range device.Faults {
			device.Faults[i].To = runAddress(page, f.Full, "", f.Scene)
		}
		d.Devices = append(d.Devices, device)
	}
	for i, g := range d.res.Pairs.Groups {
		d.Groups[i].To = runAddress(page, g.Worst.Fault, g.Worst.Second, g.Worst.Scene)
	}
	with.Drill = &d
	return &with
}

func (m *Model) drillFindings(list []finding.Finding) []Finding {
	b := &builder{}
	if m.made != nil {
		b.file = m.made.file
	}
	var out []Finding
	for _, f := range list {
		out = append(out, b.finding(f, "drill-"+f.ID, len(out)))
	}
	return out
}

// Tally counts the findings of the drill in words.
func (d *Drill) Tally() string { return tally(d.Findings) }

func (m *Model) drillScenes(res *drill.Result) []DrillScene {
	var list []DrillScene
	for _, s := range res.Scenes {
		facts := []string{"starts at " + percent(s.SoC), "bank " + degrees(s.BankC, m.Units), "air " + degrees(s.AirC, m.Units), "lasts " + drill.Lapse(3600*s.Hours)}
		if !s.Home {
			facts = append(facts, "nobody there")
		}
		if s.Where != "" {
			facts = append(facts, "as at "+s.Where)
		}
		list = append(list, DrillScene{Name: s.Name, About: finding.Sentence(s.About), Facts: strings.Join(facts, ", ")})
	}
	return list
}

func drillDevices(res *drill.Result) []DrillDevice {
	var list []DrillDevice
	plain := res.Plain()
	for _, r := range res.Rows() {
		if n := len(list); n == 0 || list[n-1].Name != r.Fault.Device {
			list = append(list, DrillDevice{Name: r.Fault.Device})
		}
		row := FaultRow{Name: r.Fault.Short(), Full: r.Fault.Name, How: finding.Sentence(r.Fault.How), Silent: r.Silent}
		if o := r.Telling(&plain); o != nil || r.Worst != nil {
			if row.Same = o == nil; row.Same {
				o = r.Worst
			}
			row.End, row.Scene, row.Nearness, row.Harm = o.Outcome.Words(), o.Scene, o.Nearness(), o.Outcome == drill.Harm && !row.Same
			if o.FirstLayer != "" {
				row.First = o.FirstLayer + " after " + drill.Lapse(o.FirstAt)
			}
		}
		last := &list[len(list)-1]
		last.Faults = append(last.Faults, row)
	}
	return list
}

// unitText writes a margin's number in its unit as the reader wants it.
func unitText(v float64, unit string, difference bool, sys quantity.System) string {
	switch {
	case unit == "°C" && difference:
		return quantity.Kelvins.Text(v, sys)
	case unit == "°C":
		return quantity.Celsius.Text(v, sys)
	case unit == "V" && difference && v < 1:
		return quantity.Volts.Fixed(v, "mV", 0)
	}
	return text3(v) + " " + unit
}
