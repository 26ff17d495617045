package web

import (
	"bytes"
	"net/http"
	"time"
)

// liveEvents sends the state each time it changes, as Server-Sent Events (HTML
// standard, section 9.2).
func (s *site) liveEvents(w http.ResponseWriter, r *http.Request) {
	if s.live == nil {
		s.missing(w, r)
		return
	}
	select {
	case s.streams <- struct{}{}:
		defer func() { <-s.streams }()
	default:
		http.Error(w, "Too many pages follow the values already.", http.StatusServiceUnavailable)
		return
	}
	out := http.NewResponseController(w)
	_ = out.SetReadDeadline(time.Time{}) // the server's limit is for requests that send something
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("X-Accel-Buffering", "no")
	end := time.NewTimer(streamTime)
	defer end.Stop()
	s.stream(w, r, out, end.C)
}

func (s *site) stream(w http.ResponseWriter, r *http.Request, out *http.ResponseController, end <-chan time.Time) {
	units := s.units(r, s.desk.read())
	var last []byte
	for {
		state, newer := s.live.State()
		text, err := s.liveEvent(state, units)
		if err != nil {
			return
		}
		if !bytes.Equal(text, last) && !sendEvent(w, out, text) {
			return
		}
		last = text
		if state.Ended {
			return
		}
		select {
		case <-newer:
		case <-end:
			return
		case <-r.Context().Done():
			return
		}
	}
}

// sendEvent writes one event; false means that the visitor has left.
func sendEvent(w http.ResponseWriter, out *http.ResponseController, text []byte) bool {
	_ = out.SetWriteDeadline(time.Now().Add(eventTime)) // where there is none to set, the write itself fails in time
	if _, err := w.Write(append(append([]byte("event: now\ndata: "), text...), "\n\n"...)); err != nil {
		return false
	}
	return out.Flush() == nil
}
