package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// migrations are the steps from each version of the tables to the next, by number.
func migrations() ([]string, error) {
	names, err := fs.Glob(migrationFiles, "migrations/*.sql")
	if err != nil {
		return nil, err
	}
	steps := make([]string, len(names))
	for i, name := range names {
		if want := fmt.Sprintf("migrations/%04d.sql", i+1); name != want {
			return nil, fmt.Errorf("%s stands where %s belongs", name, want)
		}
		text, err := migrationFiles.ReadFile(name)
		if err != nil {
			return nil, err
		}
		steps[i] = string(text)
	}
	return steps, nil
}

// version reads which version the tables have; 0 is a database without any.
func (b *Book) version(ctx context.Context, q queryer) (int, error) {
	if _, err := q.ExecContext(ctx, "CREATE TABLE IF NOT EXISTS logbook_version (version BIGINT NOT NULL)"); err != nil {
		return 0, err
	}
	var version sql.NullInt64
	err := q.QueryRowContext(ctx, "SELECT max(version) FROM logbook_version").Scan(&version)
	return int(version.Int64), err
}

// queryer is a transaction or the database.
type queryer interface {
	ExecContext(context.Context, string, ...any) (sql.Result, error)
	QueryContext(context.Context, string, ...any) (*sql.Rows, error)
	QueryRowContext(context.Context, string, ...any) *sql.Row
}

// migrate brings the tables to the last of the steps, in one transaction: a step
// that fails or is killed leaves the version that was there.
func (b *Book) migrate(ctx context.Context, steps []string) error {
	return b.explain(b.transact(ctx, func(tx *sql.Tx) error {
		if b.dialect.alone != "" {
			if _, err := tx.ExecContext(ctx, b.dialect.alone); err != nil {
				return err
			}
		}
		version, err := b.version(ctx, tx)
		if err != nil {
			return err
		}
		if err := b.known(version, len(steps)); err != nil {
			return err
		}
		for i := version; i < len(steps); i++ {
			if err := b.step(ctx, tx, i+1, steps[i]); err != nil {
				return fmt.Errorf("%s: bringing the tables to version %d: %w", b.name, i+1, err)
			}
		}
		return nil
	}))
}

func (b *Book) step(ctx context.Context, tx *sql.Tx, version int, text string) error {
	if _, err := tx.ExecContext(ctx, b.dialect.schema.Replace(text)); err != nil {
		return err
	}
	_, err := tx.ExecContext(ctx, b.sql("INSERT INTO logbook_version (version) VALUES ($1)"), version)
	return err
}

func (b *Book) known(version, last int) error {
	if version > last {
		return fmt.Errorf("%s has tables of version %d, this program knows %d: %w", b.name, version, last, ErrNewer)
	}
	return nil
}

// chooseRig finds the rig's number, and enters a rig that is not there yet.
func (b *Book) chooseRig(ctx context.Context, name string) error {
	find := func(q queryer) error {
		return q.QueryRowContext(ctx, b.sql("SELECT id FROM rig WHERE name = $1"), name).Scan(&b.rig)
	}
	if err := find(b.db); err != sql.ErrNoRows || b.readOnly {
		if err == sql.ErrNoRows {
			return nil // reads as empty
		}
		return b.explain(err)
	}
	return b.explain(b.transact(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, b.sql("INSERT INTO rig (name, thinned) VALUES ($1, 0) ON CONFLICT (name) DO NOTHING"), name); err != nil {
			return err
		}
		return find(tx)
	}))
}
