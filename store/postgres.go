package store

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/stdlib"
)

// openServer opens a rig on a PostgreSQL server. synchronous_commit is set here
// because an entry is acknowledged only when it would survive a power cut,
// whatever the server is set to; a lock is waited for 10 s.
func (b *Book) openServer(ctx context.Context, where, rig string) error {
	b.dialect = postgresDialect
	config, err := pgx.ParseConfig(where)
	if err != nil {
		return fmt.Errorf("the database's address cannot be read: %w", err)
	}
	b.name = fmt.Sprintf("logbook of %q on %s", rig, config.Host)
	if rig == "" || len(rig) > 200 || strings.ContainsRune(rig, 0) {
		return &Invalid{"rig", "a shared database needs the rig's name", "1 to 200 characters"}
	}
	config.RuntimeParams["synchronous_commit"] = "on"
	config.RuntimeParams["lock_timeout"] = "10s"
	if b.readOnly {
		config.RuntimeParams["default_transaction_read_only"] = "on"
	}
	b.db = stdlib.OpenDB(*config)
	b.db.SetMaxOpenConns(4)
	if err := b.db.PingContext(ctx); err != nil {
		return fmt.Errorf("%s cannot be reached: %w", b.name, err)
	}
	steps, err := migrations()
	if err != nil {
		return err
	}
	if err := b.upToDate(ctx, steps); err != nil {
		return err
	}
	return b.chooseRig(ctx, rig)
}

// upToDate migrates, or for reading only looks whether that is needed.
func (b *Book) upToDate(ctx context.Context, steps []string) error {
	if !b.readOnly {
		return b.migrate(ctx, steps)
	}
	var version int
	err := b.db.QueryRowContext(ctx, "SELECT max(version) FROM logbook_version").Scan(&version)
	if err != nil {
		return b.explain(fmt.Errorf("%s has no tables yet; open it for writing once: %w", b.name, err))
	}
	if version < len(steps) {
		return fmt.Errorf("%s has tables of version %d, this program needs %d; open it for writing once: %w", b.name, version, len(steps), ErrReadOnly)
	}
	return b.known(version, len(steps))
}

// postgresCode sorts by SQLSTATE, as listed in the server's manual, "PostgreSQL
// Error Codes".
func postgresCode(err error) error {
	var e *pgconn.PgError
	if !errors.As(err, &e) {
		return nil
	}
	switch e.Code {
	case "53100": // disk full
		return ErrFull
	case "55P03", "40001", "40P01", "53300": // lock not available, serialization, deadlock, too many connections
		return ErrBusy
	case "XX001", "XX002": // data, index corrupted
		return ErrDamaged
	case "25006", "42501": // read-only transaction, insufficient privilege
		return ErrReadOnly
	}
	return nil
}
