package compare

import (
	"slices"

	"ampstead/finding"
)

// gather lays the two sides beside each other.
func (s *study) gather() {
	was, is := s.sides[0], s.sides[1]
	s.out.Rows = rowsOf(was.entries, is.entries)
	before, after := finding.Merge(was.findings...), finding.Merge(is.findings...)
	s.out.Findings = matched(before, after)
	s.out.Was.count(before)
	s.out.Is.count(after)
}

func (s *Side) count(all []finding.Finding) {
	s.Stop, s.Care, s.Note = finding.Count(all, finding.Stop), finding.Count(all, finding.Care), finding.Count(all, finding.Note)
}

// rowsOf matches the results by stage and key, in the order of the later side; what
// only the earlier one has stands behind what it stood behind there.
func rowsOf(was, is []entry) []Row {
	rows := make([]Row, len(is))
	at := map[name]int{}
	for k, e := range is {
		rows[k] = e.row(Value{}, e.value)
		at[e.name] = k
	}
	behind := map[int][]Row{} // what follows a row
	last := -1
	for _, e := range was {
		k, there := at[e.name]
		if !there {
			behind[last] = append(behind[last], e.row(e.value, Value{}))
			continue
		}
		last = k
		rows[k].Was = e.value
		if rows[k].Unit == "" && e.unit != "" { // the later one is a word
			rows[k].Unit, rows[k].show = e.unit, e.show
		}
	}
	all := append([]Row{}, behind[-1]...)
	for k := range rows {
		all = append(append(all, rows[k]), behind[k]...)
	}
	for k := range all {
		all[k].Turn = all[k].turn()
	}
	return all
}

func (e entry) row(was, is Value) Row {
	return Row{Stage: e.stage, Key: e.key, What: e.what, Unit: e.unit, Was: was, Is: is, Better: e.better, show: e.show}
}

// matched sorts the findings into those that went, came and stayed.
func matched(was, is []finding.Finding) Findings {
	out := Findings{Gone: []finding.Finding{}, New: []finding.Finding{}, Changed: []Pair{}, Same: []Pair{}}
	for _, f := range is {
		k := slices.IndexFunc(was, alike(f))
		switch {
		case k < 0:
			out.New = append(out.New, f)
		case was[k].Severity != f.Severity:
			out.Changed = append(out.Changed, Pair{was[k], f})
		default:
			out.Same = append(out.Same, Pair{was[k], f})
		}
	}
	for _, f := range was {
		if !slices.ContainsFunc(is, alike(f)) {
			out.Gone = append(out.Gone, f)
		}
	}
	return out
}

func alike(f finding.Finding) func(finding.Finding) bool {
	return func(g finding.Finding) bool { return f.ID == g.ID && f.Where == g.Where }
}
