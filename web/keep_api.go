package web

import (
	"encoding/json"
	"errors"
	"mime"
	"net/http"

	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/store"
)

// sentReadings is what a page that kept readings sends.
type sentReadings struct {
	Rig      string          `json:"rig"` // key of the rig they were taken of; empty is not checked
	Ask      bool            `json:"ask"` // ask back about slips instead of storing them
	Readings []store.Reading `json:"readings"`
}

// gotReading says what became of one.
type gotReading struct {
	ID      string       `json:"id"`
	Stored  bool         `json:"stored"` // it is on the disk
	Fresh   bool         `json:"fresh"`  // and was not before
	Doubts  []keep.Doubt `json:"doubts,omitempty"`
	Error   string       `json:"error,omitempty"` // why it cannot be stored as it stands
	Field   string       `json:"field,omitempty"`
	Correct string       `json:"correct,omitempty"` // address to correct it at
}

// mostSent is how many readings come in one request.
const mostSent = 200

// takeReadings stores the readings a page kept while it had no connection. Each is
// stored once, however often it is sent.
func (s *site) takeReadings(w http.ResponseWriter, r *http.Request) {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		refuse(w, http.StatusUnsupportedMediaType, "expected JSON")
		return
	}
	var sent sentReadings
	if err := json.NewDecoder(r.Body).Decode(&sent); err != nil {
		var big *http.MaxBytesError
		if errors.As(err, &big) {
			refuse(w, http.StatusRequestEntityTooLarge, "more than this page takes at a time")
			return
		}
		refuse(w, http.StatusBadRequest, "this JSON cannot be read: "+err.Error())
		return
	}
	now := s.look(r)
	switch {
	case now.result == nil:
		refuse(w, http.StatusServiceUnavailable, "the rig file cannot be read at the moment; nothing was stored")
	case sent.Rig != "" && sent.Rig != s.rigKey(now.file):
		refuse(w, http.StatusConflict, "another rig is served here now; nothing was stored")
	case len(sent.Readings) > mostSent:
		refuse(w, http.StatusRequestEntityTooLarge, "too many readings at a time")
	default:
		s.takeAll(w, r, now, sent)
	}
}

func (s *site) takeAll(w http.ResponseWriter, r *http.Request, now *reading, sent sentReadings) {
	book, err := s.ledger.open(r.Context(), now.file, true)
	if err != nil {
		refuse(w, storeStatus(err), plainReason(err))
		return
	}
	results := []gotReading{}
	for _, one := range sent.Readings {
		got, err := s.take(r, book, now, one, sent.Ask)
		if err != nil {
			// The logbook itself fails: what came before is stored, and sending
			// all again does no harm.
			refuse(w, storeStatus(err), plainReason(err))
			return
		}
		results = append(results, got)
	}
	writeAnswer(w, http.StatusOK, map[string]any{"results": results})
}

// take stores one reading, or says why not. An error is of the logbook.
func (s *site) take(r *http.Request, book *store.Book, now *reading, one store.Reading, ask bool) (gotReading, error) {
	got := gotReading{ID: one.ID}
	if err := logbook.Fits(now.file.Rig, one); err != nil {
		got.Error = err.(logbook.Mistakes)[0].Message
		return got, nil
	}
	if ask {
		known, err := book.Versions(r.Context(), one.ID)
		if err != nil {
			return got, err
		}
		if len(known) == 0 {
			if got.Doubts, _, err = s.doubts(r, book, now, one); err != nil || len(got.Doubts) > 0 {
				return got, err
			}
		}
	}
	one.Entered = s.config.Now()
	_, fresh, err := book.Add(r.Context(), one)
	var invalid *store.Invalid
	switch {
	case errors.As(err, &invalid):
		got.Field, got.Error = invalid.Field, invalid.Message+"; expected "+invalid.Expected
		return got, nil
	case errors.Is(err, store.ErrConflict):
		got.Error, got.Correct = "it was stored before with other values; correct it there", s.at("/keep/reading?id="+one.ID)
		return got, nil
	}
	got.Stored, got.Fresh = err == nil, err == nil && fresh
	return got, err
}

func refuse(w http.ResponseWriter, status int, why string) {
	writeAnswer(w, status, map[string]string{"error": why})
}

func writeAnswer(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v) // a visitor who left is no failure of ours
}
