package web

import (
	"errors"
	"io/fs"
	"net/http"

	"ampstead/disk"
	"ampstead/store"
)

type unsavedPage struct {
	Frame frame
	Said  string
}

// unsaved says that the disk did not take a change, why, and that everything is as
// it was.
func (s *site) unsaved(w http.ResponseWriter, r *http.Request, what string, err error) {
	said := what + ": " + plainReason(err) + "."
	if r.Header.Get("Accept") == "application/json" { // the form's module shows it beside what was typed
		http.Error(w, said, diskStatus(err))
		return
	}
	p := unsavedPage{s.frame(r, "", "Not saved", s.desk.read()), said}
	p.Frame.Back = s.at("/")
	s.render(w, diskStatus(err), "unsaved", p)
}

const rigUnsaved = "The file could not be saved and is as it was"

// diskStatus is the status of an answer when the disk did not take something.
func diskStatus(err error) int {
	switch diskReason(err) {
	case disk.Full:
		return http.StatusInsufficientStorage
	case disk.ReadOnly:
		return http.StatusServiceUnavailable
	}
	return http.StatusInternalServerError
}

// storeStatus is the status when the logbook did not take or give something.
func storeStatus(err error) int {
	if diskReason(err) != "" {
		return diskStatus(err)
	}
	return http.StatusServiceUnavailable
}

// diskReason says in plain words what the disk refused, or "" for another error.
func diskReason(err error) string {
	switch {
	case errors.Is(err, store.ErrFull):
		return disk.Full
	case errors.Is(err, store.ErrReadOnly):
		return disk.ReadOnly
	}
	return disk.Why(err)
}

// plainReason is for a visitor: what the disk refused in plain words, and no path:
// on the network nobody need learn where things lie.
func plainReason(err error) string {
	if why := diskReason(err); why != "" {
		return why
	}
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}
