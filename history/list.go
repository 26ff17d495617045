package history

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// mostBytes bounds one version; a rig file is much smaller.
const mostBytes = 4 << 20

// ErrDamaged says that the file of a version no longer holds what was kept.
var ErrDamaged = errors.New("is damaged or was changed by hand")

var errNoFolder = errors.New("what lies there is no folder, and versions of the rig cannot be kept")

// ErrUnknown says that there is no version with that number.
var ErrUnknown = errors.New("no such version is kept")

// Folder is where the versions of a rig file lie: the folder history beside it, or
// beside the file that it is a link to. A file of another name than rig.yaml has one
// of its own.
func Folder(rigFile string) string {
	if real, err := filepath.EvalSymlinks(rigFile); err == nil {
		rigFile = real
	}
	base := filepath.Base(rigFile)
	if base == "rig.yaml" {
		return filepath.Join(filepath.Dir(rigFile), "history")
	}
	return filepath.Join(filepath.Dir(rigFile), base+".history")
}

// List returns the versions of a rig file in rising number, and what else lies in
// their folder. A version whose file is damaged is strange. No folder is no error.
func List(rigFile string) ([]Version, []Strange, error) {
	all, odd, err := scan(rigFile)
	if err != nil {
		return nil, nil, err
	}
	whole := all[:0]
	for _, v := range all {
		if _, err := text(rigFile, v); err != nil {
			odd = append(odd, Strange{v.Name, reason(err)})
			continue
		}
		whole = append(whole, v)
	}
	return whole, odd, nil
}

func reason(err error) string {
	if errors.Is(err, ErrDamaged) {
		return ErrDamaged.Error()
	}
	var at *os.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	return "cannot be read: " + err.Error()
}

// Names returns the versions as List does, in rising number, without reading them:
// a damaged one is among them.
func Names(rigFile string) ([]Version, error) {
	all, _, err := scan(rigFile)
	return all, err
}

// scan reads the names in the folder.
func scan(rigFile string) (versions []Version, odd []Strange, err error) {
	entries, err := os.ReadDir(Folder(rigFile))
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil, nil
	}
	if info, at := os.Stat(Folder(rigFile)); at == nil && !info.IsDir() {
		return nil, nil, &os.PathError{Op: "keep versions in", Path: Folder(rigFile), Err: errNoFolder}
	}
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		v, ours := parseName(e.Name())
		switch {
		case strings.HasPrefix(e.Name(), tempPrefix):
		case !ours:
			odd = append(odd, Strange{e.Name(), "is no version"})
		case !e.Type().IsRegular():
			odd = append(odd, Strange{e.Name(), "is no file"})
		default:
			versions = append(versions, v)
		}
	}
	slices.SortStableFunc(versions, func(a, b Version) int { return cmp.Compare(a.Number, b.Number) })
	versions, twins := single(versions)
	return versions, append(odd, twins...), nil
}

// single leaves one version of each number, the first by name.
func single(all []Version) (one []Version, odd []Strange) {
	for _, v := range all {
		if len(one) > 0 && one[len(one)-1].Number == v.Number {
			odd = append(odd, Strange{v.Name, "has the number of another version"})
			continue
		}
		one = append(one, v)
	}
	return one, odd
}

// Text returns what the version with that number holds. Errors: ErrUnknown,
// ErrDamaged, or whatever the disk says.
func Text(rigFile string, number int) ([]byte, error) {
	all, err := Names(rigFile)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(all, func(v Version) bool { return v.Number == number })
	if at < 0 {
		return nil, fmt.Errorf("version %d: %w", number, ErrUnknown)
	}
	return text(rigFile, all[at])
}

func text(rigFile string, v Version) ([]byte, error) {
	file, err := os.Open(filepath.Join(Folder(rigFile), v.Name))
	if err != nil {
		return nil, err
	}
	defer file.Close()
	held, err := io.ReadAll(io.LimitReader(file, mostBytes+1))
	if err != nil {
		return nil, err
	}
	if sumOf(held) != v.sum {
		return nil, fmt.Errorf("version %d %w (%s)", v.Number, ErrDamaged, v.Name)
	}
	return held, nil
}
