package rig

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"ampstead/history"
)

// What there may be none of.
var (
	ErrNoUndo  = errors.New("there is nothing to undo: no earlier version is kept that can be read as a rig")
	ErrNoRedo  = errors.New("there is nothing to do again: nothing was undone since the last edit")
	ErrPresent = errors.New("the file holds that version already")
)

// Return is a kept version that can take the place of what the file holds now.
type Return struct {
	File   *File // what the file would be
	Number int   // of the version

	kind history.Kind
}

// UndoOf finds the version that undo puts back: the one before the last edit, and
// after an undo the one before that. Seen is what the file holds. Versions that
// cannot be read as a rig are passed over. Errors: ErrNoUndo; whatever the disk says.
func UndoOf(path string, seen []byte) (*Return, error) {
	trail, err := trailFrom(path, seen)
	if err != nil {
		return nil, err
	}
	return nearestOf(path, seen, history.Undo, trail.Undo, ErrNoUndo)
}

// RedoOf finds the version that redo puts back: the edit that was undone last, as
// long as nothing was written since. Errors: ErrNoRedo; whatever the disk says.
func RedoOf(path string, seen []byte) (*Return, error) {
	trail, err := trailFrom(path, seen)
	if err != nil {
		return nil, err
	}
	return nearestOf(path, seen, history.Redo, trail.Redo, ErrNoRedo)
}

// BackTo finds the version of that number. Errors: ErrPresent; history.ErrUnknown;
// history.ErrDamaged; Errors when it cannot be read as a rig.
func BackTo(path string, seen []byte, number int) (*Return, error) {
	path = filePath(path)
	text, err := history.Text(path, number)
	if err != nil {
		return nil, err
	}
	if bytes.Equal(text, seen) {
		return nil, ErrPresent
	}
	return returnTo(path, seen, history.Back, number, text)
}

// Save puts the version back, which is itself kept as a new one. Errors: as those of
// File.Save.
func (r *Return) Save() error {
	return r.File.save(history.Mark{Kind: r.kind, Of: r.Number})
}

// trailFrom is the trail of the kept versions with what the file holds now, which
// another program may have written.
func trailFrom(path string, seen []byte) (history.Trail, error) {
	path = filePath(path)
	all, err := history.Names(path)
	if err != nil || len(all) == 0 {
		return history.Trail{}, err
	}
	held, err := history.Holds(path, seen)
	if !held {
		all = append(all, history.Version{Number: all[len(all)-1].Number + 1, Kind: history.Outside})
	}
	return history.TrailOf(all), err
}

// nearestOf is the first of the versions that can be put back.
func nearestOf(path string, seen []byte, kind history.Kind, numbers []int, none error) (*Return, error) {
	path = filePath(path)
	for _, number := range numbers {
		text, err := history.Text(path, number)
		if err != nil || bytes.Equal(text, seen) {
			continue
		}
		if r, err := returnTo(path, seen, kind, number, text); err == nil {
			return r, nil
		}
	}
	return nil, none
}

func returnTo(path string, seen []byte, kind history.Kind, number int, text []byte) (*Return, error) {
	f, err := parseVersion(path, number, text)
	if err != nil {
		return nil, fmt.Errorf("version %d cannot be put back as it stands: %w", number, err)
	}
	f.disk = seen
	return &Return{File: f, Number: number, kind: kind}, nil
}

// parseVersion reads a version as the rig file it would be; its problems name the
// version.
func parseVersion(path string, number int, text []byte) (*File, error) {
	f, err := Parse(path, text)
	var problems Errors
	if errors.As(err, &problems) {
		for _, p := range problems {
			p.File = fmt.Sprintf("version %d", number)
		}
	}
	return f, err
}

// filePath is the rig file at path, which may be its folder.
func filePath(path string) string {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return filepath.Join(path, FileName)
	}
	return path
}
