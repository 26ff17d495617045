package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// FileName is the logbook's file in a rig folder.
const FileName = "logbook.sqlite"

// openFile opens the logbook of a folder.
func (b *Book) openFile(ctx context.Context, where string) error {
	b.dialect = sqliteDialect
	path, err := filePath(where)
	if err != nil {
		return err
	}
	b.name = path
	steps, err := migrations()
	if err != nil {
		return err
	}
	there, err := b.examine(path)
	switch {
	case err != nil:
		return err
	case !there && b.readOnly:
		return b.openEmpty(ctx, steps)
	case !there:
		err = b.create(ctx, path, steps)
	}
	if err != nil {
		return err
	}
	return inTurn(
		func() error { return b.examineTables(ctx, path) },
		func() error { return b.openExamined(ctx, path) },
		func() error { return b.upToDate(ctx, steps) },
		func() error { return b.chooseRig(ctx, "") },
	)
}

func inTurn(steps ...func() error) error {
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// openExamined opens a file that was found whole. Also for reading only it is
// opened for writing where that is possible, and kept from it: the last to close
// the logbook tidies up its log, which a reader could not.
func (b *Book) openExamined(ctx context.Context, path string) error {
	switch {
	case !b.readOnly:
		return b.connect(ctx, path, "rw", pragmas)
	case canWrite(filepath.Dir(path)):
		return b.connect(ctx, path, "rw", reading)
	}
	return b.connect(ctx, path, readMode(path), reading)
}

// filePath is the logbook's file for a folder, a rig.yaml in it, or the file
// itself.
func filePath(where string) (string, error) {
	where, err := filepath.Abs(where)
	if err != nil {
		return "", err
	}
	if strings.HasSuffix(where, ".sqlite") {
		return where, nil
	}
	info, err := os.Stat(where)
	if err != nil {
		return "", fmt.Errorf("the rig's folder: %w", err)
	}
	if !info.IsDir() {
		where = filepath.Dir(where)
	}
	return filepath.Join(where, FileName), nil
}

// openEmpty stands in for a logbook that is not there, without making one.
func (b *Book) openEmpty(ctx context.Context, steps []string) error {
	if err := b.connect(ctx, ":memory:", "memory", nil); err != nil {
		return err
	}
	b.db.SetMaxOpenConns(1) // each connection would have a memory of its own
	return b.migrate(ctx, steps)
}

// readMode tells how to open a file only to look at it: where its folder cannot be
// written and no log stands beside it, nothing may be made beside it either.
func readMode(path string) string {
	if hasContent(path+"-wal") || canWrite(filepath.Dir(path)) {
		return "ro"
	}
	return "immutable"
}

func canWrite(folder string) bool {
	probe, err := os.CreateTemp(folder, ".logbook-*")
	if err != nil {
		return false
	}
	return errors.Join(probe.Close(), os.Remove(probe.Name())) == nil
}

// create makes the logbook under another name and gives it its own only when it
// is whole and on the disk: what bears the name was never half made, and an empty
// file under it is damage.
func (b *Book) create(ctx context.Context, path string, steps []string) error {
	empty := &Book{dialect: b.dialect, name: path, turn: make(chan struct{}, 1)}
	if err := empty.openEmpty(ctx, steps); err != nil {
		return err
	}
	defer empty.db.Close()
	err := empty.copyFile(ctx, path)
	if errors.Is(err, fs.ErrExist) {
		return nil // another process was first
	}
	return err
}
