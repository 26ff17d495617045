package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"ampstead/fit"
	"ampstead/rig"
)

// newCommand takes every question of rig.Questions as a flag of the same name.
type newCommand struct {
	Folder        string `arg:"" help:"Folder for the new rig.yaml."`
	Name          string `help:"What you call the rig."`
	Units         string `help:"metric or us."`
	Cell          string `help:"Cell by its name in the library (docs/cells.md)."`
	Series        string `help:"Groups of cells in series."`
	CellsPerGroup string `help:"Cells in parallel in one group of one module."`
	Strings       string `help:"Such modules side by side."`
	CellCapacity  string `help:"Capacity of one cell when new, such as \"94 Ah\"."`
	Sources       string `help:"What charges it: solar, mains, alternator, with commas between, or none."`
	Inverter      bool   `help:"There is a mains inverter."`
	Coldest       string `help:"How cold the bank can get, such as \"1 °C\"."`
}

// Run writes the file; without any flag it asks.
func (c *newCommand) Run(r *run) error {
	path := filepath.Join(c.Folder, rig.FileName)
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		return badInput(fmt.Errorf("%s is already there; nothing was changed", path))
	}
	answers := c.answers()
	if len(answers) == 0 {
		var err error
		if answers, err = ask(r); err != nil {
			return badInput(err)
		}
	}
	text, err := starter(path, answers)
	if err != nil {
		return badInput(err)
	}
	if err := os.MkdirAll(c.Folder, 0o755); err != nil {
		return badInput(err)
	}
	if err := rig.Create(path, text); err != nil {
		return badInput(err)
	}
	fmt.Fprintf(r.Stdout, "%s is written. Values marked CHECK are placeholders: read yours from the devices.\nNext: ampstead fit %s, or ampstead serve %s\n", path, c.Folder, c.Folder)
	return nil
}

// starter writes the file's text and makes sure that fit can read its cell.
func starter(path string, answers rig.Answers) ([]byte, error) {
	text, err := rig.Starter(answers)
	if err != nil {
		return nil, err
	}
	file, err := rig.Parse(path, text)
	if err != nil {
		return nil, err
	}
	if _, err := fit.Run(file.Rig); err != nil {
		return nil, placed(file, err)
	}
	return text, nil
}

func (c *newCommand) answers() rig.Answers {
	given := rig.Answers{"name": c.Name, "units": c.Units, "cell": c.Cell, "series": c.Series, "cells-per-group": c.CellsPerGroup,
		"strings": c.Strings, "cell-capacity": c.CellCapacity, "sources": c.Sources, "coldest": c.Coldest}
	if c.Inverter {
		given["inverter"] = "yes"
	}
	for key, answer := range given {
		if answer == "" {
			delete(given, key)
		}
	}
	return given
}

// ask puts the questions one by one; an empty line takes the default.
func ask(r *run) (rig.Answers, error) {
	lines := bufio.NewScanner(r.Stdin)
	answers := rig.Answers{}
	for _, q := range rig.Questions() {
		fmt.Fprintf(r.Stdout, "%s (%s) [%s] ", q.Question, "such as "+q.Example, q.Default)
		if !lines.Scan() {
			return nil, errors.Join(fmt.Errorf("no answer to %q; give the answers as flags or answer each question", q.Question), lines.Err())
		}
		if answer := strings.TrimSpace(lines.Text()); answer != "" {
			answers[q.Key] = answer
		}
		fmt.Fprintln(r.Stdout)
	}
	return answers, r.ctx.Err()
}
