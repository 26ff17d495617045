package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"ampstead/benchlog"
	"ampstead/finding"
	"ampstead/fit"
	"ampstead/prove"
	"ampstead/quantity"
	"ampstead/rig"
	"ampstead/shelf"
)

type proveCommand struct {
	Paths   []string `arg:"" optional:"" name:"log-or-rig" help:"Logs of any meter (.csv, packed or not), and the rig: a folder or .yaml file. With a rig and no log the newest in its folder bench is taken."`
	Cell    string   `placeholder:"NAME" complete:"cell" help:"What cell it is: a name of the library (docs/cells.md). A rig says it itself."`
	Groups  int      `placeholder:"N" help:"Groups in series, where neither the log nor a rig tells."`
	Low     string   `placeholder:"V" help:"Low limit of one cell, such as 3.0 V; the default is the cell's."`
	High    string   `placeholder:"V" help:"High limit of one cell."`
	Rated   string   `placeholder:"Ah" help:"Rated capacity of what was tested when it was new."`
	JSON    bool     `help:"Print the result as JSON (docs/json.md)."`
	Units   string   `help:"Units of the text: metric or us." enum:"metric,us," default:""`
	Set     []string `sep:"none" placeholder:"PATH=VALUE" help:"Try a change of the rig without editing the file. Repeatable."`
	Draw    string   `placeholder:"FOLDER" help:"Also write the pictures as SVG files into this folder."`
	Write   bool     `help:"Put the measured values into rig.yaml; comments stay."`
	Strings int      `placeholder:"N" help:"How many of what was tested stand side by side in the rig; the default is its strings, so that the log is of one of them; 1 for a log of the whole bank."`

	layoutFlags `embed:""`
	planFlags   `embed:""`
}

// layoutFlags say how a log is to be read where that is not recognised.
type layoutFlags struct {
	Column    []string `sep:"none" placeholder:"NAME=ROLE" help:"What a column holds: a name or number of a column and time, voltage, current, group 3, temperature, charge, energy, power, cycle, step or ignored, with a unit where the head lacks it: 4='group 1 mV'. Repeatable."`
	Separator string   `placeholder:"NAME" help:"comma, semicolon, tab or space."`
	Decimal   string   `placeholder:"NAME" help:"point or comma."`
	Time      string   `placeholder:"FORM" help:"Unit of the time, such as s or h, or how a date is written."`
	Sign      string   `placeholder:"NAME" help:"charge or discharge: what is positive."`
	Remember  bool     `help:"Keep these for the logs of this rig."`
}

// proof is one run: its rig, if any, and what is known and wanted.
type proof struct {
	*run
	c      *proveCommand
	file   *rig.File // nil without a rig
	fitted *fit.Result
	shelf  shelf.Shelf
	logs   []string // paths, in the order to be read
	kept   []string // names of the logs kept with the rig, newest first
	layout benchlog.Options
	known  prove.Options
}

// proven is one log with what it told.
type proven struct {
	log string
	res *prove.Result
}

// Run reads the logs, judges them and prints what they tell.
func (c *proveCommand) Run(r *run) error {
	p := &proof{run: r, c: c}
	for _, step := range []func() error{p.sort, p.readRig, p.know, p.readLayout, p.choose} {
		if err := step(); err != nil {
			return err
		}
	}
	plan, err := p.plan()
	if err != nil {
		return err
	}
	if c.Plan || len(p.logs) == 0 {
		return p.showPlan(plan)
	}
	all, err := p.measure()
	if err != nil {
		return err
	}
	changes, err := p.write(all)
	if err != nil {
		return err
	}
	if err := p.draw(all); err != nil {
		return err
	}
	if err := p.show(all, changes); err != nil {
		return err
	}
	for _, one := range all {
		if one.res.Grade == "refuse" || finding.Worst(one.res.Findings) == finding.Stop {
			return errStop
		}
	}
	return nil
}

