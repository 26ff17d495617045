package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ampstead/finding"
	"ampstead/rig"
	"ampstead/start"
)

// newCommand takes the answer to every question of package start as a flag of
// the same name.
type newCommand struct {
	Folder string `arg:"" help:"Folder for the new rig.yaml."`

	Name     string `help:"What you call it."`
	Units    string `help:"metric or us."`
	Winter   string `help:"Where you spend the coldest months: a town or weather station, \"37.2 °N 7.4 °W\", or a word such as mid-europe."`
	Summer   string `help:"The warm half of the year, likewise; or same."`
	Coldest  string `help:"Where the battery lives: heated, cold, or how cold it gets, such as \"--coldest=-4 °C\"."`
	Battery  string `help:"module-flat, module-round, module-pouch, iron, lead-wet or lead-sealed."`
	Groups   string `help:"Groups in series, such as 12, or the voltage on the label, such as \"44 V\"."`
	Capacity string `help:"What one module holds when new, such as \"94 Ah\" or \"4.1 kWh\"."`
	Modules  string `help:"Such modules side by side."`
	Charge   string `help:"What charges it: solar, alternator, mains, with commas between, or none."`
	Panels   string `help:"Watts on the roof, such as \"660 W\" or \"2 x 330 W\"."`
	Chargers string `help:"What the chargers are set for today: lead-acid, lithium or own."`
	Inverter string `help:"Watts of the inverter, or none."`
	Loads    string `help:"What runs, with commas between: lights, fridge, kettle, \"sewing machine 90 W 2 h\", ..."`
	Guards   string `help:"What watches over the cells: meter, relay, board, frost, pad, or none."`
	Fuse     string `help:"Amperes of the main fuse, or none."`
}

// Run writes the file; without any flag it asks. A flag that is left out counts
// as "I do not know".
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
	out, err := start.Finish(answers, path, time.Now().Year())
	if err != nil {
		return badInput(err)
	}
	if err := os.MkdirAll(c.Folder, 0o755); err != nil {
		return badInput(err)
	}
	if err := rig.Create(path, out.Text); err != nil {
		return badInput(err)
	}
	c.report(r.Stdout, path, out)
	return nil
}

func (c *newCommand) answers() start.Answers {
	given := start.Answers{"name": c.Name, "units": c.Units, "winter": c.Winter, "summer": c.Summer, "coldest": c.Coldest,
		"battery": c.Battery, "groups": c.Groups, "capacity": c.Capacity, "modules": c.Modules, "charge": c.Charge, "panels": c.Panels,
		"chargers": c.Chargers, "inverter": c.Inverter, "loads": c.Loads, "guards": c.Guards, "fuse": c.Fuse}
	for key, answer := range given {
		if answer == "" {
			delete(given, key)
		}
	}
	return given
}

// report says what was written, what was found and what to do next.
func (c *newCommand) report(w io.Writer, path string, out *start.Outcome) {
	fmt.Fprintf(w, "%s is written: %d stop, %d care, %d note.\n", path, finding.Count(out.Findings, finding.Stop),
		finding.Count(out.Findings, finding.Care), finding.Count(out.Findings, finding.Note))
	if len(out.Open) > 0 {
		fmt.Fprintf(w, "\nNOT KNOWN YET\n")
		for _, q := range out.Open {
			printWrapped(w, "  "+q.Short+": ", "    ", q.Unknown)
		}
	}
	fmt.Fprintf(w, "\nWHAT TO DO NEXT\n")
	for i, step := range out.Next {
		printWrapped(w, fmt.Sprintf("%3d. ", i+1), "     ", step.Do+" "+step.Why)
		fmt.Fprintf(w, "     %s\n", c.command(path, step.Stage))
	}
	fmt.Fprintf(w, "\nOr all of it in a browser: ampstead serve %s\n", quoted(c.Folder))
	printCautions(w)
}

func (c *newCommand) command(path, stage string) string {
	if stage == start.FileStage {
		return "open " + quoted(path) + " in an editor, or ampstead serve " + quoted(c.Folder)
	}
	return "ampstead " + stage + " " + quoted(c.Folder)
}

// quoted puts a path with spaces in quotes, as a shell wants it.
func quoted(path string) string {
	if strings.ContainsAny(path, " '\"$&;()*?<>|\\") {
		return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
	}
	return path
}
