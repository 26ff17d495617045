package cli

import (
	"errors"
	"fmt"
	"slices"

	"ampstead/drill"
	"ampstead/picture"
	"ampstead/rig"
	"ampstead/sheet"
)

type drillCommand struct {
	stageFlags `embed:""`
	NoPairs    bool   `help:"Single faults only."`
	List       bool   `help:"List the faults and the scenes, by the names that --fault and --scene take, and play none."`
	Fault      string `placeholder:"NAME" help:"Play one fault, in the scene named by --scene."`
	Scene      string `placeholder:"NAME" help:"Play one scene; without --fault, with nothing wrong."`
	Second     string `placeholder:"NAME" help:"With --fault: another fault at once."`
	Trace      string `placeholder:"FILE" help:"With --scene: also write the run as CSV, - is standard output."`
	Draw       string `placeholder:"FOLDER" help:"Also write the pictures as SVG files into this folder."`
}

// Run plays the faults and prints what came of them.
func (c *drillCommand) Run(r *run) error {
	if err := c.check(); err != nil {
		return badInput(err)
	}
	file, err := c.open()
	if err != nil {
		return err
	}
	switch {
	case c.List:
		return c.list(r, file)
	case c.Scene != "":
		return c.one(r, file)
	}
	return c.all(r, file)
}

// check refuses flags that say nothing together.
func (c *drillCommand) check() error {
	one := c.Fault + c.Second + c.Scene + c.Trace
	switch {
	case c.List && (one != "" || c.NoPairs || c.Draw != ""):
		return errors.New("--list plays nothing: give it alone")
	case c.Fault != "" && c.Scene == "":
		return errors.New("--fault needs --scene NAME: ampstead drill --list names the scenes")
	case c.Second != "" && c.Fault == "":
		return errors.New("--second needs --fault NAME, the other fault of the pair")
	case c.Second != "" && c.Second == c.Fault:
		return errors.New("--second names the same fault as --fault")
	case c.Trace != "" && c.Scene == "":
		return errors.New("--trace writes one run: name it by --scene NAME, and --fault NAME")
	case c.Trace == "-" && c.JSON:
		return errors.New("--trace - and --json both write to standard output")
	case c.Scene != "" && c.NoPairs:
		return errors.New("--no-pairs is for the whole drill, not for one run")
	}
	return nil
}

func (c *drillCommand) all(r *run, file *rig.File) error {
	bar := newProgress(r.Stderr, "runs")
	res, err := drill.Run(r.ctx, file.Rig, drill.Options{NoPairs: c.NoPairs, Progress: bar.tell})
	bar.end()
	if err != nil {
		return placed(file, err)
	}
	if err := c.drawAll(file, res); err != nil {
		return err
	}
	if c.JSON {
		out := newReport("drill", file, res.Findings, nil)
		out.Drill = res
		if out.Figures = res.Figures; out.Figures == nil {
			out.Figures = []string{}
		}
		if err := writeJSON(r.Stdout, out); err != nil {
			return err
		}
		return stopIfAny(res.Findings)
	}
	t := &drillText{w: c.out(r, file.Rig), res: res, sys: system(file.Rig)}
	t.print(file)
	return stopIfAny(res.Findings)
}

// drawAll writes the matrix, for paper and for a phone, and the strip of every
// run that comes to harm or near it.
func (c *drillCommand) drawAll(file *rig.File, res *drill.Result) error {
	if c.Draw == "" {
		return nil
	}
	o := picture.Options{Width: picture.Desk, Units: system(file.Rig), Standalone: true}
	files := map[string][]byte{"matrix.svg": []byte(picture.Matrix(res, res.Rows(), o))}
	o.Width = picture.Phone
	files["matrix-phone.svg"] = []byte(picture.Matrix(res, res.Rows(), o))
	o.Width = picture.Desk
	n := 0
	for _, row := range res.Rows() {
		if row.Worst == nil || row.Worst.Outcome != drill.Harm && row.Worst.Outcome != drill.Near {
			continue
		}
		s, err := drill.Play(file.Rig, row.Worst.Scene, row.Fault.Name)
		if err != nil {
			return err
		}
		n++
		files[fmt.Sprintf("strip-%02d.svg", n)] = []byte(picture.Strip(s, o))
	}
	return writeFolder(c.Draw, files)
}

// one plays one run.
func (c *drillCommand) one(r *run, file *rig.File) error {
	faults := slices.DeleteFunc([]string{c.Fault, c.Second}, func(name string) bool { return name == "" })
	s, err := drill.Play(file.Rig, c.Scene, faults...)
	if err != nil {
		return c.flagged(file, err)
	}
	if c.Draw != "" {
		o := picture.Options{Width: picture.Desk, Units: system(file.Rig), Standalone: true}
		if err := writeFolder(c.Draw, map[string][]byte{"strip.svg": []byte(picture.Strip(s, o))}); err != nil {
			return err
		}
	}
	switch c.Trace {
	case "":
	case "-":
		_, err := r.Stdout.Write(traceCSV(s))
		return err
	default:
		if err := writeWhole(c.Trace, traceCSV(s)); err != nil {
			return badInput(err)
		}
	}
	if c.JSON {
		out := newReport("drill", file, nil, nil)
		out.Drill = struct {
			Run *drill.Outcome `json:"run"`
		}{&s.Out}
		return writeJSON(r.Stdout, out)
	}
	printRun(r.Stdout, file, s)
	return nil
}

// list names the faults and scenes.
func (c *drillCommand) list(r *run, file *rig.File) error {
	scenes, faults, err := drill.Names(file.Rig)
	if err != nil {
		return placed(file, err)
	}
	if c.JSON {
		out := newReport("drill", file, nil, nil)
		out.Drill = struct {
			Scenes []drill.Scene `json:"scenes"`
			Faults []drill.Fault `json:"faults"`
		}{scenes, faults}
		return writeJSON(r.Stdout, out)
	}
	printNames(r.Stdout, scenes, faults)
	return nil
}

// flagged says of a name that is not known which flag gave it.
func (c *drillCommand) flagged(file *rig.File, err error) error {
	in, flag := inputOf(err), ""
	switch {
	case in == nil:
		return err
	case in.Path == "scene":
		flag = "scene"
	case in.Path == "fault" && c.Second != "" && !c.knows(file, c.Second):
		flag = "second"
	case in.Path == "fault":
		flag = "fault"
	default:
		return placed(file, err)
	}
	text := fmt.Sprintf("--%s: %s", flag, in.Message)
	if in.Expected != "" {
		text += "; expected " + in.Expected
	}
	return badInput(errors.New(text + "; ampstead drill --list names them all"))
}

func (c *drillCommand) knows(file *rig.File, fault string) bool {
	_, faults, err := drill.Names(file.Rig)
	return err == nil && slices.ContainsFunc(faults, func(f drill.Fault) bool { return f.Name == fault })
}

// strips of the runs that the book shows.
func bookStrips(r *run, file *rig.File, res *drill.Result) ([]drill.Strip, error) {
	return sheet.Strips(r.ctx, res, func(scene string, faults ...string) (*drill.Strip, error) {
		return drill.Play(file.Rig, scene, faults...)
	})
}
