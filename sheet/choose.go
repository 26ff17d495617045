package sheet

import (
	"slices"
	"strconv"
	"strings"

	"ampstead/choose"
	"ampstead/finding"
	q "ampstead/quantity"
)

// Comparison is what choose found out, as text.
type Comparison struct {
	Answer   []string // sentences, the most important first
	Names    []string // of the batteries, the rig's own first
	Table    []CompareGroup
	Misfits  []MisfitRow
	Limits   []Limited // what ends each battery
	Asks     []AskList
	Remarks  []Remarked
	Searched []string // sentences; empty without a search
	Designs  []DesignRow
	Windows  []WindowTried
	WindowIs string // the recommended window in a sentence
	Cautions []string
	Assumed  []string
	Findings []Finding
	Figures  []string
	Count    string     // "5 batteries, 7 designs"
	Picked   *DesignRow // the design a visitor looks at; nil for none
	Pick     string     // address of the page that shows one design, empty for none
	Axes     DesignAxes

	res *choose.Result
}

// CompareGroup is some rows of the table under one head.
type CompareGroup struct {
	Title string
	Rows  []CompareRow
}

// CompareRow is one property of every battery.
type CompareRow struct {
	What  string
	Cells []CompareCell
	Rules bool // the best of the row is marked
}

// CompareCell is what one battery has of it.
type CompareCell struct {
	Name, Text string
	Range      string // how far it may be off, empty where it is known
	Best       bool
}

// MisfitRow is a device that does not suit a battery.
type MisfitRow struct {
	Battery, Device, Found, Mend string
	Exchange                     bool
}

// Limited says what ends a battery and how far that can be trusted.
type Limited struct {
	Battery string
	Said    []string // sentences
	Doubts  []string // where the model was used outside its range, what it does not know, and what others say
	Model   string
}

// AskList is what to ask and measure at one seller's.
type AskList struct {
	Battery, Anchor, Kind string
	Questions, Measures   []choose.Ask
}

// Remarked is what the literature says of one chemistry.
type Remarked struct {
	Batteries string
	Remarks   []choose.Remark
}

// WindowTried is one daily window; without a title it is called by its volts.
type WindowTried struct {
	Name, Title, Volts, Usable, Years, Hours, Late string
	Pick                                           bool
	LowV, HighV                                    float64 // one cell
}

// WithChoice returns the model with a comparison of batteries, its findings apart
// from those of the other stages.
func (m *Model) WithChoice(res *choose.Result) *Model {
	with := *m
	if res == nil {
		return &with
	}
	c := &Comparison{res: res, Answer: ChooseAnswer(res, m.Units), Table: CompareTable(res, m.Units), Misfits: MisfitRows(res), Limits: LimitsOf(res, m.Units),
		Asks: AskLists(res), Remarks: remarked(res), Searched: SearchedWords(res), Designs: DesignRows(res, m.Units), Windows: WindowsTried(res, m.Units), WindowIs: windowSentence(res, m.Units),
		Cautions: ChooseCautions(), Assumed: sentencesOf(res.Assumed), Findings: m.chooseFindings(res.Findings), Figures: res.Figures, Count: counted(len(res.Candidates), "battery")}
	for i := range res.Candidates {
		c.Names = append(c.Names, res.Candidates[i].Name)
	}
	if n := len(res.Candidates); n != 1 {
		c.Count = strconv.Itoa(n) + " batteries"
	}
	if n := len(res.Front); n > 0 {
		c.Count += ", " + counted(n, "design")
	}
	with.Compared = c
	return &with
}

func (m *Model) chooseFindings(list []finding.Finding) []Finding {
	b := &builder{}
	if m.made != nil {
		b.file = m.made.file
	}
	var out []Finding
	for _, f := range list {
		out = append(out, b.finding(f, "choose-"+f.ID, len(out)))
	}
	return out
}

// Tally counts the findings of the comparison in words.
func (c *Comparison) Tally() string { return tally(c.Findings) }

// Searching reports whether designs were searched for.
func (c *Comparison) Searching() bool { return c.res.Search != nil }

// PickedDesign returns the model with links from the points of the front to the
// page that shows one design, and that design, if there is one of that name.
func (m *Model) PickedDesign(page, name string, axes DesignAxes) *Model {
	with := *m
	if m.Compared == nil {
		return &with
	}
	c := *m.Compared
	c.Pick, c.Axes, c.Designs = page, axes.whole(c.res), slices.Clone(c.Designs)
	for i := range c.Designs {
		d := &c.Designs[i]
		d.To = designAddress(page, d.Name, c.Axes)
		if d.Name == name {
			c.Picked = d
		}
	}
	with.Compared = &c
	return &with
}

// MisfitRows are all devices that do not suit a battery, in the batteries' order,
// those that must go first.
func MisfitRows(res *choose.Result) []MisfitRow {
	var list []MisfitRow
	for i := range res.Candidates {
		c := &res.Candidates[i]
		rows := slices.Clone(c.Misfits)
		slices.SortStableFunc(rows, func(a, b choose.Misfit) int { return asOne(b.Exchange) - asOne(a.Exchange) })
		for _, f := range rows {
			list = append(list, MisfitRow{Battery: c.Name, Device: f.Device, Found: f.Found, Mend: f.Mend, Exchange: f.Exchange})
		}
	}
	return list
}

// asOne counts what is so.
func asOne(first bool) int {
	if first {
		return 1
	}
	return 0
}

// AskLists are what to ask and measure, for each battery that is for sale.
func AskLists(res *choose.Result) []AskList {
	var list []AskList
	for i := range res.Candidates {
		c := &res.Candidates[i]
		if len(c.Ask) == 0 {
			continue
		}
		a := AskList{Battery: c.Name, Kind: c.Kind, Anchor: "ask-" + strconv.Itoa(i+1)}
		for _, one := range c.Ask {
			if one.Measure {
				a.Measures = append(a.Measures, one)
			} else {
				a.Questions = append(a.Questions, one)
			}
		}
		list = append(list, a)
	}
	return list
}

// remarked joins the batteries of which the same is known.
func remarked(res *choose.Result) []Remarked {
	var list []Remarked
	var said [][]choose.Remark
	for i := range res.Candidates {
		c := &res.Candidates[i]
		if len(c.Remarks) == 0 {
			continue
		}
		if k := slices.IndexFunc(said, func(r []choose.Remark) bool { return slices.Equal(r, c.Remarks) }); k >= 0 {
			list[k].Batteries += "; " + c.Name
			continue
		}
		said, list = append(said, c.Remarks), append(list, Remarked{c.Name, c.Remarks})
	}
	return list
}

// WindowsTried are the daily windows, in the order they were tried.
func WindowsTried(res *choose.Result, sys q.System) []WindowTried {
	var list []WindowTried
	for _, w := range res.Window {
		volts := strconv.FormatFloat(w.LowV, 'f', 2, 64) + " to " + q.Volts.Fixed(w.HighV, "V", 2)
		title := w.Name
		if strings.HasPrefix(title, volts) {
			title = ""
		}
		list = append(list, WindowTried{Name: w.Name, Title: title, Volts: volts, LowV: w.LowV, HighV: w.HighV, Usable: energy(w.UsableWh, sys),
			Years: bandYears(w.ByCapacity), Hours: hoursOf(w.ShortHours), Late: hoursOf(w.ShortLate), Pick: w.Pick})
	}
	return list
}

// Head are the columns of the table: what, and every battery.
func (c *Comparison) Head() []string { return append([]string{""}, c.Names...) }
