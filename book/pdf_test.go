package book_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"ampstead/book"
)

func TestPDFWithoutBrowser(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	err := book.PDF(t.Context(), "book.html", "book.pdf")
	if !errors.Is(err, book.ErrNoBrowser) {
		t.Errorf("got %v, want ErrNoBrowser", err)
	}
}

// fakeBrowser puts a script named chromium on the search path.
func fakeBrowser(t *testing.T, script string) {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "chromium"), []byte("#!/bin/sh\n"+script), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", dir+string(os.PathListSeparator)+os.Getenv("PATH"))
}

func folder(t *testing.T) (html, pdf string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "with space & sign")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	html, pdf = filepath.Join(dir, "book.html"), filepath.Join(dir, "book.pdf")
	for _, path := range []string{html, pdf} {
		if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return html, pdf
}

func contents(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestPDFReplacesWhole(t *testing.T) {
	fakeBrowser(t, `for a in "$@"; do case "$a" in --print-to-pdf=*) printf new > "${a#--print-to-pdf=}";; esac; done`)
	html, pdf := folder(t)
	if err := book.PDF(t.Context(), html, pdf); err != nil {
		t.Fatal(err)
	}
	if got := contents(t, pdf); got != "new" {
		t.Errorf("the file holds %q", got)
	}
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(pdf), ".book-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// A browser that fails, or says it went well and wrote nothing, leaves the old
// file whole and nothing beside it.
func TestPDFFailureLeavesOldFile(t *testing.T) {
	for name, script := range map[string]string{"fails": "echo no display >&2; exit 1", "writes nothing": "exit 0"} {
		t.Run(name, func(t *testing.T) {
			fakeBrowser(t, script)
			html, pdf := folder(t)
			if err := book.PDF(t.Context(), html, pdf); err == nil {
				t.Error("no error")
			}
			if got := contents(t, pdf); got != "old" {
				t.Errorf("the old file now holds %q", got)
			}
			if left, _ := os.ReadDir(filepath.Dir(pdf)); len(left) != 2 {
				t.Errorf("%d files in the folder, want 2", len(left))
			}
		})
	}
}

func TestPDFInterrupted(t *testing.T) {
	fakeBrowser(t, "exec sleep 60")
	html, pdf := folder(t)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := book.PDF(ctx, html, pdf); err == nil {
		t.Error("no error")
	}
	if got := contents(t, pdf); got != "old" {
		t.Errorf("the old file now holds %q", got)
	}
}

func TestPDFMissingPage(t *testing.T) {
	fakeBrowser(t, "exit 0")
	if err := book.PDF(t.Context(), filepath.Join(t.TempDir(), "none.html"), "x.pdf"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("got %v, want that the file does not exist", err)
	}
}

func TestPDFWithRealBrowser(t *testing.T) {
	html, pdf := folder(t)
	if err := os.WriteFile(html, []byte("<!DOCTYPE html><title>x</title><p>One page"), 0o644); err != nil {
		t.Fatal(err)
	}
	err := book.PDF(t.Context(), html, pdf)
	if errors.Is(err, book.ErrNoBrowser) {
		t.Skip("no browser on this machine")
	}
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix([]byte(contents(t, pdf)), []byte("%PDF-")) {
		t.Error("what was written is not a PDF")
	}
}
