package rig

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"

	"ampstead/history"
)

// onDisk writes text to a new folder and opens it.
func onDisk(t *testing.T, text string) *File {
	t.Helper()
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, FileName), []byte(text), 0o640); err != nil {
		t.Fatal(err)
	}
	f, err := Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func set(t *testing.T, f *File, path, value string) *File {
	t.Helper()
	g, err := f.Set(path, value)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func holds(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Fatalf("%s holds %q (%v), want %q", path, got, err, want)
	}
}

// alone checks that beside the rig file lie at most its kept versions, whole.
func alone(t *testing.T, path string) {
	t.Helper()
	for _, e := range entries(t, filepath.Dir(path)) {
		if e != filepath.Base(path) && e != "history" {
			t.Fatalf("beside the rig file lies %s", e)
		}
	}
	if _, odd, err := history.List(path); err != nil || len(odd) > 0 {
		t.Fatalf("among the versions: %v %v", odd, err)
	}
	for _, e := range entries(t, history.Folder(path)) {
		if e[0] == '.' {
			t.Fatalf("among the versions lies %s", e)
		}
	}
}

func entries(t *testing.T, folder string) (names []string) {
	t.Helper()
	list, err := os.ReadDir(folder)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	for _, e := range list {
		names = append(names, e.Name())
	}
	return names
}

var edit = history.Mark{Kind: history.Edit}

func TestSaveKeepsModeAndLeavesNothingBeside(t *testing.T) {
	f := set(t, onDisk(t, small), "bank.series", "14")
	for _, series := range []string{"14", "16"} {
		f = set(t, f, "bank.series", series)
		if err := f.Save(); err != nil {
			t.Fatal(err)
		}
		holds(t, f.Path, string(f.Text))
	}
	info, err := os.Stat(f.Path)
	if err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode = %v, %v", info.Mode(), err)
	}
	alone(t, f.Path)
}

func TestSaveRefusesWhenChanged(t *testing.T) {
	f := set(t, onDisk(t, small), "bank.series", "14")
	other := small + "# by hand\n"
	if err := os.WriteFile(f.Path, []byte(other), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := f.Save(); !errors.Is(err, ErrChanged) {
		t.Errorf("Save = %v", err)
	}
	holds(t, f.Path, other)
	if err := os.Remove(f.Path); err != nil {
		t.Fatal(err)
	}
	if err := f.Save(); !errors.Is(err, ErrChanged) {
		t.Errorf("Save of a file that is gone = %v", err)
	}
}

func TestSaveThroughLink(t *testing.T) {
	f := onDisk(t, small)
	link := filepath.Join(t.TempDir(), "link.yaml")
	if err := os.Symlink(f.Path, link); err != nil {
		t.Skipf("no links here: %v", err)
	}
	g, err := Open(link)
	if err != nil {
		t.Fatal(err)
	}
	g = set(t, g, "bank.series", "14")
	if err := g.Save(); err != nil {
		t.Fatal(err)
	}
	holds(t, f.Path, string(g.Text))
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v", err)
	}
}

func TestSaveInReadOnlyFolder(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write anywhere")
	}
	f := set(t, onDisk(t, small), "bank.series", "14")
	folder := filepath.Dir(f.Path)
	if err := os.Chmod(folder, 0o500); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(folder, 0o700)
	if err := f.Save(); err == nil || errors.Is(err, ErrChanged) {
		t.Errorf("Save = %v", err)
	}
	holds(t, f.Path, small)
	alone(t, f.Path)
}

func TestSaveWhenNoFileCanBeMade(t *testing.T) {
	f := set(t, onDisk(t, small), "bank.series", "14")
	refuse := func(string, []byte, os.FileMode) (string, error) { return "", os.ErrPermission }
	if err := save(f.Path, f.disk, f.Text, edit, refuse); !errors.Is(err, os.ErrPermission) {
		t.Errorf("save = %v", err)
	}
	holds(t, f.Path, small)
	alone(t, f.Path)
}

// full is a disk with room for only a few bytes.
type full struct{ *os.File }

func (f full) Write(text []byte) (int, error) {
	n, _ := f.File.Write(text[:len(text)/2])
	return n, io.ErrShortWrite
}

func TestSaveOnFullDisk(t *testing.T) {
	f := set(t, onDisk(t, small), "bank.series", "14")
	write := func(path string, text []byte, mode os.FileMode) (string, error) {
		return writeThrough(path, text, mode, func(file *os.File) syncable { return full{file} })
	}
	if err := save(f.Path, f.disk, f.Text, edit, write); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("save = %v", err)
	}
	holds(t, f.Path, small)
	alone(t, f.Path)
}

func TestSaveSweepsWhatAKilledWriterLeft(t *testing.T) {
	f := set(t, onDisk(t, small), "bank.series", "14")
	left := filepath.Join(filepath.Dir(f.Path), ".rig.yaml.half-written-1")
	if err := os.WriteFile(left, []byte("ab"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	alone(t, f.Path)
}

// TestTwoWriters lets many add one to a number at once: each either replaces
// what it read or is told that it changed, so none is lost.
func TestTwoWriters(t *testing.T) {
	start := onDisk(t, small)
	var wg sync.WaitGroup
	var mu sync.Mutex
	saved := 0
	for range 8 {
		wg.Go(func() {
			for range 10 {
				f, err := Open(start.Path)
				if err != nil {
					t.Error(err)
					return
				}
				g, err := f.Set("bank.series", strconv.Itoa(f.Rig.Bank.Series+1))
				if err != nil {
					t.Error(err)
					return
				}
				switch err := g.Save(); {
				case err == nil:
					mu.Lock()
					saved++
					mu.Unlock()
				case !errors.Is(err, ErrChanged):
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	f, err := Open(start.Path)
	if err != nil {
		t.Fatal(err)
	}
	if saved == 0 || f.Rig.Bank.Series != 12+saved {
		t.Errorf("saved %d times: %s", saved, f.Text)
	}
	alone(t, f.Path)
}

func TestCreate(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	if err := Create(path, []byte(small)); err != nil {
		t.Fatal(err)
	}
	holds(t, path, small)
	alone(t, path)
	if err := Create(path, []byte("x")); !errors.Is(err, os.ErrExist) {
		t.Errorf("Create over a file = %v", err)
	}
	holds(t, path, small)
	if err := Create(filepath.Join(t.TempDir(), "none", FileName), []byte(small)); err == nil {
		t.Error("Create in no folder passed")
	}
}

func TestOpenRefuses(t *testing.T) {
	folder := t.TempDir()
	if _, err := Open(folder); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
	large := filepath.Join(folder, "large.yaml")
	if err := os.WriteFile(large, make([]byte, maxBytes+10), 0o600); err != nil {
		t.Fatal(err)
	}
	var problems Errors
	if _, err := Open(large); !errors.As(err, &problems) {
		t.Errorf("too large: %v", err)
	}
	if err := os.Mkdir(filepath.Join(folder, FileName), 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(folder); err == nil {
		t.Error("a folder called rig.yaml passed")
	}
}
