package cli

import (
	"bytes"
	"errors"
	"fmt"

	"ampstead/compare"
	"ampstead/finding"
	"ampstead/rig"
)

type compareCommand struct {
	Rig    string `arg:"" optional:"" default:"." help:"Folder that holds rig.yaml, or the file: the earlier one."`
	Other  string `arg:"" optional:"" help:"Another rig, folder or file: the later one. Without it two versions of the first are compared."`
	Was    int    `placeholder:"N" help:"The earlier version; ampstead history lists them. Without it, the one before what the file holds now."`
	Is     int    `placeholder:"N" help:"The later version. Without it, what the file holds now."`
	Travel bool   `help:"Also reckon the year on the road of both."`
	Drill  bool   `help:"Also play every single fault of both."`
	Years  int    `default:"10" help:"Weather years of --travel."`
	All    bool   `help:"Also list the results that are the same."`
	JSON   bool   `help:"Print the result as JSON (docs/json.md)."`
	Units  string `help:"Units of the text: metric or us; the default is what the later file says." enum:"metric,us,"  default:""`
}

// pair is what is compared, with what a person calls each.
type pair struct {
	was, is           *rig.File
	wasCalled, called string
}

// Run compares two rigs or two versions of one, and prints what differs.
func (c *compareCommand) Run(r *run) error {
	two, err := c.open()
	if err != nil {
		return badInput(err)
	}
	bar := newProgress(r.Stderr, "hundredths of travel and drill")
	res, err := compare.Run(r.ctx, two.was, two.is, compare.Options{Travel: c.Travel, Drill: c.Drill, Years: c.Years, Units: c.Units, Progress: bar.tell})
	bar.end()
	if err != nil {
		return err
	}
	found := after(res)
	if c.JSON {
		out := newReport("compare", two.is, found, nil)
		out.Compare = res
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
		return stopIfAny(found)
	}
	if c.Units != "" {
		two.is.Rig.About.Units = c.Units
	}
	t := &compareText{w: r.Stdout, res: res, sys: system(two.is.Rig), all: c.All}
	t.print(two)
	return stopIfAny(found)
}

// after are the findings of the later one.
func after(res *compare.Result) []finding.Finding {
	list := append([]finding.Finding{}, res.Findings.New...)
	for _, both := range [][]compare.Pair{res.Findings.Changed, res.Findings.Same} {
		for _, p := range both {
			list = append(list, p.Is)
		}
	}
	finding.Sort(list)
	return list
}

func (c *compareCommand) open() (*pair, error) {
	switch {
	case c.Years < 1:
		return nil, fmt.Errorf("--years %d: expected one or more", c.Years)
	case c.Was < 0 || c.Is < 0:
		return nil, errors.New("--was and --is take the number of a version: ampstead history lists them")
	case c.Other != "" && (c.Was > 0 || c.Is > 0):
		return nil, errors.New("--was and --is name versions of one rig: leave the other rig out")
	case c.Other != "":
		return c.rigs()
	}
	return c.versions()
}

func (c *compareCommand) rigs() (*pair, error) {
	was, err := rig.Open(c.Rig)
	if err != nil {
		return nil, err
	}
	is, err := rig.Open(c.Other)
	if err != nil {
		return nil, err
	}
	return &pair{was, is, was.Rig.About.Name, is.Rig.About.Name}, nil
}

// versions opens two of one rig.
func (c *compareCommand) versions() (*pair, error) {
	now, err := rig.Open(c.Rig)
	if c.Is == 0 && err != nil {
		return nil, err
	}
	p := &pair{is: now, called: "now"}
	if c.Is > 0 {
		p.called = fmt.Sprintf("version %d", c.Is)
		if p.is, err = rig.Kept(c.Rig, c.Is); err != nil {
			return nil, fmt.Errorf("--is %d: %w", c.Is, err)
		}
	}
	if c.Was == 0 {
		if c.Was, err = rig.Before(c.Rig, p.is.Text); err != nil {
			return nil, err
		}
	}
	if c.Was == 0 {
		return nil, fmt.Errorf("there is nothing to compare %s with: no other version of it is kept; name another rig, or edit it first", p.is.Path)
	}
	p.wasCalled = fmt.Sprintf("version %d", c.Was)
	if p.was, err = rig.Kept(c.Rig, c.Was); err != nil {
		return nil, fmt.Errorf("--was %d: %w", c.Was, err)
	}
	return p, nil
}

// same says that there is nothing to tell.
func (p *pair) same() bool { return bytes.Equal(p.was.Text, p.is.Text) }
