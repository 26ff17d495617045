package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"ampstead/finding"
	"ampstead/history"
	"ampstead/rig"
)

type historyCommand struct {
	Rig  string `arg:"" optional:"" default:"." help:"Folder that holds rig.yaml, or the file."`
	JSON bool   `help:"Print the result as JSON (docs/json.md)."`
	Undo bool   `xor:"step" help:"Put back the version before the last edit; once more goes further back."`
	Redo bool   `xor:"step" help:"Do again what was undone last, as long as nothing was written since."`
	Back int    `xor:"step" placeholder:"N" help:"Put version N back."`
	Last int    `default:"20" placeholder:"N" help:"List so many of the newest versions; 0 lists all."`
}

// Run lists the versions of a rig file, or puts one of them back.
func (c *historyCommand) Run(r *run) error {
	path, seen, err := c.read()
	if err != nil {
		return badInput(err)
	}
	done, err := c.step(path, seen)
	if err != nil {
		return badInput(err)
	}
	most := c.Last
	if most == 0 {
		most = -1
	}
	story, err := rig.StoryOf(path, 0, most)
	if err != nil {
		return badInput(err)
	}
	if c.JSON {
		return writeJSON(r.Stdout, c.report(path, story, done))
	}
	t := &historyText{w: r.Stdout, path: path, story: story}
	t.print(done)
	return nil
}

// read returns the rig file and what it holds, which need not be a rig.
func (c *historyCommand) read() (path string, seen []byte, err error) {
	path = c.Rig
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		path = filepath.Join(path, rig.FileName)
	}
	if c.Last < 0 || c.Back < 0 {
		return "", nil, errors.New("--last and --back take a number that is not negative")
	}
	if seen, err = os.ReadFile(path); errors.Is(err, os.ErrNotExist) {
		return "", nil, fmt.Errorf("there is no rig file %s: %w", path, os.ErrNotExist)
	}
	return path, seen, err
}

// stepped is what was put back.
type stepped struct {
	Kind    history.Kind  `json:"kind"`
	Number  int           `json:"number"`
	Changes []rig.Changed `json:"changes"`
}

// step puts a version back; nil when none was asked for.
func (c *historyCommand) step(path string, seen []byte) (*stepped, error) {
	var back *rig.Return
	var err error
	kind := history.Back
	switch {
	case c.Undo:
		kind = history.Undo
		back, err = rig.UndoOf(path, seen)
	case c.Redo:
		kind = history.Redo
		back, err = rig.RedoOf(path, seen)
	case c.Back > 0:
		back, err = rig.BackTo(path, seen, c.Back)
	default:
		return nil, nil
	}
	var several rig.Errors
	if errors.As(err, &several) { // of that version, not of the file
		return nil, errors.New(err.Error())
	}
	if err != nil {
		return nil, err
	}
	if err := back.Save(); err != nil {
		return nil, err
	}
	done := &stepped{Kind: kind, Number: back.Number, Changes: []rig.Changed{}}
	if before, err := rig.Parse(path, seen); err == nil {
		done.Changes = append(done.Changes, rig.Changes(before, back.File)...)
	}
	return done, nil
}

// historyJSON is the command's own object.
type historyJSON struct {
	Folder   string        `json:"folder"`
	Versions []rig.Event   `json:"versions"`
	Older    int           `json:"older"`
	Undo     int           `json:"undo"`
	Redo     int           `json:"redo"`
	Strange  []strangeJSON `json:"strange"`
	Done     *stepped      `json:"done,omitempty"`
}

type strangeJSON struct {
	Name string `json:"name"`
	Why  string `json:"why"`
}

func (c *historyCommand) report(path string, story *rig.Story, done *stepped) report {
	out := report{Stage: "history", Rig: rigName{File: path}, Findings: []finding.Finding{}, Figures: []string{}}
	if file, err := rig.Open(path); err == nil {
		out.Rig.Name = file.Rig.About.Name
	}
	own := historyJSON{Folder: history.Folder(path), Versions: story.Events, Older: story.Older, Undo: story.Undo, Redo: story.Redo, Strange: []strangeJSON{}, Done: done}
	if own.Versions == nil {
		own.Versions = []rig.Event{}
	}
	for _, s := range story.Strange {
		own.Strange = append(own.Strange, strangeJSON(s))
	}
	out.History = own
	return out
}
