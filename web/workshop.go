package web

import (
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"ampstead/rig"
)

// workshop is a folder whose sub-folders each hold a rig. A rig's slug is the name
// of its folder.
type workshop struct {
	hall   *hall
	folder string
	front  string // slug of the rig at "/", when it lies in this workshop

	reading rigReader

	mu   sync.Mutex
	rigs map[string]*site
}

// Limits of a workshop: how many rigs are listed, and how long a slug may be.
const (
	mostRigs    = 200
	longestSlug = 60
)

func newWorkshop(h *hall, folder, front string) *workshop {
	w := &workshop{hall: h, folder: folder, rigs: map[string]*site{}}
	if front != "" {
		home := h.front.desk.path
		if same(filepath.Dir(filepath.Dir(home)), folder) {
			w.front = filepath.Base(filepath.Dir(home))
		}
	}
	return w
}

// same reports whether two paths are one folder.
func same(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// slugs lists the folders that hold a rig, in the order of their names.
func (w *workshop) slugs() ([]string, error) {
	entries, err := os.ReadDir(w.folder)
	if err != nil {
		return nil, err
	}
	var list []string
	for _, e := range entries {
		if w.holds(e.Name()) && len(list) < mostRigs {
			list = append(list, e.Name())
		}
	}
	return list, nil
}

// holds reports whether slug names a folder of this workshop, itself and not a link
// that leads elsewhere, with a rig file in it.
func (w *workshop) holds(slug string) bool {
	if !plainSlug(slug) {
		return false
	}
	folder := filepath.Join(w.folder, slug)
	if info, err := os.Lstat(folder); err != nil || !info.IsDir() {
		return false
	}
	_, err := os.Lstat(filepath.Join(folder, rig.FileName))
	return err == nil
}

// plainSlug reports whether a name can be that of a folder right in the workshop.
func plainSlug(slug string) bool {
	return slug != "" && len(slug) <= longestSlug && utf8.ValidString(slug) && slug[0] != '.' &&
		!strings.ContainsAny(slug, `/\:`) && !strings.ContainsFunc(slug, func(r rune) bool { return r < ' ' || r == 0x7f })
}

func (w *workshop) isFront(slug string) bool { return w.front != "" && slug == w.front }

// address is where the pages of a rig lie, without the slash behind it; "" for the
// front rig.
func (w *workshop) address(slug string) string {
	if w.isFront(slug) {
		return ""
	}
	return rigAddress(slug)
}

func rigAddress(slug string) string { return "/rigs/" + url.PathEscape(slug) }

// site returns the pages of a rig, made when first asked for.
func (w *workshop) site(slug string) (*site, bool) {
	if w.isFront(slug) {
		return w.hall.front, true
	}
	if !w.holds(slug) {
		return nil, false
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	s := w.rigs[slug]
	if s == nil {
		s = newSite(w.hall, filepath.Join(w.folder, slug), rigAddress(slug), nil)
		w.rigs[slug] = s
	}
	return s, true
}

func (w *workshop) ends() []func() {
	w.mu.Lock()
	defer w.mu.Unlock()
	var list []func()
	for _, s := range w.rigs {
		list = append(list, s.ends()...)
	}
	return list
}

// create makes a folder for a new rig with the text as its file, and returns its
// slug. An existing folder is never touched. Errors: no name is left, or what the
// disk says; nothing is left behind then.
func (w *workshop) create(name string, text []byte) (string, error) {
	start := slugOf(name)
	for n := 1; n < 100; n++ {
		slug := start
		if n > 1 {
			slug = fmt.Sprintf("%s-%d", start, n)
		}
		folder := filepath.Join(w.folder, slug)
		err := os.Mkdir(folder, 0o755)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return "", err
		}
		if err := rig.Create(filepath.Join(folder, rig.FileName), text); err != nil {
			return "", errors.Join(err, os.RemoveAll(folder))
		}
		return slug, nil
	}
	return "", fmt.Errorf("there are too many rigs called %s", start)
}

// slugOf makes the name of a folder or file of a rig's: small letters, digits and hyphens.
func slugOf(name string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			out.WriteRune(r)
		case unicode.IsLetter(r): // of another script or with a mark: left out
		case out.Len() > 0 && !strings.HasSuffix(out.String(), "-"):
			out.WriteByte('-')
		}
		if out.Len() >= longestSlug-8 {
			break
		}
	}
	if slug := strings.Trim(out.String(), "-"); slug != "" {
		return slug
	}
	return "rig"
}
