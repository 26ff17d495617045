package cli

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"

	"ampstead/figure"
	"ampstead/finding"
	"ampstead/picture"
	"ampstead/prove"
	"ampstead/rig"
)

// change is a value of the rig file that a test calls for.
type change struct {
	Path string `json:"path"`
	From string `json:"from"` // as written today, empty when not given
	To   string `json:"to"`
}

// write works out what the test of one log changes in the rig and, when asked
// to, saves it. Nothing without a rig or with several logs.
func (p *proof) write(all []proven) ([]change, error) {
	if p.file == nil || len(all) != 1 {
		if p.c.Write {
			return nil, badInput(errors.New("--write takes one log: name the one whose values count"))
		}
		return nil, nil
	}
	list, wanted := p.changes(all[0].res)
	if !p.c.Write || len(wanted) == 0 {
		return list, nil
	}
	next, err := p.file.SetAll(wanted...)
	if err != nil {
		return nil, badInput(err)
	}
	if err := next.Save(); err != nil {
		return nil, badInput(err)
	}
	return list, nil
}

// changes are those that differ from what is written.
func (p *proof) changes(res *prove.Result) (list []change, wanted []rig.Change) {
	strings := p.c.Strings
	if strings == 0 {
		strings = max(1, p.file.Rig.Bank.Strings)
	}
	now := map[string]string{}
	for _, f := range rig.Fields(p.file) {
		now[f.Path] = f.Written
	}
	for _, c := range prove.Changes(res, p.file.Rig.Bank.Series, strings, today()) {
		if now[c.Path] != c.Value {
			list = append(list, change{c.Path, now[c.Path], c.Value})
			wanted = append(wanted, rig.Change{Path: c.Path, Value: c.Value})
		}
	}
	return list, wanted
}

func (p *proof) printChanges(list []change) {
	if p.file == nil || len(list) == 0 {
		return
	}
	title := "--write WOULD PUT INTO THE RIG"
	if p.c.Write {
		title = "WRITTEN INTO " + p.file.Path
	}
	fmt.Fprintln(p.Stdout, "\n"+title)
	var tab table
	for _, c := range list {
		tab.row("  "+c.Path, cmp.Or(c.From, "not given"), "→ "+cmp.Or(c.To, "removed: this log does not tell it"))
	}
	tab.print(p.Stdout)
}

// draw writes the pictures of each log.
func (p *proof) draw(all []proven) error {
	for _, one := range all {
		files := map[string][]byte{}
		for name, of := range map[string]func(*prove.Result, picture.Options) string{
			"discharge": picture.Discharge, "resistance": picture.GroupResistance, "losses": picture.GroupLosses, "rest": picture.RestDecay} {
			if len(all) > 1 {
				name = filepath.Base(one.log) + "-" + name
			}
			for suffix, width := range map[string]int{"": picture.Desk, "-phone": picture.Phone} {
				files[name+suffix+".svg"] = []byte(of(one.res, picture.Options{Width: width, Units: p.system(), Standalone: true}))
			}
		}
		if err := writeFolder(p.c.Draw, files); err != nil {
			return err
		}
	}
	return nil
}

// provenJSON is the stage's own object: a result with the name of its log.
type provenJSON struct {
	Log string `json:"log"`
	*prove.Result
	Others  []provenJSON `json:"others,omitempty"`  // of the further logs that were named
	Kept    []string     `json:"kept,omitempty"`    // names of the logs kept with the rig, newest first
	Changes []change     `json:"changes,omitempty"` // to the rig file
	Written bool         `json:"written,omitempty"`
	Plan    *prove.Plan  `json:"plan,omitempty"`
}

// report is the JSON of the stage; rig is empty without one.
func (p *proof) report(all []proven, changes []change) report {
	out := report{Stage: "prove", Findings: []finding.Finding{}}
	if p.file != nil {
		out.Rig = rigName{p.file.Rig.About.Name, p.file.Path}
	}
	own := provenJSON{Kept: p.kept, Changes: changes, Written: p.c.Write}
	var uses []figure.Use
	for k, one := range all {
		out.Findings = append(out.Findings, one.res.Findings...)
		uses = append(uses, one.res.Uses...)
		if k == 0 {
			own.Log, own.Result = one.log, one.res
			continue
		}
		own.Others = append(own.Others, provenJSON{Log: one.log, Result: one.res})
	}
	finding.Sort(out.Findings)
	out.Figures = figure.Names(uses)
	out.Prove = own
	return out
}
