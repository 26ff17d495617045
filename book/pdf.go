package book

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// ErrNoBrowser says that no browser which can print to a file is installed.
var ErrNoBrowser = errors.New("no browser that can print was found: install chromium, or open the book's HTML file in any browser and print it there")

// browsers are the names such a browser goes by on a search path.
var browsers = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "headless-shell", "chrome-headless-shell"}

// PDF prints an HTML file through an installed browser, run without a window,
// with a fresh profile and no network. pdfPath is replaced only when the whole
// file is there. Errors: ErrNoBrowser, the browser's own, or of the files.
func PDF(ctx context.Context, htmlPath, pdfPath string) error {
	browser, err := findBrowser()
	if err != nil {
		return err
	}
	page, err := fileURL(htmlPath)
	if err != nil {
		return err
	}
	work, err := os.MkdirTemp(filepath.Dir(pdfPath), ".book-*")
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	defer os.RemoveAll(work)
	made := filepath.Join(work, "book.pdf")
	if err := printPage(ctx, browser, page, work, made); err != nil {
		return err
	}
	return settle(made, pdfPath)
}

func findBrowser() (string, error) {
	for _, name := range browsers {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", ErrNoBrowser
}

func fileURL(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", fmt.Errorf("pdf: %w", err)
	}
	if _, err := os.Stat(abs); err != nil {
		return "", fmt.Errorf("pdf: %w", err)
	}
	slashed := filepath.ToSlash(abs)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive letter
	}
	return (&url.URL{Scheme: "file", Path: slashed}).String(), nil
}

func printPage(ctx context.Context, browser, page, work, made string) error {
	abs, err := filepath.Abs(made)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	args := []string{"--headless", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync",
		"--disable-component-update", "--disable-quic", "--disable-extensions", "--host-resolver-rules=MAP * ~NOTFOUND",
		"--user-data-dir=" + filepath.Join(filepath.Dir(abs), "profile"), "--no-pdf-header-footer",
		"--generate-pdf-document-outline", "--print-to-pdf=" + abs}
	if os.Geteuid() == 0 {
		args = append(args, "--no-sandbox") // the browser refuses to start its sandbox as root
	}
	cmd := exec.CommandContext(ctx, browser, append(args, page)...)
	cmd.WaitDelay = 5 * time.Second // a helper process may hold the output open
	out, err := cmd.CombinedOutput()
	if err != nil {
		return fmt.Errorf("pdf: %s: %w\n%s", filepath.Base(browser), err, lastLines(out))
	}
	if info, err := os.Stat(made); err != nil || info.Size() == 0 {
		return fmt.Errorf("pdf: %s wrote nothing\n%s", filepath.Base(browser), lastLines(out))
	}
	return nil
}

// lastLines keeps the end of a browser's chatter, where the reason stands.
func lastLines(out []byte) string {
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	return strings.Join(lines[max(0, len(lines)-3):], "\n")
}

// settle puts a finished file in its place, on the disk before it is renamed.
func settle(made, path string) error {
	f, err := os.OpenFile(made, os.O_RDWR, 0)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if err := errors.Join(f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if err := os.Rename(made, path); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}
