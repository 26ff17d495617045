package store

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// mounted is a small disk of its own, in memory.
func mounted(t *testing.T, size string) string {
	t.Helper()
	folder := t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk cannot be mounted here (%v)", err)
	}
	t.Cleanup(func() { syscall.Unmount(folder, syscall.MNT_DETACH) })
	return folder
}

func TestFullDisk(t *testing.T) {
	folder := mounted(t, "1m")
	ballast := filepath.Join(folder, "ballast")
	if err := os.WriteFile(ballast, make([]byte, 256<<10), 0o644); err != nil {
		t.Fatal(err)
	}
	b := place{where: folder}.open(t)
	n := untilFull(t, b)
	stands(t, b, n)
	if err := b.Backup(context.Background(), filepath.Join(folder, "kept.sqlite")); !errors.Is(err, ErrFull) {
		t.Errorf("backup: %v", err)
	}
	for _, name := range files(t, folder) {
		if name != "ballast" && !strings.HasPrefix(name, FileName) {
			t.Errorf("left %s", name)
		}
	}
	b.Close()
	b = place{where: folder}.open(t) // still full
	stands(t, b, n)
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	add(t, b, childVisit("full", n))
	stands(t, b, n+1)
}

func TestNoRoomForALogbook(t *testing.T) {
	folder := mounted(t, "64k")
	if err := os.WriteFile(filepath.Join(folder, "ballast"), make([]byte, 56<<10), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(context.Background(), folder, Options{}); !errors.Is(err, ErrFull) {
		t.Errorf("%v", err)
	}
	if left := files(t, folder); len(left) != 1 {
		t.Errorf("left %v", left)
	}
}

func TestAFolderThatCannotBeWritten(t *testing.T) {
	folder, ctx := mounted(t, "1m"), context.Background()
	b := place{where: folder}.open(t)
	add(t, b, visit(1))
	b.Close()
	empty := filepath.Join(folder, "empty")
	if err := os.Mkdir(empty, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("", folder, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skip(err)
	}
	for _, at := range []string{folder, empty} {
		if _, err := Open(ctx, at, Options{}); !errors.Is(err, ErrReadOnly) || !strings.Contains(err.Error(), at) {
			t.Errorf("%s: %v", at, err)
		}
	}
	reader, err := Open(ctx, folder, Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer reader.Close()
	if n := len(readings(t, reader)); n != 1 {
		t.Errorf("%d readings", n)
	}
}
