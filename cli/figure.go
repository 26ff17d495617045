package cli

import (
	"fmt"

	"ampstead/figure"
	"ampstead/handbook"
)

type figureCommand struct {
	Name   string   `arg:"" optional:"" complete:"figure" help:"Figure to compute; without one, the list."`
	Inputs []string `arg:"" optional:"" complete:"figure-input" help:"Inputs as name=value, such as length=\"18 ft\". A bare number counts in the unit the list names."`
	Verify bool     `help:"Run every published check of the figure, or of all, and print the differences."`
	JSON   bool     `help:"Print as JSON."`
}

// Run lists, explains, computes or verifies figures.
func (c *figureCommand) Run(r *run) error {
	if c.Name == "" {
		if c.Verify {
			return c.verify(r, handbook.All())
		}
		return c.list(r)
	}
	f, err := handbook.Find(c.Name)
	if err != nil {
		return badInput(err)
	}
	switch {
	case c.Verify:
		return c.verify(r, []*figure.Figure{f})
	case len(c.Inputs) == 0 && needsInput(f):
		return c.describe(r, f)
	}
	use, err := f.Read(c.Inputs)
	if err != nil {
		return badInput(err)
	}
	return c.show(r, use)
}

func needsInput(f *figure.Figure) bool {
	for _, i := range f.Inputs {
		if i.Default == "" {
			return true
		}
	}
	return false
}

func (c *figureCommand) list(r *run) error {
	all := handbook.All()
	if c.JSON {
		list := make([]figureEntry, 0, len(all))
		for _, f := range all {
			list = append(list, entryOf(f))
		}
		return writeJSON(r.Stdout, map[string]any{"figures": list})
	}
	for _, f := range all {
		fmt.Fprintf(r.Stdout, "%-22s %s\n", f.Name, f.Answers)
	}
	fmt.Fprintf(r.Stdout, "\n%d figures. ampstead figure NAME tells what one needs; --verify runs every published check.\n", len(all))
	return nil
}

func (c *figureCommand) describe(r *run, f *figure.Figure) error {
	if c.JSON {
		return writeJSON(r.Stdout, entryOf(f))
	}
	describeFigure(r.Stdout, f)
	return nil
}

func (c *figureCommand) show(r *run, use figure.Use) error {
	if c.JSON {
		return writeJSON(r.Stdout, resultOf(use))
	}
	showUse(r.Stdout, use)
	return nil
}
