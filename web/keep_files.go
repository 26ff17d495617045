package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strconv"

	"ampstead/keep"
	"ampstead/logbook"
	"ampstead/store"
)

// mostTable is the largest table a page takes, bytes.
const mostTable = 8 << 20

// importTable takes in a table of readings.
func (s *site) importTable(w http.ResponseWriter, r *http.Request) {
	now := s.sound(w, r)
	if now == nil {
		return
	}
	done, err := s.imported(r, now)
	if err != nil {
		status := http.StatusUnprocessableEntity
		why := err.Error()
		if known, said := storeTrouble(err); known != http.StatusServiceUnavailable || diskReason(err) != "" {
			status, why = known, said
		}
		s.showKeep(w, r, status, entryForm{}, "Nothing was taken in: "+why+".")
		return
	}
	way := url.Values{"done": {"imported"}, "fresh": {strconv.Itoa(done.Fresh + done.Changes)}, "known": {strconv.Itoa(done.Known)}}
	http.Redirect(w, r, s.at("/keep?"+way.Encode()), http.StatusSeeOther)
}

func (s *site) imported(r *http.Request, now *reading) (logbook.Imported, error) {
	file, _, err := r.FormFile("table")
	if err != nil {
		return logbook.Imported{}, errors.New("no file came with it, or it is larger than 8 MB")
	}
	defer file.Close()
	rows, err := logbook.ReadTable(file, s.config.Now().Location())
	if err != nil {
		return logbook.Imported{}, err
	}
	for i, row := range rows {
		if err := logbook.Fits(now.file.Rig, row); err != nil {
			return logbook.Imported{}, fmt.Errorf("reading %d: %w", i+1, err)
		}
	}
	book, err := s.ledger.open(r.Context(), now.file, true)
	if err != nil {
		return logbook.Imported{}, err
	}
	return logbook.Import(r.Context(), book, rows)
}

// download sends what make writes, under a name made from the rig's.
func (s *site) download(kind, ending string, make func(*http.Request, *reading, *bytes.Buffer) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		now := s.look(r)
		if now.result == nil {
			s.trouble(w, r, now)
			return
		}
		var out bytes.Buffer
		if err := make(r, now, &out); err != nil {
			http.Error(w, "This could not be made: "+plainReason(err), http.StatusServiceUnavailable)
			return
		}
		w.Header().Set("Content-Type", kind)
		w.Header().Set("Content-Disposition", `attachment; filename="`+slugOf(now.name())+ending+`"`)
		_, _ = w.Write(out.Bytes()) // a visitor who left is no failure of ours
	}
}

// whole reads everything; without a logbook there is nothing.
func (s *site) wholeLog(r *http.Request, now *reading) (*logbook.Whole, error) {
	book, err := s.ledger.open(r.Context(), now.file, false)
	if err != nil {
		return nil, err
	}
	if book == nil {
		return &logbook.Whole{Rig: now.name(), Readings: []store.Reading{}, Meters: []store.Meter{}, Done: []store.Done{}}, nil
	}
	return logbook.ReadWhole(r.Context(), book, now.name())
}

func (s *site) exportTable(r *http.Request, now *reading, out *bytes.Buffer) error {
	whole, err := s.wholeLog(r, now)
	if err != nil {
		return err
	}
	return whole.WriteTable(out)
}

func (s *site) exportJSON(r *http.Request, now *reading, out *bytes.Buffer) error {
	whole, err := s.wholeLog(r, now)
	if err != nil {
		return err
	}
	return writeIndented(out, whole)
}

func (s *site) calendar(r *http.Request, now *reading, out *bytes.Buffer) error {
	t, err := s.tell(r, now)
	if err != nil {
		return err
	}
	_, err = out.Write(keep.Calendar(t.res, now.file.Rig, s.config.Now()))
	return err
}

// backup copies the logbook while it is in use.
func (s *site) backup(r *http.Request, now *reading, out *bytes.Buffer) error {
	book, err := s.ledger.open(r.Context(), now.file, false)
	if err != nil {
		return err
	}
	if book == nil {
		return errors.New("there is no logbook to copy yet")
	}
	folder, err := os.MkdirTemp("", "ampstead-backup-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, store.FileName)
	if err := book.Backup(r.Context(), path); err != nil {
		return err
	}
	text, err := os.ReadFile(path)
	out.Write(text)
	return err
}

func writeIndented(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
