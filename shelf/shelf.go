package shelf

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"ampstead/benchlog"
)

// Folder is its name beside rig.yaml, and layoutFile what holds the layout.
const (
	Folder     = "bench"
	layoutFile = "layout.json"
)

// Shelf is the folder of one rig; it need not be there yet.
type Shelf struct{ dir string }

// Of returns the shelf of a rig file.
func Of(rigFile string) Shelf { return Shelf{filepath.Join(filepath.Dir(rigFile), Folder)} }

// Log is one kept log.
type Log struct {
	Name string
	Size int64 // bytes
	When time.Time
}

// Logs lists the kept logs, newest first; none when there is no folder.
func (s Shelf) Logs() ([]Log, error) {
	entries, err := os.ReadDir(s.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var list []Log
	for _, e := range entries {
		info, err := e.Info()
		if err != nil || !info.Mode().IsRegular() || !IsLog(e.Name()) {
			continue
		}
		list = append(list, Log{e.Name(), info.Size(), info.ModTime()})
	}
	slices.SortFunc(list, func(a, b Log) int {
		return cmp.Or(b.When.Compare(a.When), strings.Compare(a.Name, b.Name))
	})
	return list, nil
}

// Open opens a kept log by its name. Errors: fs.ErrNotExist for any name that is
// not one of Logs.
func (s Shelf) Open(name string) (*os.File, error) {
	if name != filepath.Base(name) || !IsLog(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	root, err := os.OpenRoot(s.dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return root.Open(name)
}

// Path is where a kept log lies.
func (s Shelf) Path(name string) string { return filepath.Join(s.dir, name) }

// kinds are the endings of a log, without what a packer adds.
var kinds = []string{".csv", ".tsv", ".txt", ".log", ".dat"}

// IsLog reports whether a file of this name is taken for a log.
func IsLog(name string) bool {
	if strings.HasPrefix(name, ".") {
		return false
	}
	plain := strings.ToLower(name)
	for _, packed := range []string{".gz", ".bz2", ".zst", ".zz"} {
		plain = strings.TrimSuffix(plain, packed)
	}
	return slices.Contains(kinds, filepath.Ext(plain))
}

// longestName is how many characters of a name are kept.
const longestName = 80

// CleanName makes of a name that came with an upload one that can be kept: no
// folder, letters, digits, points, dashes and underscores only, and an ending by
// which it is known as a log.
func CleanName(name string) string {
	name = name[strings.LastIndexAny(name, `/\`)+1:]
	last := rune(0)
	clean := strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '.', c == '-', c == '_':
			last = c
			return c
		}
		if last == '-' {
			return -1
		}
		last = '-'
		return '-'
	}, name)
	clean = strings.Trim(clean, ".-_")
	if n := len(clean); n > longestName {
		clean = strings.TrimLeft(clean[n-longestName:], ".-_")
	}
	if clean == "" {
		clean = "log"
	}
	if !IsLog(clean) {
		clean += ".csv"
	}
	return clean
}

// Keep stores a log under a clean name that is not taken yet, whole or not at
// all, and returns that name.
func (s Shelf) Keep(name string, from io.Reader) (string, error) {
	if err := os.MkdirAll(s.dir, 0o755); err != nil {
		return "", err
	}
	temp, err := s.temp(from)
	if err != nil {
		return "", err
	}
	defer os.Remove(temp)
	clean := CleanName(name)
	for k := 1; k < 1000; k++ {
		try := numbered(clean, k)
		err := os.Link(temp, filepath.Join(s.dir, try))
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err == nil {
			s.sync()
		}
		return try, err
	}
	return "", fmt.Errorf("%s: too many logs of this name", clean)
}

// numbered puts a number before the ending from the second on: "test-2.csv.gz".
func numbered(name string, k int) string {
	if k == 1 {
		return name
	}
	stem, rest := name, ""
	if i := strings.IndexByte(name, '.'); i > 0 {
		stem, rest = name[:i], name[i:]
	}
	return fmt.Sprintf("%s-%d%s", stem, k, rest)
}

// temp writes to a new file in the folder and returns its path.
func (s Shelf) temp(from io.Reader) (string, error) {
	file, err := os.CreateTemp(s.dir, ".half-written-*")
	if err != nil {
		return "", err
	}
	_, err = io.Copy(file, from)
	if err == nil {
		err = file.Chmod(0o644)
	}
	if err = errors.Join(err, file.Sync(), file.Close()); err != nil {
		os.Remove(file.Name())
		return "", err
	}
	return file.Name(), nil
}

// sync makes the new name last through a power cut where the system can.
func (s Shelf) sync() {
	if dir, err := os.Open(s.dir); err == nil {
		_ = dir.Sync()
		dir.Close()
	}
}

// Layout returns the layout kept for the logs; the zero value when none is.
func (s Shelf) Layout() (benchlog.Options, error) {
	var o benchlog.Options
	path := filepath.Join(s.dir, layoutFile)
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return o, nil
	}
	if err != nil {
		return o, err
	}
	d := json.NewDecoder(strings.NewReader(string(text)))
	d.DisallowUnknownFields()
	if err := d.Decode(&o); err != nil {
		return o, fmt.Errorf("%s cannot be read: %w; mend it, or remove it and give the layout again", path, err)
	}
	return o, nil
}

// SetLayout keeps a layout for the logs.
func (s Shelf) SetLayout(o benchlog.Options) error {
	text, err := json.MarshalIndent(o, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(s.dir, 0o755); err != nil {
		return err
	}
	temp, err := s.temp(strings.NewReader(string(text) + "\n"))
	if err != nil {
		return err
	}
	if err := os.Rename(temp, filepath.Join(s.dir, layoutFile)); err != nil {
		os.Remove(temp)
		return err
	}
	s.sync()
	return nil
}
