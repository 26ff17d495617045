package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ampstead/choose"
	"ampstead/picture"
	"ampstead/rig"
	"ampstead/sheet"
)

type chooseCommand struct {
	stageFlags `embed:""`
	Years      int    `default:"3" help:"Weather years that each battery travels."`
	Seed       uint64 `help:"Another seed draws other weather, and another search."`
	Ask        string `placeholder:"NAME" help:"Print what to ask and measure at the seller's of one battery, and nothing else."`
	NoWindow   bool   `help:"Leave out the daily windows."`
	Draw       string `placeholder:"FOLDER" help:"Also write the pictures as SVG files into this folder."`

	Search  bool   `help:"Also search whole rigs: battery, number of modules, panels, tilt, heater, insulation, window."`
	Designs int    `default:"1000" help:"With --search: how many rigs to try."`
	Budget  string `placeholder:"PRICE" help:"With --search: at most this, such as '2500 EUR' or 2500."`
	Mass    string `placeholder:"MASS" help:"With --search: at most this, such as '80 kg' or '180 lb'."`
	Short   string `placeholder:"HOURS" help:"At most so many hours short a year, such as '20 h' or 20; also what ends a battery's life by function."`
	Life    string `placeholder:"YEARS" help:"With --search: at least so many years of life, such as 10."`
	Resume  string `placeholder:"FILE" help:"Go on with the search kept in FILE. Without it a search keeps itself in search.json in the rig's folder."`
	Apply   string `placeholder:"NAME" help:"With --search: turn one design of the front, by its name or number, into a rig file: --out or --write."`
	Out     string `short:"o" placeholder:"FILE" help:"With --apply: write it as this new file."`
	Write   bool   `help:"With --apply: write it in place of the rig file; comments stay."`
}

// Run compares the batteries of the rig file and prints what came of it.
func (c *chooseCommand) Run(r *run) error {
	file, err := c.open()
	if err != nil {
		return err
	}
	o, err := c.options(file)
	if err != nil {
		return badInput(err)
	}
	res, err := c.compare(r, file, o)
	if err != nil {
		return err
	}
	if res.Search != nil && res.Search.Stopped {
		return c.stopped(r, file, res)
	}
	if err := c.draw(file, res); err != nil {
		return err
	}
	if c.Ask != "" {
		return c.ask(r, file, res)
	}
	made, err := c.apply(file, res)
	if err != nil {
		return err
	}
	if c.JSON {
		return c.json(r, file, res, made)
	}
	t := &chooseText{w: c.out(r, file.Rig), res: res, sys: system(file.Rig)}
	t.print(file)
	if made != nil {
		fmt.Fprintf(r.Stdout, "\n%s\n", wrap(made.words(), 0))
	}
	return stopIfAny(res.Findings)
}

// json prints the comparison, and what was made of a design.
func (c *chooseCommand) json(r *run, file *rig.File, res *choose.Result, made *applied) error {
	out := newReport("choose", file, res.Findings, res.Uses)
	if out.Figures = res.Figures; out.Figures == nil {
		out.Figures = []string{}
	}
	out.Choose = struct {
		*choose.Result
		Applied *applied `json:"applied,omitempty"`
	}{res, made}
	if err := writeJSON(r.Stdout, out); err != nil {
		return err
	}
	return stopIfAny(res.Findings)
}

// options reads the flags.
func (c *chooseCommand) options(file *rig.File) (choose.Options, error) {
	o := choose.Options{Years: c.Years, Seed: c.Seed, NoWindow: c.NoWindow || c.Ask != "", Search: c.Search || c.Resume != "", Designs: c.Designs}
	if err := errors.Join(c.check(o.Search), c.known(file.Rig), c.free()); err != nil {
		return o, err
	}
	wishes := choose.Wishes{Budget: c.Budget, Mass: c.Mass, Short: c.Short, Life: c.Life}
	if err := wishes.Into(&o, file.Rig); err != nil {
		in := inputOf(err)
		return o, fmt.Errorf("--%s: %s; expected %s; example: --%s %q", in.Path, in.Message, in.Expected, in.Path, in.Example)
	}
	if c.Resume != "" {
		state, err := os.ReadFile(c.Resume)
		if err != nil {
			return o, fmt.Errorf("--resume: %w", err)
		}
		o.Resume = state
	}
	if o.Search {
		o.Save = func(state []byte) error { return writeWhole(c.kept(file), state) }
	}
	return o, nil
}

