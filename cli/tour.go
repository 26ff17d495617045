package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"ampstead/examples"
	"ampstead/finding"
	"ampstead/rig"
	"ampstead/wire"
)

type tourCommand struct {
	serveFlags `embed:""`
	Folder     string `default:"ampstead-tour" help:"New folder for the example rigs."`
	NoServe    bool   `help:"Unpack and compute, but do not serve."`
}

// Run unpacks the examples in the order of their story, computes each and serves
// the first draft.
func (c *tourCommand) Run(r *run) error {
	for _, name := range []string{"curlew-draft", "curlew", "dipper"} {
		if err := unpack(name, filepath.Join(c.Folder, name)); err != nil {
			return badInput(err)
		}
		if err := c.seed(r, name); err != nil {
			return err
		}
		if err := c.summary(r, name); err != nil {
			return err
		}
	}
	fmt.Fprintln(r.Stdout)
	if c.NoServe {
		return nil
	}
	return c.serve(r, served{filepath.Join(c.Folder, "curlew-draft"), c.Folder})
}

// seed begins the logbook of an example that has one.
func (c *tourCommand) seed(r *run, name string) error {
	file, err := rig.Open(filepath.Join(c.Folder, name))
	if err != nil {
		return badInput(err)
	}
	return seedLog(r, name, file)
}

// summary counts what fit and wire find, each finding once. The year on the road
// is left to its page, which shows how far it has come.
func (c *tourCommand) summary(r *run, name string) error {
	folder := filepath.Join(c.Folder, name)
	file, fitted, err := stageFlags{Rig: folder}.compute()
	if err != nil {
		return err
	}
	wired, err := wire.Run(file.Rig, fitted, wire.Options{})
	if err != nil {
		return placed(file, err)
	}
	found := finding.Merge(fitted.Findings, wired.Findings)
	_, err = fmt.Fprintf(r.Stdout, "%-34s %s: %d stop, %d care, %d note\n", folder, file.Rig.About.Name,
		finding.Count(found, finding.Stop), finding.Count(found, finding.Care), finding.Count(found, finding.Note))
	return err
}

// unpack writes an example's rig file, keeping one that is already there.
func unpack(name, folder string) error {
	text, err := examples.Read(name)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	err = rig.Create(filepath.Join(folder, rig.FileName), text)
	if errors.Is(err, os.ErrExist) {
		return nil // a person may have edited it
	}
	return err
}
