package cli

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// ran runs a command line in this process.
func ran(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	p := Program{Args: args, Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr}
	code = p.Run(context.Background())
	return code, stdout.String(), stderr.String()
}

// smallDisk is a rig on a disk of its own, in memory.
func smallDisk(t *testing.T) (root, folder string) {
	t.Helper()
	root = t.TempDir()
	if err := syscall.Mount("tmpfs", root, "tmpfs", 0, "size=4m"); err != nil {
		t.Skipf("a small disk cannot be mounted here (%v)", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(root, syscall.MNT_DETACH) })
	folder = filepath.Join(root, "rig")
	if err := unpack("curlew", folder); err != nil {
		t.Fatal(err)
	}
	return root, folder
}

// The commands that write, and what each says on a disk that takes nothing.
func commandsThatWrite(root, folder string) map[string][]string {
	return map[string][]string{
		"book":     {"book", folder, "--out", filepath.Join(root, "book.html"), "--no-drill", "--no-travel"},
		"keep add": {"keep", "add", folder, "--groups", strings.TrimSpace(strings.Repeat("3.91 ", 12)), "--sure"},
		"new":      {"new", filepath.Join(root, "wren"), "--name", "Wren"},
	}
}

func TestFullDiskOnTheCommandLine(t *testing.T) {
	root, folder := smallDisk(t)
	before, err := os.ReadFile(filepath.Join(folder, "rig.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	ballast, err := os.Create(filepath.Join(root, "ballast"))
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = ballast.Write(make([]byte, 4096))
	}
	if !errors.Is(err, syscall.ENOSPC) || ballast.Close() != nil {
		t.Fatal(err)
	}
	commands := commandsThatWrite(root, folder)
	for name, args := range commands {
		code, out, errs := ran(t, args...)
		if code < exitBadInput || !strings.Contains(errs, "the disk is full") && !strings.Contains(errs, "no space left to write") {
			t.Errorf("%s: %d\n%s%s", name, code, out, errs)
		}
	}
	if code, _, errs := ran(t, "fit", folder); code > exitStop {
		t.Errorf("fit only reads: %d %s", code, errs)
	}
	if after, err := os.ReadFile(filepath.Join(folder, "rig.yaml")); err != nil || !bytes.Equal(after, before) {
		t.Errorf("the rig file changed: %v", err)
	}
	if err := os.Remove(ballast.Name()); err != nil {
		t.Fatal(err)
	}
	for name, args := range commands {
		if code, out, errs := ran(t, args...); code > exitStop {
			t.Errorf("%s, with room again: %d\n%s%s", name, code, out, errs)
		}
	}
}

func TestReadOnlyFolderOnTheCommandLine(t *testing.T) {
	root, folder := smallDisk(t)
	if code, out, errs := ran(t, commandsThatWrite(root, folder)["keep add"]...); code > exitStop {
		t.Fatalf("%d %s%s", code, out, errs)
	}
	if err := syscall.Mount("", root, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("nothing can be made read-only here (%v)", err)
	}
	for name, args := range commandsThatWrite(root, folder) {
		code, out, errs := ran(t, args...)
		if code < exitBadInput || !strings.Contains(errs, "read-only for this program") && !strings.Contains(errs, "cannot be written") {
			t.Errorf("%s: %d\n%s%s", name, code, out, errs)
		}
	}
	for _, args := range [][]string{{"fit", folder}, {"keep", folder}} {
		if code, _, errs := ran(t, args...); code > exitStop {
			t.Errorf("%s only reads: %d %s", args[0], code, errs)
		}
	}
}
