package rig

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"ampstead/history"
)

// clock tells when a version was kept; a test puts its own in place.
var clock = time.Now

// ErrChanged says that the file on disk is no longer what was read: someone
// else, or another window, has written it.
var ErrChanged = errors.New("the rig file was changed by someone else since it was read")

// Save writes the text to Path, whole or not at all: a new file beside it takes
// its place and its permissions. What it takes the place of stays in the history,
// and where that cannot be kept nothing is saved. Errors: ErrChanged; whatever the
// disk says.
func (f *File) Save() error { return f.save(history.Mark{Kind: history.Edit}) }

func (f *File) save(mark history.Mark) error {
	if err := save(f.Path, f.disk, f.Text, mark, writeTemp); err != nil {
		return err
	}
	f.disk = f.Text
	return nil
}

// Create writes a new rig file at path and refuses when one is there.
func Create(path string, text []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s is there already: %w", path, os.ErrExist)
	}
	unlock, err := lockFolder(filepath.Dir(path))
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	defer unlock()
	temp, err := writeTemp(path, text, 0o644)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	defer os.Remove(temp)
	if err := os.Link(temp, path); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	syncFolder(filepath.Dir(path))
	keepNew(path, text, history.Mark{Kind: history.Begin})
	return nil
}

// tempWriter writes text to a new file in the folder of path and returns its name.
type tempWriter func(path string, text []byte, mode os.FileMode) (string, error)

// save replaces old by text under the folder's lock, and keeps both as versions.
func save(path string, old, text []byte, mark history.Mark, write tempWriter) error {
	path, err := filepath.EvalSymlinks(path)
	if errors.Is(err, os.ErrNotExist) {
		return ErrChanged
	}
	if err != nil {
		return err
	}
	unlock, err := lockFolder(filepath.Dir(path))
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	defer unlock()
	mode, err := unchanged(path, old)
	if err != nil {
		return err
	}
	if err := keepOld(path, old, text); err != nil {
		return err
	}
	temp, err := write(path, text, mode)
	if err == nil {
		err = os.Rename(temp, path)
	}
	if err != nil {
		os.Remove(temp)
		return fmt.Errorf("cannot write %s, the old file is whole: %w", path, err)
	}
	syncFolder(filepath.Dir(path))
	keepNew(path, text, mark)
	return nil
}

// keepOld makes sure that what is about to be replaced stays in the history.
func keepOld(path string, old, text []byte) error {
	if bytes.Equal(old, text) {
		return nil
	}
	if err := history.Keep(path, old, history.Mark{Kind: history.Outside}, clock()); err != nil {
		return fmt.Errorf("cannot keep what %s holds now in %s, so nothing was saved and the file is as it was: %w", path, history.Folder(path), err)
	}
	return nil
}

// keepNew keeps what was just written. The file is saved already, and the next save
// keeps what this one could not, so failing to is not an error.
func keepNew(path string, text []byte, mark history.Mark) {
	_ = history.Keep(path, text, mark, clock())
}

// unchanged returns the mode of the file at path when it still holds old.
func unchanged(path string, old []byte) (os.FileMode, error) {
	now, err := readWhole(path)
	if errors.Is(err, os.ErrNotExist) {
		return 0, ErrChanged
	}
	if err != nil {
		return 0, err
	}
	if !bytes.Equal(now, old) {
		return 0, ErrChanged
	}
	info, err := os.Stat(path)
	if err != nil {
		return 0, err
	}
	return info.Mode().Perm(), nil
}

func writeTemp(path string, text []byte, mode os.FileMode) (string, error) {
	return writeThrough(path, text, mode, func(file *os.File) syncable { return file })
}

// writeThrough lets a test put a disk that fails in between.
func writeThrough(path string, text []byte, mode os.FileMode, disk func(*os.File) syncable) (string, error) {
	sweep(path)
	file, err := os.CreateTemp(filepath.Dir(path), tempPattern(path))
	if err != nil {
		return "", err
	}
	err = fillFile(disk(file), text, mode)
	if closing := file.Close(); err == nil {
		err = closing
	}
	if err != nil {
		os.Remove(file.Name())
		return "", err
	}
	return file.Name(), nil
}

func tempPattern(path string) string { return "." + filepath.Base(path) + ".half-written-*" }

// sweep removes what a writer killed half way has left. No other writer is at
// work: the caller holds the lock.
func sweep(path string) {
	left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), tempPattern(path)))
	for _, name := range left {
		os.Remove(name)
	}
}

// syncable is the part of a file that fillFile needs.
type syncable interface {
	io.Writer
	Chmod(os.FileMode) error
	Sync() error
}

func fillFile(file syncable, text []byte, mode os.FileMode) error {
	if _, err := file.Write(text); err != nil {
		return err
	}
	if err := file.Chmod(mode); err != nil {
		return err
	}
	return file.Sync()
}

// syncFolder makes a rename last through a power cut. Not every system can sync
// a folder; the new file is whole and in place without it, so failing to is not
// an error.
func syncFolder(folder string) {
	dir, err := os.Open(folder)
	if err != nil {
		return
	}
	defer dir.Close()
	_ = dir.Sync()
}
