package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/picture"
	"ampstead/quantity"
	"ampstead/rig"
)

type keepImport struct {
	File      string `arg:"" help:"A table of readings; - is standard input. Columns: taken, group 1 to group n, and bank, current, temperature, rested, counter, meter, note as there are."`
	Rig       string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	bookFlags `embed:""`
	JSON      bool `help:"Print what was taken in as JSON."`
}

// Run takes in a table, all of it or nothing.
func (c *keepImport) Run(r *run) error {
	return c.with(r, stageFlags{Rig: c.Rig, JSON: c.JSON}, false, func(s *session) error {
		in, err := r.input(c.File)
		if err != nil {
			return badInput(err)
		}
		defer in.Close()
		rows, err := logbook.ReadTable(in, s.now.Location())
		if err != nil {
			return tableProblem(c.File, err)
		}
		for i, row := range rows {
			if err := logbook.Fits(s.file.Rig, row); err != nil {
				return badInput(fmt.Errorf("%s: reading %d: %w; nothing was stored", c.File, i+1, err))
			}
		}
		done, err := logbook.Import(s.ctx, s.book, rows)
		if err != nil {
			return bookError(fmt.Errorf("%s: %w", c.File, err))
		}
		if c.JSON {
			return s.report(done)
		}
		fmt.Fprintf(r.Stdout, "%d new, %d were there already, %d corrections.\n", done.Fresh, done.Known, done.Changes)
		return nil
	})
}

// input opens a file, or standard input for a dash.
func (r *run) input(path string) (io.ReadCloser, error) {
	if path == "-" {
		return io.NopCloser(r.Stdin), nil
	}
	return os.Open(path)
}

// tableProblem gives a mistake in a table its file.
func tableProblem(path string, err error) error {
	var at *logbook.TableError
	if !errors.As(err, &at) {
		return badInput(err)
	}
	return badInput(&logProblem{File: path, Line: at.Line, Column: at.Column, Message: at.Message, Expected: at.Expected, Example: at.Example})
}

type keepExport struct {
	Rig       string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	CSV       bool   `name:"csv" help:"The readings as a table; the default."`
	JSON      bool   `help:"Readings, meters and what was done as JSON."`
	Out       string `short:"o" placeholder:"FILE" help:"Where to write it; the default is standard output."`
	bookFlags `embed:""`
}

// Run writes out everything.
func (c *keepExport) Run(r *run) error {
	if c.CSV && c.JSON {
		return badInput(errors.New("--csv and --json: one of them"))
	}
	return c.with(r, stageFlags{Rig: c.Rig, JSON: c.JSON}, true, func(s *session) error {
		whole, err := logbook.ReadWhole(s.ctx, s.book, s.file.Rig.About.Name)
		if err != nil {
			return bookError(err)
		}
		var out bytes.Buffer
		if c.JSON {
			err = writeJSON(&out, whole)
		} else {
			err = whole.WriteTable(&out)
		}
		if err != nil {
			return err
		}
		return r.output(c.Out, out.Bytes())
	})
}

// output writes to a file, or standard output for none or a dash.
func (r *run) output(path string, data []byte) error {
	if path == "" || path == "-" {
		_, err := r.Stdout.Write(data)
		return err
	}
	return badInput(writeWhole(path, data))
}

type keepBackup struct {
	File      string `arg:"" help:"A new file for the copy."`
	Rig       string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	bookFlags `embed:""`
}

// Run copies the logbook.
func (c *keepBackup) Run(r *run) error {
	return c.with(r, stageFlags{Rig: c.Rig}, true, func(s *session) error {
		if !logbook.There(s.file, c.Store) {
			return badInput(errors.New("there is no logbook to copy yet"))
		}
		book, err := logbook.Open(s.ctx, s.file, c.Store, false) // one that only reads cannot copy
		if err != nil {
			return bookError(err)
		}
		defer book.Close()
		err = book.Backup(s.ctx, c.File)
		if errors.Is(err, fs.ErrExist) {
			return badInput(fmt.Errorf("%s is there already; give a new name, nothing was written", c.File))
		}
		if err != nil {
			return bookError(err)
		}
		fmt.Fprintf(r.Stdout, "%s holds the whole logbook, read through after writing. Put in a rig's folder as logbook.sqlite it is its logbook.\n", c.File)
		return nil
	})
}

type keepCalendar struct {
	Args      []string `arg:"" optional:"" name:"file-and-rig" help:"The .ics file to write, standard output without one; and the rig."`
	bookFlags `embed:""`
}

// Run writes the calendar.
func (c *keepCalendar) Run(r *run) error {
	path, out := ".", ""
	for _, arg := range c.Args {
		if arg == "-" || strings.HasSuffix(strings.ToLower(arg), ".ics") {
			out = arg
		} else {
			path = arg
		}
	}
	return c.with(r, stageFlags{Rig: path}, true, func(s *session) error {
		_, res, err := s.keep(false)
		if err != nil {
			return err
		}
		if err := r.output(out, keep.Calendar(res, s.file.Rig, s.now)); err != nil {
			return err
		}
		if out != "" && out != "-" {
			fmt.Fprintf(r.Stdout, "%s is written; open it with a calendar.\n", out)
		}
		return nil
	})
}

type keepAccept struct {
	Rig       string `arg:"" optional:"" default:"." help:"The rig, a folder or file."`
	bookFlags `embed:""`
	Write     bool `help:"Put the values into rig.yaml; comments stay."`
	JSON      bool `help:"Print the changes as JSON."`
}

// Run shows what the log would change in the design and, when asked to, does it.
func (c *keepAccept) Run(r *run) error {
	return c.with(r, stageFlags{Rig: c.Rig, JSON: c.JSON}, true, func(s *session) error {
		_, res, err := s.keep(false)
		if err != nil {
			return err
		}
		if c.Write && len(res.Back) > 0 {
			if err := accept(s.file, res.Back); err != nil {
				return badInput(err)
			}
		}
		if c.JSON {
			return s.report(struct {
				Back    []keep.Change `json:"back_into_design"`
				Written bool          `json:"written"`
			}{append([]keep.Change{}, res.Back...), c.Write && len(res.Back) > 0})
		}
		if len(res.Back) == 0 {
			fmt.Fprintln(r.Stdout, "The log tells nothing that differs from the rig file.")
			return nil
		}
		title := "--write WOULD PUT INTO THE RIG"
		if c.Write {
			title = "WRITTEN INTO " + s.file.Path
		}
		fmt.Fprintln(r.Stdout, title)
		printBack(r.Stdout, res.Back)
		return nil
	})
}

func accept(file *rig.File, back []keep.Change) error {
	var wanted []rig.Change
	for _, b := range back {
		wanted = append(wanted, rig.Change{Path: b.Path, Value: b.Value})
	}
	next, err := file.SetAll(wanted...)
	if err != nil {
		return err
	}
	return next.Save()
}

// drawKeep writes the pictures of the logbook.
func drawKeep(folder string, res *keep.Result, sys quantity.System) error {
	if folder == "" {
		return nil
	}
	files := map[string][]byte{}
	for name, of := range map[string]func(*keep.Result, picture.Options) string{"drift": picture.Drift, "bleed": picture.Bleed, "capacity": picture.CapacityTrend, "years": picture.YearsAhead} {
		if name == "years" && res.Life == nil {
			continue
		}
		for suffix, width := range map[string]int{"": picture.Desk, "-phone": picture.Phone} {
			files[name+suffix+".svg"] = []byte(of(res, picture.Options{Width: width, Units: sys, Standalone: true}))
		}
	}
	return writeFolder(folder, files)
}
