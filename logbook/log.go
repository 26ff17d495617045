package logbook

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"ampstead/fit"
	"ampstead/keep"
	"ampstead/rig"
	"ampstead/store"
)

// Log is all that a logbook holds of a rig's visits.
type Log struct {
	Readings []store.Reading
	Meters   []store.Meter
	Done     []store.Done
}

// Place is where the logbook of a rig file lies: server when one is given, else
// the folder of the file.
func Place(file *rig.File, server string) string {
	if server != "" {
		return server
	}
	return filepath.Dir(file.Path)
}

// Open opens the logbook of a rig file.
func Open(ctx context.Context, file *rig.File, server string, readOnly bool) (*store.Book, error) {
	if err := CheckServer(server); err != nil {
		return nil, err
	}
	return store.Open(ctx, Place(file, server), store.Options{Rig: file.Rig.About.Name, ReadOnly: readOnly})
}

// CheckServer refuses what is no address of a server; none at all is fine.
func CheckServer(server string) error {
	if server == "" || store.IsServer(server) {
		return nil
	}
	return fmt.Errorf("%q is no place for a logbook; expected an address such as postgres://user@host/logbook", server)
}

// There reports whether a logbook was begun. On a server that is not known before
// it is opened.
func There(file *rig.File, server string) bool {
	if server != "" {
		return true
	}
	_, err := os.Stat(filepath.Join(filepath.Dir(file.Path), store.FileName))
	return !errors.Is(err, os.ErrNotExist)
}

// Read reads a logbook.
func Read(ctx context.Context, b *store.Book) (Log, error) {
	var l Log
	var err error
	if l.Readings, err = b.Readings(ctx); err != nil {
		return Log{}, err
	}
	if l.Meters, err = b.Meters(ctx); err != nil {
		return Log{}, err
	}
	l.Done, err = b.Done(ctx)
	return l, err
}

// Empty reports whether nothing was ever entered.
func (l Log) Empty() bool { return len(l.Readings)+len(l.Meters)+len(l.Done) == 0 }

// Keep tells what the log says of the rig.
func (l Log) Keep(ctx context.Context, file *rig.File, fitted *fit.Result, now time.Time, life bool) (*keep.Result, error) {
	return keep.Run(ctx, file.Rig, fitted, l.Readings, l.Meters, l.Done, keep.Options{Now: now, Life: life})
}

// In gives the readings with their times in a zone, for showing.
func In(list []store.Reading, zone *time.Location) []store.Reading {
	out := slices.Clone(list)
	for i := range out {
		out[i].Taken, out[i].Entered = out[i].Taken.In(zone), out[i].Entered.In(zone)
	}
	return out
}

// Last is the value of every group when it was read last, nil where it never was.
func (l Log) Last(groups int) []*float64 {
	last := make([]*float64, groups)
	for _, r := range l.Readings {
		for i, v := range r.Groups {
			if v != nil && i < groups {
				last[i] = v
			}
		}
	}
	return last
}

// Meter is the one that was used last, "" for none.
func (l Log) Meter() string {
	for i := len(l.Readings) - 1; i >= 0; i-- {
		if m := l.Readings[i].Meter; m != "" {
			return m
		}
	}
	return ""
}

// Fits says what of a reading the rig has no place for. Errors: Mistakes.
func Fits(r *rig.Rig, reading store.Reading) error {
	if n := len(reading.Groups); n > r.Bank.Series {
		return Mistakes{{fmt.Sprintf("groups.%d", r.Bank.Series+1), fmt.Sprintf("there are %d values, and the bank has %d groups", n, r.Bank.Series)}}
	}
	return nil
}
