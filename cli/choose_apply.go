package cli

import (
	"fmt"
	"strconv"

	"ampstead/choose"
	"ampstead/rig"
	"ampstead/sheet"
)

// applied is a design that was turned into a rig file.
type applied struct {
	Design  string          `json:"design"`
	File    string          `json:"file"`
	Changes []sheet.Changed `json:"changes"`
}

func (a *applied) words() string {
	return fmt.Sprintf("Written to %s: %s, %d values changed.", a.File, a.Design, len(a.Changes))
}

// apply turns a design into a rig file; nil when that was not asked for.
func (c *chooseCommand) apply(file *rig.File, res *choose.Result) (*applied, error) {
	if c.Apply == "" {
		return nil, nil
	}
	d := designOf(res, c.Apply)
	if d == nil {
		return nil, badInput(fmt.Errorf("--apply: there is no design %q; expected a name or number of the front, 1 to %d", c.Apply, len(res.Front)))
	}
	next, err := choose.Apply(file, d)
	if err != nil {
		return nil, badInput(err)
	}
	a := &applied{Design: d.Name, File: c.Out, Changes: sheet.Differences(file, next)}
	if c.Write {
		a.File = next.Path
		return a, badInput(next.Save())
	}
	return a, badInput(rig.Create(c.Out, next.Text))
}

// batteries compares them for the book; nil when that was not asked for.
func (c *bookCommand) batteries(r *run, file *rig.File) (*choose.Result, error) {
	if !c.Choose {
		return nil, nil
	}
	bar := newProgress(r.Stderr, "batteries")
	res, err := choose.Run(r.ctx, file.Rig, choose.Options{Progress: bar.tell})
	bar.end()
	if err != nil {
		return nil, placed(file, err)
	}
	return res, nil
}

// designOf finds a design by its name or by its number on the front.
func designOf(res *choose.Result, name string) *choose.Design {
	for i := range res.Front {
		if d := &res.Front[i]; d.Name == name || strconv.Itoa(i+1) == name {
			return d
		}
	}
	return nil
}
