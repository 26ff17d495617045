package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
	"time"
)

// Options say how a logbook is opened.
type Options struct {
	Rig      string           // name of the rig; needed on a shared database, unused in a folder
	ReadOnly bool             // a logbook that is not there yet then reads as empty
	Now      func() time.Time // nil is the machine's clock
}

// Book is an open logbook. It is safe for concurrent use, and several processes
// may have the same one open.
type Book struct {
	db       *sql.DB
	dialect  dialect
	name     string // for messages: the file, or the server and the rig
	rig      int64
	readOnly bool
	now      func() time.Time
	turn     chan struct{} // held by the one that writes
}

// Open opens the logbook of a rig folder (or of the folder that a rig.yaml is in,
// or a file that ends in .sqlite), or with where = postgres://... the rig called
// o.Rig on a PostgreSQL server. What is not there is made, what is older is
// brought up to date. Errors wrap ErrDamaged, ErrNewer, ErrBusy, ErrFull or
// ErrReadOnly where one of them applies.
func Open(ctx context.Context, where string, o Options) (*Book, error) {
	b := &Book{readOnly: o.ReadOnly, now: o.Now, turn: make(chan struct{}, 1)}
	if b.now == nil {
		b.now = time.Now
	}
	if err := b.open(ctx, where, o.Rig); err != nil {
		if b.db != nil {
			b.db.Close()
		}
		return nil, err
	}
	return b, nil
}

func (b *Book) open(ctx context.Context, where, rig string) error {
	if IsServer(where) {
		return b.openServer(ctx, where, rig)
	}
	return b.openFile(ctx, where)
}

// IsServer tells the address of a database server from a place in a folder.
func IsServer(where string) bool {
	return strings.HasPrefix(where, "postgres://") || strings.HasPrefix(where, "postgresql://")
}

// Close ends the work with the logbook.
func (b *Book) Close() error {
	return b.explain(b.db.Close())
}

// write does something in one transaction, as the only one that writes to this
// rig. Either all of it is stored, on the disk and not only in its cache, when
// write returns nil, or none of it.
func (b *Book) write(ctx context.Context, do func(*sql.Tx) error) error {
	if b.readOnly {
		return fmt.Errorf("%s is open for reading only: %w", b.name, ErrReadOnly)
	}
	select {
	case b.turn <- struct{}{}:
		defer func() { <-b.turn }()
	case <-ctx.Done():
		return ctx.Err()
	}
	return b.explain(b.transact(ctx, do))
}

func (b *Book) transact(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := b.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if b.dialect.hold != "" && b.rig != 0 {
		if _, err := tx.ExecContext(ctx, b.dialect.hold, b.rig); err != nil {
			return err
		}
	}
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}

// sql rewrites a statement for the database at hand.
func (b *Book) sql(statement string) string { return b.dialect.parameters.Replace(statement) }

// explain puts the logbook's name and, where it is known, the kind of trouble to
// a database's error. Errors of our own pass as they are.
func (b *Book) explain(err error) error {
	if err == nil || isOurs(err) {
		return err
	}
	if kind := b.dialect.code(err); kind != nil {
		return fmt.Errorf("%s: %w (%w)", b.name, kind, err)
	}
	return fmt.Errorf("%s: %w", b.name, err)
}
