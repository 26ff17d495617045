package web

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"time"
)

// mostLog is the largest log that may be sent, bytes.
const mostLog = 512 << 20

// uploadPause is how long a sending phone may fall silent.
const uploadPause = time.Minute

// sendLog takes a log, stores it beside the pages and leads to what it tells. It
// is never held in memory as a whole.
func (s *site) sendLog(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, s.config.mostLog)
	r.Body = &patientBody{r.Body, http.NewResponseController(w)}
	u, err := s.receive(r)
	var big *http.MaxBytesError
	switch {
	case errors.As(err, &big):
		s.showProve(w, r, http.StatusRequestEntityTooLarge, "This file is larger than "+sizeText(s.config.mostLog)+", the most this page takes. The command ampstead prove reads logs of any size.")
	case errors.Is(err, errNoLog):
		s.showProve(w, r, http.StatusBadRequest, "No file came with it. Choose a log first.")
	case diskReason(err) != "":
		s.showProve(w, r, diskStatus(err), "The file could not be taken in: "+plainReason(err)+".")
	case err != nil:
		s.showProve(w, r, http.StatusBadRequest, "The file did not arrive whole: "+plainReason(err)+".")
	default:
		http.Redirect(w, r, s.at("/prove?test="+url.QueryEscape(u.id)), http.StatusSeeOther)
	}
}

var errNoLog = errors.New("no file")

// receive finds the file in the form and stores it.
func (s *site) receive(r *http.Request) (*upload, error) {
	form, err := r.MultipartReader()
	if err != nil {
		return nil, errNoLog
	}
	for {
		part, err := form.NextPart()
		if errors.Is(err, io.EOF) {
			return nil, errNoLog
		}
		if err != nil {
			return nil, err
		}
		if part.FormName() == "log" && part.FileName() != "" {
			return s.proofs.receive(part.FileName(), part)
		}
	}
}

// patientBody lets a large log take its time, as long as something comes.
type patientBody struct {
	io.ReadCloser
	control *http.ResponseController
}

func (b *patientBody) Read(p []byte) (int, error) {
	until := time.Now().Add(uploadPause)
	// A connection without deadlines, as in a test, needs none moved.
	_ = b.control.SetReadDeadline(until)
	_ = b.control.SetWriteDeadline(until.Add(writeTimeout))
	return b.ReadCloser.Read(p)
}

// sizeText writes a number of bytes as a person reads it.
func sizeText(n int64) string {
	switch {
	case n >= 1<<20:
		return fmt.Sprintf("%.0f MB", float64(n)/(1<<20))
	case n >= 1<<10:
		return fmt.Sprintf("%.0f kB", float64(n)/(1<<10))
	}
	return fmt.Sprintf("%d bytes", n)
}

// keepLog stores a log that was sent with the rig.
func (s *site) keepLog(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	u := s.proofs.sent(r.PostForm.Get("test"))
	if u == nil {
		s.showProve(w, r, http.StatusGone, "This log is no longer held. Send it again.")
		return
	}
	file, err := os.Open(u.path)
	if err != nil {
		s.showProve(w, r, http.StatusGone, "This log is no longer held. Send it again.")
		return
	}
	defer file.Close()
	name, err := s.shelf().Keep(u.name, file)
	if err != nil {
		s.unsaved(w, r, "The log could not be kept; nothing was written", err)
		return
	}
	way := readWay(r.PostForm)
	way.Set("log", name)
	way.Set("done", "kept")
	http.Redirect(w, r, s.at("/prove?"+way.Encode()), http.StatusSeeOther)
}
