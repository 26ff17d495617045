package store

import (
	"errors"
	"fmt"
)

// What a caller may want to tell apart. Errors of this package wrap one of these
// where it applies; the text of the whole error names the place.
var (
	ErrDamaged  = errors.New("damaged; nothing in it was changed")
	ErrFull     = errors.New("no space left to write; nothing was written")
	ErrBusy     = errors.New("another program keeps it busy; try again")
	ErrNewer    = errors.New("written by a later version of Ampstead")
	ErrChanged  = errors.New("changed since it was read")
	ErrConflict = errors.New("another entry has the same ID")
	ErrUnknown  = errors.New("no such entry")
	ErrReadOnly = errors.New("cannot be written")
)

// Invalid is an entry that cannot be stored as it stands.
type Invalid struct {
	Field    string `json:"field"` // as in JSON, a list item by its number from 1: "groups_v.3"
	Message  string `json:"message"`
	Expected string `json:"expected"`
}

// Error names the field first.
func (e *Invalid) Error() string {
	return fmt.Sprintf("%s: %s; expected %s", e.Field, e.Message, e.Expected)
}

func isOurs(err error) bool {
	var invalid *Invalid
	if errors.As(err, &invalid) {
		return true
	}
	for _, own := range []error{ErrDamaged, ErrFull, ErrBusy, ErrNewer, ErrChanged, ErrConflict, ErrUnknown, ErrReadOnly} {
		if errors.Is(err, own) {
			return true
		}
	}
	return false
}
