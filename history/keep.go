package history

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Mark says how a version came about.
type Mark struct {
	Kind Kind
	Of   int // number of the version put back, of kinds that put one back
}

// tempPrefix begins the name of a file that is being written.
const tempPrefix = ".half-written-"

// Keep keeps text as the newest version, durably and whole or not at all, unless
// the newest one holds the same. The first version is of kind begin whatever mark
// says. The caller holds the lock of the rig's folder.
func Keep(rigFile string, text []byte, mark Mark, now time.Time) error {
	return keep(rigFile, text, mark, now, writeTemp)
}

// Holds reports whether the newest version is this text.
func Holds(rigFile string, text []byte) (bool, error) {
	all, err := Names(rigFile)
	if err != nil {
		return false, err
	}
	return holds(rigFile, all, text), nil
}

// holds reports whether the last version is the text. A damaged one is not.
func holds(rigFile string, all []Version, held []byte) bool {
	if len(all) == 0 || all[len(all)-1].sum != sumOf(held) {
		return false
	}
	_, err := text(rigFile, all[len(all)-1])
	return err == nil
}

// writer writes text to a new file in a folder and returns its name.
type writer func(folder string, text []byte, mode os.FileMode) (string, error)

func keep(rigFile string, text []byte, mark Mark, now time.Time, write writer) error {
	if len(text) > mostBytes {
		return fmt.Errorf("the file has %d bytes; at most %d are kept", len(text), mostBytes)
	}
	all, odd, err := scan(rigFile)
	if err != nil {
		return err
	}
	if holds(rigFile, all, text) {
		return nil
	}
	number, err := after(all, odd)
	if err != nil {
		return err
	}
	if len(all) == 0 {
		mark = Mark{Kind: Begin}
	}
	v := newVersion(number, text, mark, now)
	if err := put(rigFile, v, text, write); err != nil {
		return err
	}
	thin(rigFile, append(all, v))
	return nil
}

// after is the number that follows all that stand in the folder, those of damaged
// or foreign files too.
func after(all []Version, odd []Strange) (int, error) {
	most := 0
	if len(all) > 0 {
		most = all[len(all)-1].Number
	}
	for _, s := range odd {
		if v, ours := parseName(s.Name); ours {
			most = max(most, v.Number)
		}
	}
	if most >= mostNumber {
		return 0, errors.New("the numbers of its versions are used up: move that folder away")
	}
	return most + 1, nil
}

// put writes the file of a version.
func put(rigFile string, v Version, text []byte, write writer) error {
	folder := Folder(rigFile)
	if err := makeFolder(folder); err != nil {
		return err
	}
	sweep(folder)
	temp, err := write(folder, text, modeOf(rigFile))
	if err != nil {
		return err
	}
	if err := os.Rename(temp, filepath.Join(folder, v.Name)); err != nil {
		os.Remove(temp)
		return err
	}
	syncFolder(folder)
	return nil
}

// modeOf lets no one read a version who may not read the rig file.
func modeOf(rigFile string) os.FileMode {
	if info, err := os.Stat(rigFile); err == nil {
		return info.Mode().Perm()
	}
	return 0o644
}

// makeFolder makes the folder of the versions, which lasts once what it lies in is
// synced too.
func makeFolder(folder string) error {
	err := os.Mkdir(folder, 0o755)
	if errors.Is(err, os.ErrExist) {
		return nil
	}
	if err == nil {
		syncFolder(filepath.Dir(folder))
	}
	return err
}

// sweep removes what a writer killed half way has left.
func sweep(folder string) {
	entries, _ := os.ReadDir(folder)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), tempPrefix) {
			os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}

func writeTemp(folder string, text []byte, mode os.FileMode) (string, error) {
	return writeThrough(folder, text, mode, func(file *os.File) io.Writer { return file })
}

// writeThrough lets a test put a disk that fails in between.
func writeThrough(folder string, text []byte, mode os.FileMode, disk func(*os.File) io.Writer) (string, error) {
	file, err := os.CreateTemp(folder, tempPrefix+"*")
	if err != nil {
		return "", err
	}
	_, err = disk(file).Write(text)
	if err == nil {
		err = file.Chmod(mode)
	}
	if err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err != nil {
		os.Remove(file.Name())
		return "", err
	}
	return file.Name(), nil
}

// syncFolder makes new names last through a power cut, where the system can.
func syncFolder(folder string) {
	dir, err := os.Open(folder)
	if err != nil {
		return
	}
	defer dir.Close()
	_ = dir.Sync()
}