// check refuses flags that say nothing together.
func (c *chooseCommand) check(search bool) error {
	only := c.Budget + c.Mass + c.Life + c.Apply
	switch {
	case c.Years < 1:
		return fmt.Errorf("--years %d: expected one or more", c.Years)
	case c.Designs < 1:
		return fmt.Errorf("--designs %d: expected one or more", c.Designs)
	case only != "" && !search:
		return errors.New("--budget, --mass, --life and --apply are for a search: add --search, or --resume FILE")
	case (c.Out != "" || c.Write) && c.Apply == "":
		return errors.New("--out and --write say where a design goes: name it by --apply NAME")
	case c.Apply != "" && c.Out == "" && !c.Write:
		return errors.New("--apply needs --out FILE for a new rig file, or --write for this one")
	case c.Out != "" && c.Write:
		return errors.New("--out and --write: give one of them")
	case c.Write && len(c.Set) > 0:
		return errors.New("--write with --set would write what was only to be tried: put it into the file first, or use --out")
	case c.Ask != "" && (search || c.JSON):
		return errors.New("--ask prints one list: give it without --search and --json, which has all lists")
	}
	return nil
}

// kept is where a search keeps itself.
func (c *chooseCommand) kept(file *rig.File) string {
	if c.Resume != "" {
		return c.Resume
	}
	return filepath.Join(filepath.Dir(file.Path), "search.json")
}

// compare runs it with a progress line.
func (c *chooseCommand) compare(r *run, file *rig.File, o choose.Options) (*choose.Result, error) {
	what := "batteries"
	if o.Search {
		what = "batteries and rigs"
	}
	bar := newProgress(r.Stderr, what)
	o.Progress = bar.tell
	res, err := choose.Run(r.ctx, file.Rig, o)
	bar.end()
	if err != nil {
		if in := inputOf(err); in != nil && in.Path == "resume" {
			return nil, badInput(fmt.Errorf("--resume %s: %s; expected %s", c.Resume, in.Message, in.Expected))
		}
		return nil, placed(file, err)
	}
	return res, nil
}

// stopped shows what an interrupted search found by then, and how to go on.
func (c *chooseCommand) stopped(r *run, file *rig.File, res *choose.Result) error {
	if !c.JSON {
		t := &chooseText{w: c.out(r, file.Rig), res: res, sys: system(file.Rig)}
		t.front()
	}
	fmt.Fprintf(r.Stderr, "ampstead: %d of %d rigs were tried and are kept in %s; go on with the same options and --resume %s\n", res.Search.Designs, res.Search.Asked, c.kept(file), c.kept(file))
	return r.ctx.Err()
}

// draw writes the pictures.
func (c *chooseCommand) draw(file *rig.File, res *choose.Result) error {
	if c.Draw == "" {
		return nil
	}
	files := map[string][]byte{}
	for name, width := range map[string]int{"": picture.Desk, "-phone": picture.Phone} {
		o := picture.Options{Width: width, Units: system(file.Rig), Standalone: true}
		files["batteries"+name+".svg"] = []byte(picture.Compare(res, o))
		files["lives"+name+".svg"] = []byte(picture.Lives(res, o))
		if len(res.Window) > 0 {
			files["windows"+name+".svg"] = []byte(picture.Windows(res, o))
		}
		if len(res.Front) > 0 {
			files["front"+name+".svg"] = []byte(picture.Front(res, picture.FrontView{Picked: c.Apply}, o))
		}
	}
	return writeFolder(c.Draw, files)
}

// known refuses a list of a battery that is not in the file.
func (c *chooseCommand) known(r *rig.Rig) error {
	var names []string
	for i := range r.Candidates {
		names = append(names, r.Candidates[i].Name)
	}
	switch {
	case c.Ask == "" || slices.Contains(names, c.Ask):
		return nil
	case len(names) == 0:
		return errors.New("--ask: no battery stands under candidates in the file")
	}
	return fmt.Errorf("--ask: there is no battery %q; expected one of: %s", c.Ask, strings.Join(names, "; "))
}

// free refuses a new file that is there already, before anything is reckoned.
func (c *chooseCommand) free() error {
	if _, err := os.Lstat(c.Out); c.Out != "" && err == nil {
		return fmt.Errorf("--out: %s is there already", c.Out)
	}
	return nil
}

// ask prints one list.
func (c *chooseCommand) ask(r *run, file *rig.File, res *choose.Result) error {
	for _, a := range sheet.AskLists(res) {
		if a.Battery == c.Ask {
			printAsk(r.Stdout, file, &a)
		}
	}
	return nil
}
