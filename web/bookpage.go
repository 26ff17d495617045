package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"net/http"
	"regexp"
	"strings"

	"ampstead/book"
	"ampstead/sheet"
	"ampstead/travel"
)

type bookPage struct {
	Frame frame
	Name  string // file name of the download
	Size  int    // kB
	Sheet *sheet.Model
	Trip  string // what the book has of the year on the road
}

func (s *site) book(w http.ResponseWriter, r *http.Request) {
	now, written, ok := s.written(w, r)
	if !ok {
		return
	}
	s.render(w, http.StatusOK, "book", bookPage{
		Frame: s.frame(r, "book", "Book", now), Name: bookName(now.name()),
		Size: (len(written) + 1023) / 1024, Sheet: now.whole().WithTravel(resultOf(s.trips.known(now))), Trip: tripWords(s.trips.known(now)),
	})
}

func (s *site) readBook(w http.ResponseWriter, r *http.Request) {
	if _, written, ok := s.written(w, r); ok {
		sendBook(w, written)
	}
}

func (s *site) saveBook(w http.ResponseWriter, r *http.Request) {
	now, written, ok := s.written(w, r)
	if !ok {
		return
	}
	w.Header().Set("Content-Disposition", `attachment; filename="`+bookName(now.name())+`"`)
	sendBook(w, written)
}

// written returns the book of the rig as it is now; without one it answers
// with the trouble there is.
func (s *site) written(w http.ResponseWriter, r *http.Request) (*reading, []byte, bool) {
	now := s.look(r)
	if now.result == nil {
		s.trouble(w, r, now)
		return nil, nil, false
	}
	written, err := now.book(s.config.Now().Format("2 January 2006"), s.config.Version, resultOf(s.trips.known(now)))
	if err != nil {
		http.Error(w, "The book could not be made: "+err.Error(), http.StatusInternalServerError)
		return nil, nil, false
	}
	return now, written, true
}

// resultOf is the year a job has reckoned; nil while there is none.
func resultOf(j *job) *travel.Result {
	if j == nil || !j.over() {
		return nil
	}
	return j.result
}

// tripWords says what the book has of the year on the road.
func tripWords(j *job) string {
	switch {
	case j == nil:
		return "It has no year on the road yet, because that was not reckoned: open Travel first."
	case !j.over():
		return "The year on the road is being reckoned; until then the book is without it. " + progressOf(j).Say
	case j.err != nil:
		return "It has no year on the road, because that could not be reckoned: Travel says why."
	}
	return "It has the year on the road."
}

// book returns the whole book as one file, made when first asked for that day,
// and made again when the year on the road is there.
func (now *reading) book(date, version string, year *travel.Result) ([]byte, error) {
	model := now.whole().WithTravel(year)
	model.Date, model.Version = date, version
	now.mu.Lock()
	defer now.mu.Unlock()
	key := fmt.Sprint(date, year != nil)
	if made := now.books[key]; made != nil {
		return made, nil
	}
	var out bytes.Buffer
	if err := book.Write(&out, model); err != nil {
		return nil, err
	}
	now.books = map[string][]byte{key: out.Bytes()}
	return out.Bytes(), nil
}

var styleBlock = regexp.MustCompile(`(?s)<style[^>]*>(.*?)</style>`)

// sendBook allows exactly the style blocks this book carries, and nothing else.
func sendBook(w http.ResponseWriter, written []byte) {
	styles := "style-src"
	for _, block := range styleBlock.FindAllSubmatch(written, -1) {
		sum := sha256.Sum256(block[1])
		styles += " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	h := w.Header()
	h.Set("Content-Security-Policy", "default-src 'none'; "+styles+"; img-src data:; frame-ancestors 'none'; base-uri 'none'; form-action 'none'")
	h.Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(written) // a visitor who left is no failure of ours
}

// bookName makes a plain file name from the rig's name.
func bookName(name string) string { return plainFile(name) + "-book.html" }

func plainFile(name string) string {
	plain := strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			return c
		case c == ' ' || c == '-' || c == '_':
			return '-'
		}
		return -1
	}, strings.ToLower(name))
	plain = strings.Trim(plain, "-")
	if plain == "" {
		plain = "rig"
	}
	return plain
}