// sort tells the rig among the paths: a folder or a .yaml file. Without any path
// it is the current folder.
func (p *proof) sort() error {
	rigPath := ""
	for _, path := range p.c.Paths {
		info, err := os.Stat(path)
		ext := strings.ToLower(filepath.Ext(path))
		if (err != nil || !info.IsDir()) && ext != ".yaml" && ext != ".yml" {
			p.logs = append(p.logs, path)
			continue
		}
		if rigPath != "" {
			return badInput(fmt.Errorf("%s and %s: expected one rig", rigPath, path))
		}
		rigPath = path
	}
	if len(p.c.Paths) == 0 && !(p.c.Plan && p.c.Cell != "") {
		rigPath = "."
	}
	if rigPath == "" {
		return nil
	}
	file, err := stageFlags{Rig: rigPath, Set: p.c.Set, Units: p.c.Units}.open()
	p.file = file
	return err
}

// readRig fits the rig, for the cell it names or describes.
func (p *proof) readRig() error {
	if p.file == nil {
		for flag, set := range map[string]bool{"--write": p.c.Write, "--remember": p.c.Remember, "--set": len(p.c.Set) > 0} {
			if set {
				return badInput(fmt.Errorf("%s needs a rig: name its folder beside the log", flag))
			}
		}
		return nil
	}
	if p.c.Write && len(p.c.Set) > 0 {
		return badInput(errors.New("--write and --set: what is only tried cannot be written"))
	}
	res, err := fit.Run(p.file.Rig)
	if err != nil {
		return placed(p.file, err)
	}
	p.fitted, p.shelf, p.known = res, shelf.Of(p.file.Path), shelf.Known(p.file.Rig, res)
	return nil
}

// know puts what the flags say over what the rig says.
func (p *proof) know() error {
	c := p.c
	if c.Cell != "" {
		p.known.Cell, p.known.Kind = c.Cell, nil
	}
	if c.Groups != 0 {
		p.known.Groups = c.Groups
	}
	if p.file != nil && c.Strings > 0 {
		p.known.RatedAh *= float64(max(1, p.file.Rig.Bank.Strings)) / float64(c.Strings)
	}
	for _, f := range []struct {
		flag, text, eg string
		dim            *quantity.Dimension
		to             *float64
	}{{"--low", c.Low, "3.0 V", quantity.Volts, &p.known.LowV}, {"--high", c.High, "4.2 V", quantity.Volts, &p.known.HighV}, {"--rated", c.Rated, "94 Ah", quantity.AmpereHours, &p.known.RatedAh}} {
		v, err := numberOf(f.dim, f.text)
		if err != nil {
			return badInput(fmt.Errorf("%s %q: %w; example: %s %q", f.flag, f.text, err, f.flag, f.eg))
		}
		if f.text != "" {
			*f.to = v
		}
	}
	return nil
}

// readLayout reads the layout kept with the rig and puts the flags over it.
func (p *proof) readLayout() error {
	given, err := p.c.layoutFlags.options()
	if err != nil {
		return badInput(err)
	}
	if p.file != nil {
		if p.layout, err = p.shelf.Layout(); err != nil {
			return badInput(err)
		}
	}
	p.layout = shelf.Over(p.layout, given)
	return nil
}

func (f layoutFlags) options() (benchlog.Options, error) {
	o := benchlog.Options{Separator: f.Separator, Decimal: f.Decimal, Time: f.Time, Sign: f.Sign}
	for _, text := range f.Column {
		name, role, ok := strings.Cut(text, "=")
		if !ok || strings.TrimSpace(name) == "" || strings.TrimSpace(role) == "" {
			return o, fmt.Errorf("--column %q: expected NAME=ROLE; example: --column 3='current mA'", text)
		}
		if o.Columns == nil {
			o.Columns = map[string]string{}
		}
		o.Columns[strings.TrimSpace(name)] = strings.TrimSpace(role)
	}
	return o, nil
}

// choose takes the newest log kept with the rig when none is named.
func (p *proof) choose() error {
	if p.file == nil {
		return nil
	}
	kept, err := p.shelf.Logs()
	if err != nil {
		return badInput(err)
	}
	for _, log := range kept {
		p.kept = append(p.kept, log.Name)
	}
	if len(p.logs) == 0 && len(kept) > 0 {
		p.logs = []string{p.shelf.Path(kept[0].Name)}
	}
	return nil
}
