package web

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"sync"

	"ampstead/logbook"
	"ampstead/rig"
	"ampstead/sheet"
	"ampstead/store"
)

// ledger holds the logbook of the rig that is served, opened when it is first
// needed and made when something is first entered.
type ledger struct {
	server string // address of a database; empty for the rig's folder

	mu   sync.Mutex
	name string // what is open: its place and rig
	file os.FileInfo
	book *store.Book

	readOnly bool // the disk takes nothing: a write tries anew
}

// open returns the logbook; nil when there is none yet and nothing is to be
// written.
func (l *ledger) open(ctx context.Context, file *rig.File, write bool) (*store.Book, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !write && !logbook.There(file, l.server) {
		return nil, l.dropLocked()
	}
	name := logbook.Place(file, l.server) + "\n" + file.Rig.About.Name
	if l.book != nil && l.name == name && l.same(file) && !(write && l.readOnly) {
		return l.book, nil
	}
	if err := l.dropLocked(); err != nil {
		return nil, err
	}
	book, err := logbook.Open(ctx, file, l.server, false)
	l.readOnly = errors.Is(err, store.ErrReadOnly) && !write
	if l.readOnly { // to be read all the same
		book, err = logbook.Open(ctx, file, l.server, true)
	}
	if err != nil {
		return nil, err
	}
	l.book, l.name = book, name
	l.file, _ = os.Stat(l.path(file)) // nil on a server
	return book, nil
}

func (l *ledger) path(file *rig.File) string {
	return filepath.Join(filepath.Dir(file.Path), store.FileName)
}

// same reports whether the file that is open is still the one in the folder: a
// person may have put a backup in its place.
func (l *ledger) same(file *rig.File) bool {
	if l.server != "" {
		return true
	}
	now, err := os.Stat(l.path(file))
	return err == nil && l.file != nil && os.SameFile(now, l.file)
}

func (l *ledger) dropLocked() error {
	if l.book == nil {
		return nil
	}
	err := l.book.Close()
	l.book = nil
	return err
}

// end closes it for good.
func (l *ledger) end() {
	l.mu.Lock()
	defer l.mu.Unlock()
	_ = l.dropLocked() // what was stored is on the disk already
}

// read reads all of the logbook; without one it is empty.
func (l *ledger) read(ctx context.Context, file *rig.File) (logbook.Log, error) {
	book, err := l.open(ctx, file, false)
	if err != nil || book == nil {
		return logbook.Log{}, err
	}
	return logbook.Read(ctx, book)
}

// rigKey tells rigs apart for a browser that keeps readings: those of one rig must
// not be sent to another one that is served at the same address later.
func (s *site) rigKey(file *rig.File) string {
	place, err := filepath.Abs(file.Path)
	if err != nil {
		place = file.Path
	}
	sum := sha256.Sum256([]byte(place + "\n" + s.ledger.server))
	return hex.EncodeToString(sum[:6])
}

// logged adds to the model of the book what the logbook tells; where none was
// begun, a sheet to fill in.
func (s *site) logged(r *http.Request, now *reading, m *sheet.Model) *sheet.Model {
	t, err := s.tell(r, now)
	if err != nil {
		return m
	}
	res := cmp.Or(resultOf(s.lives.known(lifeStamp(now, t))), t.res)
	return m.WithLog(res, logbook.In(t.log.Readings, s.config.Now().Location()))
}

// visitsOf tells one state of a model's logbook from another.
func visitsOf(m *sheet.Model) string {
	if m.Log == nil {
		return ""
	}
	return stampOf(fmt.Append(nil, m.Log.Answer, m.Log.Today, m.Log.Life, m.Log.Readings, m.Log.More))
}

// logWords says what the book has of the logbook.
func (s *site) logWords(r *http.Request, now *reading) string {
	t, err := s.tell(r, now)
	switch n := len(t.log.Readings); {
	case err != nil:
		return "It has nothing of the logbook, because that cannot be read: Keep says why."
	case n == 0:
		return "It has a sheet for readings by hand; the logbook holds none yet."
	case n == 1:
		return "It has what the logbook tells of its one reading, and a sheet for readings by hand."
	default:
		return fmt.Sprintf("It has what the logbook tells of its %d readings, and a sheet for readings by hand.", n)
	}
}
