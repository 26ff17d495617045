package rig

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"ampstead/history"
)

// mounted is a rig on a small disk of its own, in memory.
func mounted(t *testing.T, size string) (path, disk string) {
	t.Helper()
	disk = t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk cannot be mounted here (%v)", err)
	}
	t.Cleanup(func() { syscall.Unmount(disk, syscall.MNT_DETACH) })
	path = filepath.Join(disk, FileName)
	if err := os.WriteFile(path, []byte(small), 0o644); err != nil {
		t.Fatal(err)
	}
	return path, disk
}

// On a disk that fills up every save is either done, or refused with the file and
// all versions whole.
func TestTheDiskFillsUp(t *testing.T) {
	path, _ := mounted(t, "256k")
	refused := 0
	for series := 13; refused < 5; series++ {
		if series > 199 {
			t.Fatal("never full")
		}
		before := onFile(t, path)
		f, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		err = set(t, set(t, f, "bank.series", strings.TrimSpace(string(rune('0'+series%9+1)))), "about.note", strings.Repeat("x", 3000+series)).Save()
		switch {
		case err == nil && refused > 0:
			t.Fatal("saved after it was full")
		case err == nil:
			continue
		case !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), path):
			t.Fatalf("refused: %v", err)
		}
		refused++
		holds(t, path, string(before))
		alone(t, path)
	}
	all, _, err := history.List(path)
	if err != nil || len(all) < 10 {
		t.Fatalf("%d versions, %v", len(all), err)
	}
	if _, err := UndoOf(path, onFile(t, path)); err != nil {
		t.Errorf("undo finds %v", err)
	}
	first := filepath.Join(history.Folder(path), all[1].Name)
	if err := os.Remove(first); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(history.Folder(path), all[2].Name)); err != nil {
		t.Fatal(err)
	}
	saved(t, path, 77) // there is room again
	if got := seriesAt(t, path); got != 77 {
		t.Errorf("series %d", got)
	}
}

// A history that cannot be written to, though the rig's folder can: a save of what
// is kept already is done, the next one is refused.
func TestAHistoryThatCannotBeWrittenTo(t *testing.T) {
	path, _ := mounted(t, "1m")
	saved(t, path, 13)
	folder := history.Folder(path)
	if err := syscall.Mount(folder, folder, "", syscall.MS_BIND, ""); err != nil {
		t.Skip(err)
	}
	defer syscall.Unmount(folder, syscall.MNT_DETACH)
	if err := syscall.Mount("", folder, "", syscall.MS_REMOUNT|syscall.MS_BIND|syscall.MS_RDONLY, ""); err != nil {
		t.Skip(err)
	}
	saved(t, path, 14)
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = set(t, f, "bank.series", "15").Save()
	if !errors.Is(err, syscall.EROFS) || !strings.Contains(err.Error(), "nothing was saved") {
		t.Errorf("Save = %v", err)
	}
	if got := seriesAt(t, path); got != 14 {
		t.Errorf("series %d, want 14", got)
	}
}

func TestARigFolderThatCannotBeWrittenTo(t *testing.T) {
	path, disk := mounted(t, "1m")
	saved(t, path, 13)
	if err := syscall.Mount("", disk, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skip(err)
	}
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := set(t, f, "bank.series", "14").Save(); !errors.Is(err, syscall.EROFS) {
		t.Errorf("Save = %v", err)
	}
	if got := seriesAt(t, path); got != 13 {
		t.Errorf("series %d", got)
	}
}
