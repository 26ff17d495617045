package drill

import (
	"slices"
	"strings"
)

// Row is one fault with how it ended in each scene.
type Row struct {
	Fault  Fault
	Cells  []*Outcome // in the order of the scenes; nil where it was not played
	Worst  *Outcome   // nil when it was played in none
	Silent bool       // in every scene it was played in
}

// Rows lays the single faults out by scenes, the faults of one device together,
// devices in the order in which they first come.
func (r *Result) Rows() []Row {
	at := make(map[string]int, len(r.Scenes))
	for i, s := range r.Scenes {
		at[s.Name] = i
	}
	rows, of := make([]Row, len(r.Faults)), make(map[string]*Row, len(r.Faults))
	for i, f := range r.Faults {
		rows[i] = Row{Fault: f, Cells: make([]*Outcome, len(r.Scenes)), Silent: true}
		of[f.Name] = &rows[i]
	}
	for i := range r.Single {
		o := &r.Single[i]
		row, known := of[o.Fault]
		scene, played := at[o.Scene]
		if known && played {
			row.add(scene, o)
		}
	}
	for i := range rows {
		rows[i].Silent = rows[i].Silent && rows[i].Worst != nil
	}
	return byDevice(rows)
}

func (r *Row) add(scene int, o *Outcome) {
	r.Cells[scene] = o
	r.Silent = r.Silent && o.Silent
	if r.Worst == nil || o.Worse(r.Worst) {
		r.Worst = o
	}
}

func byDevice(rows []Row) []Row {
	var order []string
	for _, r := range rows {
		if !slices.Contains(order, r.Fault.Device) {
			order = append(order, r.Fault.Device)
		}
	}
	slices.SortStableFunc(rows, func(a, b Row) int {
		return slices.Index(order, a.Fault.Device) - slices.Index(order, b.Fault.Device)
	})
	return rows
}

// verdicts lists them worst first.
var verdicts = []Verdict{Harm, Near, Caught, Nuisance, None}

// Worse reports whether o ended worse than p; alike, whether it came nearer to
// harm.
func (o *Outcome) Worse(p *Outcome) bool {
	if a, b := slices.Index(verdicts, o.Outcome), slices.Index(verdicts, p.Outcome); a != b {
		return a < b
	}
	return o.MarginMV < p.MarginMV
}

// Short is the name without the device it begins with.
func (f Fault) Short() string { return strings.TrimPrefix(f.Name, f.Device+": ") }

// Plain is the row of the scenes with nothing wrong.
func (r *Result) Plain() Row {
	row := Row{Cells: make([]*Outcome, len(r.Scenes))}
	for i := range r.Without {
		for s, scene := range r.Scenes {
			if scene.Name == r.Without[i].Scene {
				row.add(s, &r.Without[i])
			}
		}
	}
	return row
}

// Usual reports whether a run ended as the scene does with nothing wrong: then it
// is not the fault that did it.
func (o *Outcome) Usual(plain *Outcome) bool {
	if plain == nil || o.Outcome != plain.Outcome {
		return false
	}
	return o.Harm == plain.Harm && (o.Harm != "" || o.FirstLayer == plain.FirstLayer)
}

// Telling is the worst run of a fault that ended otherwise than the scene does by
// itself; nil when the fault changes how no scene ends. plain is what Plain gives.
func (r *Row) Telling(plain *Row) *Outcome {
	var worst *Outcome
	for i, o := range r.Cells {
		if o != nil && !o.Usual(plain.Cells[i]) && (worst == nil || o.Worse(worst)) {
			worst = o
		}
	}
	return worst
}
