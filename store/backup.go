package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Backup writes the logbook as it is at this moment to a new file, while others go
// on writing, and reads the copy through before it gets its name. A file that is
// there already is not overwritten (fs.ErrExist).
//
// From a server it is the logbook of this rig alone, as a file that a rig folder
// can take as its own; to back up all rigs at once, use the server's own tools.
func (b *Book) Backup(ctx context.Context, path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("backup to %s: %w", path, fs.ErrExist)
	}
	temp := filepath.Join(filepath.Dir(path), fmt.Sprintf(".backup-%d-%d.sqlite", os.Getpid(), b.now().UnixNano()))
	defer os.Remove(temp)
	if b.dialect.hold == "" {
		err = b.copyFile(ctx, temp)
	} else {
		err = b.exportFile(ctx, temp)
	}
	if err == nil {
		err = examineCopy(ctx, temp)
	}
	if err == nil {
		err = publish(temp, path)
	}
	if err != nil {
		return fmt.Errorf("backup to %s: %w", path, err)
	}
	return nil
}

// examineCopy reads through a file that nobody else knows of yet, making none
// beside it.
func examineCopy(ctx context.Context, path string) error {
	copied := &Book{dialect: sqliteDialect, name: path, readOnly: true}
	err := copied.connect(ctx, path, "immutable", reading)
	if copied.db != nil {
		defer copied.db.Close()
	}
	if err == nil {
		err = copied.chooseRig(ctx, "")
	}
	if err == nil {
		err = copied.Check(ctx)
	}
	return err
}

// rigTables are what a rig has rows in, and their columns besides the rig.
var rigTables = []struct{ name, columns string }{
	{"reading", "id, version, taken, gone, body, crc"},
	{"meter", "name, body, crc"},
	{"done", "id, at, body, crc"},
	{"series", "id, name"},
	{"chunk", "kind, slot, series, data"},
}

// exportFile copies the rows of this rig from one moment of the server into a
// file of their own.
func (b *Book) exportFile(ctx context.Context, path string) error {
	into, err := Open(ctx, path, Options{Now: b.now})
	if err != nil {
		return err
	}
	moment, err := b.db.BeginTx(ctx, &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true})
	if err != nil {
		return errors.Join(b.explain(err), into.Close())
	}
	defer moment.Rollback()
	err = into.write(ctx, func(tx *sql.Tx) error {
		thinned, err := b.thinned(ctx, moment)
		if err != nil {
			return b.explain(err)
		}
		if _, err := tx.ExecContext(ctx, "UPDATE rig SET thinned = ? WHERE id = ?", thinned, into.rig); err != nil {
			return err
		}
		for _, table := range rigTables {
			if err := b.copyTable(ctx, moment, tx, into, table.name, table.columns); err != nil {
				return err
			}
		}
		return nil
	})
	return errors.Join(err, into.Close())
}

func (b *Book) copyTable(ctx context.Context, from, to *sql.Tx, into *Book, table, columns string) error {
	n := strings.Count(columns, ",") + 1
	put, err := to.PrepareContext(ctx, fmt.Sprintf("INSERT INTO %s (%s, rig) VALUES (?%s)", table, columns, strings.Repeat(", ?", n)))
	if err != nil {
		return err
	}
	defer put.Close()
	rows, err := from.QueryContext(ctx, b.sql(fmt.Sprintf("SELECT %s FROM %s WHERE rig = $1", columns, table)), b.rig)
	if err != nil {
		return b.explain(err)
	}
	defer rows.Close()
	values, places := make([]any, n+1), make([]any, n)
	for i := range places {
		places[i] = &values[i]
	}
	values[n] = into.rig
	for rows.Next() {
		if err := rows.Scan(places...); err != nil {
			return b.explain(err)
		}
		if _, err := put.ExecContext(ctx, values...); err != nil {
			return err
		}
	}
	return b.explain(rows.Err())
}
