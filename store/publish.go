package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// copyFile writes all that a SQLite logbook holds at this moment into a new file,
// while others go on writing. It has its name only when it is whole; a file that
// has the name already is left alone (fs.ErrExist).
func (b *Book) copyFile(ctx context.Context, path string) error {
	temp, err := emptyFile(path)
	if err != nil {
		return fmt.Errorf("no file can be made in %s: %w (%w)", filepath.Dir(path), ErrReadOnly, err)
	}
	defer os.Remove(temp)
	if _, err := b.db.ExecContext(ctx, "VACUUM INTO ?", temp); err != nil {
		return b.explain(err)
	}
	return publish(temp, path)
}

// emptyFile makes a file under a passing name beside path.
func emptyFile(path string) (string, error) {
	file, err := os.CreateTemp(filepath.Dir(path), ".logbook-*.sqlite")
	if err != nil {
		return "", err
	}
	return file.Name(), errors.Join(file.Chmod(0o644), file.Close())
}

// publish gives a finished file its name, unless something has that name already
// (fs.ErrExist), and has both the file and the name on the disk.
func publish(temp, path string) error {
	if err := syncFile(temp, os.O_RDWR); err != nil {
		return err
	}
	err := os.Link(temp, path)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		err = renameNew(temp, path) // a file system without links
	}
	if err != nil || runtime.GOOS == "windows" { // which has no sync of a folder
		return err
	}
	return syncFile(filepath.Dir(path), os.O_RDONLY)
}

func renameNew(temp, path string) error {
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return fs.ErrExist
	}
	return os.Rename(temp, path)
}

func syncFile(path string, mode int) error {
	file, err := os.OpenFile(path, mode, 0)
	if err != nil {
		return err
	}
	return errors.Join(file.Sync(), file.Close())
}
