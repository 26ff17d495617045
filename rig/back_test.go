package rig

import (
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"ampstead/history"
)

// saved sets bank.series of the file at path and saves it.
func saved(t *testing.T, path string, series int) {
	t.Helper()
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := set(t, f, "bank.series", strconv.Itoa(series)).Save(); err != nil {
		t.Fatal(err)
	}
}

func seriesAt(t *testing.T, path string) int {
	t.Helper()
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return f.Rig.Bank.Series
}

func onFile(t *testing.T, path string) []byte {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// kept tells the kinds of the versions.
func kept(t *testing.T, path string) string {
	t.Helper()
	all, odd, err := history.List(path)
	if err != nil || len(odd) > 0 {
		t.Fatal(odd, err)
	}
	var kinds []string
	for _, v := range all {
		kinds = append(kinds, string(v.Kind))
	}
	return strings.Join(kinds, " ")
}

// step undoes or does again and returns the series the file then has.
func step(t *testing.T, path string, find func(string, []byte) (*Return, error)) int {
	t.Helper()
	r, err := find(path, onFile(t, path))
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Save(); err != nil {
		t.Fatal(err)
	}
	return seriesAt(t, path)
}

func TestUndoWalksBackAndRedoForth(t *testing.T) {
	path := onDisk(t, small).Path
	for series := 13; series <= 15; series++ {
		saved(t, path, series)
	}
	for _, s := range []struct {
		find func(string, []byte) (*Return, error)
		want int
	}{{UndoOf, 14}, {UndoOf, 13}, {UndoOf, 12}, {RedoOf, 13}, {RedoOf, 14}, {UndoOf, 13}} {
		if got := step(t, path, s.find); got != s.want {
			t.Fatalf("series %d, want %d: %s", got, s.want, kept(t, path))
		}
	}
	saved(t, path, 20)
	if _, err := RedoOf(path, onFile(t, path)); !errors.Is(err, ErrNoRedo) {
		t.Errorf("redo after an edit: %v", err)
	}
	byFolder := func(path string, seen []byte) (*Return, error) { return UndoOf(filepath.Dir(path), seen) }
	if got := step(t, path, byFolder); got != 13 {
		t.Errorf("series %d, want 13", got)
	}
	if want := "begin edit edit edit undo undo undo redo redo undo edit undo"; kept(t, path) != want {
		t.Errorf("kept %s, want %s", kept(t, path), want)
	}
}

func TestNothingToUndo(t *testing.T) {
	f := onDisk(t, small)
	for range 2 {
		if _, err := UndoOf(f.Path, f.Text); !errors.Is(err, ErrNoUndo) {
			t.Errorf("undo: %v", err)
		}
		if _, err := RedoOf(f.Path, f.Text); !errors.Is(err, ErrNoRedo) {
			t.Errorf("redo: %v", err)
		}
		if err := history.Keep(f.Path, f.Text, edit, clock()); err != nil { // then with a history of one
			t.Fatal(err)
		}
	}
}

func TestUndoWhatAnotherProgramWrote(t *testing.T) {
	path := onDisk(t, small).Path
	saved(t, path, 13)
	byHand := strings.Replace(small, "series: 12", "series: 99", 1)
	if err := os.WriteFile(path, []byte(byHand), 0o640); err != nil {
		t.Fatal(err)
	}
	if got := step(t, path, UndoOf); got != 13 {
		t.Errorf("series %d, want 13", got)
	}
	if want := "begin edit outside undo"; kept(t, path) != want {
		t.Errorf("kept %s, want %s", kept(t, path), want)
	}
	if got := step(t, path, RedoOf); got != 99 {
		t.Errorf("series %d, want 99", got)
	}
}

func TestUndoIsRefusedWhenTheFileIsNoLongerWhatWasSeen(t *testing.T) {
	path := onDisk(t, small).Path
	saved(t, path, 13)
	seen := onFile(t, path)
	saved(t, path, 14)
	r, err := UndoOf(path, seen)
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Save(); !errors.Is(err, ErrChanged) {
		t.Errorf("Save = %v", err)
	}
	if got := seriesAt(t, path); got != 14 {
		t.Errorf("series %d, want 14", got)
	}
}

// A text that is no rig is kept like any other, but only put back as text.
func TestAVersionThatIsNoRig(t *testing.T) {
	path := onDisk(t, small).Path
	saved(t, path, 13)
	damaged := []byte("about: {name: [\n")
	if err := os.WriteFile(path, damaged, 0o640); err != nil {
		t.Fatal(err)
	}
	if r, err := UndoOf(path, damaged); err != nil || r.File.Rig.Bank.Series != 13 {
		t.Errorf("undo of the damage: %v", err)
	}
	mended := mustParse(t, small)
	mended.Path = path
	if err := mended.Replace(damaged); err != nil {
		t.Fatal(err)
	}
	if want := "begin edit outside edit"; kept(t, path) != want {
		t.Fatalf("kept %s, want %s", kept(t, path), want)
	}
	if text, err := history.Text(path, 3); err != nil || string(text) != string(damaged) {
		t.Errorf("version 3 holds %q, %v", text, err)
	}
	var problems Errors
	if _, err := BackTo(path, onFile(t, path), 3); !errors.As(err, &problems) || !strings.Contains(err.Error(), "version 3 cannot be put back") {
		t.Errorf("back to it: %v", err)
	}
	if got := step(t, path, UndoOf); got != 13 {
		t.Errorf("series %d, want 13: undo passes over what is no rig", got)
	}
}

func TestBackTo(t *testing.T) {
	path := onDisk(t, small).Path
	saved(t, path, 13)
	saved(t, path, 14)
	if _, err := BackTo(path, onFile(t, path), 3); !errors.Is(err, ErrPresent) {
		t.Errorf("back to what is there: %v", err)
	}
	if _, err := BackTo(path, onFile(t, path), 4); !errors.Is(err, history.ErrUnknown) {
		t.Errorf("back to what is not kept: %v", err)
	}
	first := func(path string, seen []byte) (*Return, error) { return BackTo(path, seen, 1) }
	if got := step(t, path, first); got != 12 {
		t.Errorf("series %d, want 12", got)
	}
	holds(t, path, small)
	if got := step(t, path, UndoOf); got != 14 {
		t.Errorf("series %d, want 14: going back is itself undone", got)
	}
	if want := "begin edit edit back undo"; kept(t, path) != want {
		t.Errorf("kept %s, want %s", kept(t, path), want)
	}
}

func TestADamagedVersionIsPassedOver(t *testing.T) {
	path := onDisk(t, small).Path
	saved(t, path, 13)
	saved(t, path, 14)
	all, err := history.Names(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(filepath.Join(history.Folder(path), all[1].Name), 3); err != nil {
		t.Fatal(err)
	}
	if got := step(t, path, UndoOf); got != 12 {
		t.Errorf("series %d, want 12", got)
	}
	if _, err := BackTo(path, onFile(t, path), 2); !errors.Is(err, history.ErrDamaged) {
		t.Errorf("back to it: %v", err)
	}
}

func TestASaveThatCannotKeepTheOldIsRefused(t *testing.T) {
	f := onDisk(t, small)
	if err := os.WriteFile(history.Folder(f.Path), nil, 0o600); err != nil { // in the way of the folder
		t.Fatal(err)
	}
	err := set(t, f, "bank.series", "14").Save()
	if err == nil || !strings.Contains(err.Error(), "nothing was saved") || !strings.Contains(err.Error(), "is no folder") {
		t.Errorf("Save = %v", err)
	}
	holds(t, f.Path, small)
}

func TestASaveWhoseNewVersionCannotBeKeptIsKeptByTheNext(t *testing.T) {
	path := onDisk(t, small).Path
	saved(t, path, 13)
	all, err := history.Names(path)
	if err != nil {
		t.Fatal(err)
	}
	// As though the program was ended between writing the file and keeping it.
	if err := os.Remove(filepath.Join(history.Folder(path), all[1].Name)); err != nil {
		t.Fatal(err)
	}
	saved(t, path, 14)
	if want := "begin outside edit"; kept(t, path) != want {
		t.Errorf("kept %s, want %s", kept(t, path), want)
	}
	if got := step(t, path, UndoOf); got != 13 {
		t.Errorf("series %d, want 13", got)
	}
}

func TestCreateBeginsAHistory(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	if err := Create(path, []byte(small)); err != nil {
		t.Fatal(err)
	}
	if kept(t, path) != "begin" {
		t.Errorf("kept %s", kept(t, path))
	}
	alone(t, path)
}

func TestTheClockJumps(t *testing.T) {
	defer func(was func() time.Time) { clock = was }(clock)
	path := onDisk(t, small).Path
	for i, at := range []string{"2026-11-20T12:00:00Z", "1970-01-01T00:00:00Z", "2039-06-01T00:00:00Z", "2026-11-20T12:00:01Z"} {
		when, err := time.Parse(time.RFC3339, at)
		if err != nil {
			t.Fatal(err)
		}
		clock = func() time.Time { return when }
		saved(t, path, 13+i)
	}
	for want := 15; want >= 12; want-- {
		if got := step(t, path, UndoOf); got != want {
			t.Fatalf("series %d, want %d", got, want)
		}
	}
}
