package fit

import (
	"fmt"

	"ampstead/circuit"
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// InputError is a value in the rig that fit cannot work with.
type InputError struct {
	Path     string // in the rig file
	Message  string
	Expected string
	Example  string
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s: %s; expected %s", e.Path, e.Message, e.Expected)
}

// study is one run: the rig, what has been worked out of it so far, and every
// figure used on the way.
type study struct {
	rig     *rig.Rig
	sys     q.System
	cell    *cell.Cell // with the owner's stricter limits worked in
	info    CellInfo
	flows   flows
	short   circuit.Short
	window  Window
	ladder  ladder // recommended
	today   ladder // as set today
	sheet   []Setting
	warm    warmth
	figures figure.Ledger
}

// Run works out the settings of a rig. It changes nothing in r. Errors:
// *InputError for a value it cannot work with.
func Run(r *rig.Rig) (*Result, error) {
	s := &study{rig: r}
	s.sys, _ = q.ParseSystem(r.About.Units) // anything else was refused by the reader
	if err := s.facts(); err != nil {
		return nil, err
	}
	s.window = s.safeWindow()
	s.flows = s.flowsOf()
	s.warm = s.warmthOf()
	s.ladder = s.recommend()
	s.today = s.asSet()
	s.sheet = s.settings()
	res := &Result{
		Cell: s.info, Kind: s.cell, Window: s.window, Daily: s.daily(),
		Layers: s.ladder.layers(), Today: s.today.layers(),
		Settings: s.sheet, Choices: s.choices(), Warmth: s.warm.marks,
		Findings: s.findings(),
	}
	res.Uses = s.figures.Uses
	if s.figures.Err != nil {
		return nil, s.figures.Err
	}
	return res, nil
}

// findings runs every rule.
func (s *study) findings() []finding.Finding {
	s.short = s.shortOf()
	list := []finding.Finding{}
	for _, r := range rules {
		for _, f := range r.check(s) {
			f.ID = r.id
			list = append(list, f)
		}
	}
	finding.Sort(list)
	return list
}
