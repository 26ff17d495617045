package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"path/filepath"
	"strings"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"
)

// pragmas of every connection that writes.
//
// Journal: a write-ahead log, synchronised in full. An acknowledged entry costs
// one fsync of the log; the log's frames carry checksums chained from its start,
// so that after a power cut whatever the disk wrote in whatever order, recovery
// ends at the last whole transaction and a torn one is cut off. Readers (a chart,
// a backup) never wait for a writer nor make one wait. A rollback journal would
// need three fsyncs and, for the last word, one of the folder. The price: two
// files more (-wal, -shm) beside the logbook while it is open or after a crash,
// which a copy of the folder takes along, and no use over a network drive, where
// shared memory does not reach; that is what the server is for.
//
// busy_timeout, ms: how long a writer waits for one in another process.
// fullfsync: the disk's own cache, where the system makes a difference of it.
// cell_size_check: a damaged page is noticed when it is read.
// trusted_schema: a logbook from elsewhere cannot call functions from its tables.
// journal_size_limit, bytes: the log shrinks again after a large import.
var pragmas = []string{
	"busy_timeout(10000)",
	"journal_mode(wal)",
	"synchronous(full)",
	"fullfsync(1)",
	"checkpoint_fullfsync(1)",
	"cell_size_check(1)",
	"trusted_schema(0)",
	"journal_size_limit(16777216)",
	"cache_size(-16000)",
}

// pragmas of a connection that only reads.
var reading = []string{"busy_timeout(10000)", "cell_size_check(1)", "trusted_schema(0)", "query_only(1)"}

// dataSource is the driver's address of a file; mode is as in SQLite's URI manual.
func dataSource(path, mode string, pragmas []string) string {
	query := url.Values{"mode": {mode}, "_pragma": pragmas, "_txlock": {"immediate"}}
	if mode == "immutable" {
		query.Set("mode", "ro")
		query.Set("immutable", "1")
	}
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") { // a drive's letter
		path = "/" + path
	}
	address := url.URL{Scheme: "file", OmitHost: true, Path: path, RawQuery: query.Encode()}
	return address.String()
}

func (b *Book) connect(ctx context.Context, path, mode string, pragmas []string) error {
	db, err := sql.Open("sqlite", dataSource(path, mode, pragmas))
	if err != nil {
		return fmt.Errorf("%s: %w", b.name, err)
	}
	b.db = db
	db.SetMaxOpenConns(4)
	return b.explain(db.PingContext(ctx))
}

// sqliteCode sorts by the result codes of SQLite's manual; the low byte is the
// primary one.
func sqliteCode(err error) error {
	var e *sqlite.Error
	if !errors.As(err, &e) {
		return nil
	}
	switch e.Code() & 0xff {
	case lib.SQLITE_FULL:
		return ErrFull
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED:
		return ErrBusy
	case lib.SQLITE_CORRUPT, lib.SQLITE_NOTADB:
		return ErrDamaged
	case lib.SQLITE_READONLY, lib.SQLITE_CANTOPEN, lib.SQLITE_PERM:
		return ErrReadOnly
	}
	if e.Code() == lib.SQLITE_IOERR_SHMSIZE { // no room for the log's index
		return ErrFull
	}
	return nil
}

// isUnfinished tells that a write of a killed process must be undone or completed,
// which a connection for reading only may not do.
func isUnfinished(err error) bool {
	var e *sqlite.Error
	if !errors.As(err, &e) {
		return false
	}
	return e.Code() == lib.SQLITE_READONLY_ROLLBACK || e.Code() == lib.SQLITE_READONLY_RECOVERY || e.Code() == lib.SQLITE_READONLY_CANTINIT
}
