package cli

import (
	"ampstead/picture"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/travel"
	"ampstead/wire"
)

type wireCommand struct {
	stageFlags `embed:""`
	Year       bool   `help:"Also simulate a year, and take the main cable's drop at its peak."`
	Draw       string `placeholder:"FOLDER" help:"Also write the one-line diagram as SVG into this folder, for paper and for a phone."`
	CSV        string `name:"csv" placeholder:"FOLDER" help:"Also write schedule.csv and parts.csv into this folder."`
}

// Run works out the wiring and prints it.
func (c *wireCommand) Run(r *run) error {
	file, fitted, err := c.compute()
	if err != nil {
		return err
	}
	options, err := c.options(r, file)
	if err != nil {
		return err
	}
	res, err := wire.Run(file.Rig, fitted, options)
	if err != nil {
		return placed(file, err)
	}
	if err := c.tables(res); err != nil {
		return err
	}
	if err := c.draw(res, system(file.Rig)); err != nil {
		return err
	}
	if c.JSON {
		out := newReport("wire", file, res.Findings, res.Uses)
		out.Wire = res
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
		return stopIfAny(res.Findings)
	}
	t := &wireText{w: c.out(r, file.Rig), res: res, sys: system(file.Rig)}
	t.print(file)
	return stopIfAny(res.Findings)
}

// options asks a simulated year for its peaks, when wanted.
func (c *wireCommand) options(r *run, file *rig.File) (wire.Options, error) {
	if !c.Year {
		return wire.Options{}, nil
	}
	res, err := travel.Run(r.ctx, file.Rig, travel.Options{Years: 1})
	if err != nil {
		return wire.Options{}, placed(file, err)
	}
	return wire.Options{ChargePeakA: res.Year.ChargePeakA, DrawPeakA: res.Year.DrawPeakA}, nil
}

// draw writes the one-line diagram as files of their own.
func (c *wireCommand) draw(res *wire.Result, sys quantity.System) error {
	files := map[string][]byte{}
	for name, width := range map[string]int{"one-line.svg": picture.Desk, "one-line-phone.svg": picture.Phone} {
		files[name] = []byte(picture.OneLine(res, picture.Options{Width: width, Units: sys, Standalone: true}))
	}
	return writeFolder(c.Draw, files)
}

// tables writes the schedule and the parts list for a spreadsheet.
func (c *wireCommand) tables(res *wire.Result) error {
	return writeFolder(c.CSV, map[string][]byte{"schedule.csv": wire.ScheduleCSV(res), "parts.csv": wire.PartsCSV(res)})
}
