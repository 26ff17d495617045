package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"net/http"
	"regexp"

	"ampstead/book"
	"ampstead/sheet"
)

type bookPage struct {
	Frame frame
	Name  string // file name of the download
	Size  int    // kB
	Sheet *sheet.Model
	Trip  string // what the book has of the year on the road
	Drill string // and of the drill
	Buy   string // and of the batteries compared
	Proof string // and of a test of the module
	Log   string // and of the logbook
}

func (s *site) book(w http.ResponseWriter, r *http.Request) {
	now, written, ok := s.written(w, r)
	if !ok {
		return
	}
	s.render(w, http.StatusOK, "book", bookPage{
		Frame: s.frame(r, "book", "Book", now), Name: bookName(now.name()),
		Size: (len(written) + 1023) / 1024, Sheet: s.wholeBook(r, now), Trip: tripWords(s.trips.known(now)), Drill: drillWords(s.drills.known(now)), Buy: chooseWords(s.choices, now),
		Proof: s.proofWords(now), Log: s.logWords(r, now),
	})
}

// wholeBook is everything there is for the book.
func (s *site) wholeBook(r *http.Request, now *reading) *sheet.Model {
	return s.proven(now, s.logged(r, now, resultOf(s.drills.known(now)).with(now.whole().WithTravel(resultOf(s.trips.known(now))).WithChoice(s.choices.result(now)))))
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
	model := s.wholeBook(r, now)
	model.Date, model.Version = s.config.Now().Format("2 January 2006"), s.config.Version
	written, err := now.book(model)
	if err != nil {
		http.Error(w, "The book could not be made: "+err.Error(), http.StatusInternalServerError)
		return nil, nil, false
	}
	return now, written, true
}

// resultOf is what a job came to; nothing while there is none.
func resultOf[T any](j *job[T]) (result T) {
	if j == nil || !j.over() {
		return result
	}
	return j.result
}

// tripWords says what the book has of the year on the road.
func tripWords(j *trip) string {
	switch {
	case j == nil:
		return "It has no year on the road yet, because that was not reckoned: open Travel first."
	case !j.over():
		return "The year on the road is being reckoned; until then the book is without it. " + j.running(yearsReckoned).Say
	case j.err != nil:
		return "It has no year on the road, because that could not be reckoned: Travel says why."
	}
	return "It has the year on the road."
}

// drillWords says what the book has of the drill.
func drillWords(j *job[*drilled]) string {
	switch {
	case j == nil:
		return "It has no drill yet, because that was not played: open Drill first."
	case !j.over():
		return "The drill is being played; until then the book is without it. " + j.running(faultsPlayed).Say
	case j.err != nil:
		return "It has no drill, because that could not be played: Drill says why."
	}
	return "It has the drill, with a strip of every fault and the rehearsal sheet."
}

// chooseWords says what the book has of the batteries compared.
func chooseWords(c *choices, now *reading) string {
	j := c.both.known(now)
	switch {
	case j == nil:
		return "It has no batteries side by side yet, because they were not compared: open Choose first."
	case !j.over():
		return "The batteries are being compared; until then the book is without them. " + j.running(batteriesCompared).Say
	case j.err != nil:
		return "It has no batteries side by side, because they could not be compared: Choose says why."
	}
	return "It has the batteries side by side, with a list for each seller."
}

// boughtOf tells comparisons apart: with and without a search.
func boughtOf(m *sheet.Model) string {
	if m.Compared == nil {
		return ""
	}
	return m.Compared.Count
}

// book returns the whole book as one file, made when first asked for that day,
// and made again when a year on the road, a drill or a reading is there.
func (now *reading) book(model *sheet.Model) ([]byte, error) {
	now.mu.Lock()
	defer now.mu.Unlock()
	key := fmt.Sprint(model.Date, model.Trip != nil, model.Drill != nil, boughtOf(model), logOf(model), visitsOf(model))
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

// bookName is the file name of a rig's book.
func bookName(name string) string { return slugOf(name) + "-book.html" }
