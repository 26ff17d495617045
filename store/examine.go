package store

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// examine looks at the file without opening it as a database, since opening can
// already change it. It tells whether there is one.
func (b *Book) examine(path string) (bool, error) {
	there, err := b.examineHeader(path)
	if errors.Is(err, ErrDamaged) { // or another process was just about to extend it
		there, err = b.examineHeader(path)
	}
	return there, err
}

func (b *Book) examineHeader(path string) (bool, error) {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return false, b.orphanLog(path)
	}
	if err != nil {
		return false, fmt.Errorf("the logbook cannot be read: %w", err)
	}
	defer file.Close()
	var header [100]byte
	if n, err := io.ReadFull(file, header[:]); err != nil {
		return false, b.damaged("holds %d bytes, less than the header of a logbook", n)
	}
	if string(header[:16]) != "SQLite format 3\x00" {
		return false, b.damaged("does not begin as a logbook does")
	}
	info, err := file.Stat()
	if err != nil {
		return false, err
	}
	return true, b.whole(path, header, info.Size())
}

// whole compares the size that the header tells with the file's. Where there is
// something to recover from, the database itself finds out.
func (b *Book) whole(path string, header [100]byte, size int64) error {
	if hasContent(path+"-wal") || hasContent(path+"-journal") {
		return nil
	}
	page := int64(binary.BigEndian.Uint16(header[16:]))
	if page == 1 {
		page = 65536
	}
	pages := int64(binary.BigEndian.Uint32(header[28:]))
	told := string(header[24:28]) == string(header[92:96]) // else the count is not kept up
	if told && size < pages*page {
		return b.damaged("is cut short: %d of %d bytes", size, pages*page)
	}
	return nil
}

func hasContent(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Size() > 0
}

// orphanLog refuses to begin a new logbook beside the log of a lost one, which
// the new one would take for its own.
func (b *Book) orphanLog(path string) error {
	if hasContent(path + "-wal") {
		return fmt.Errorf("%s is missing, but its log %s-wal is there: %w", path, filepath.Base(path), ErrDamaged)
	}
	return nil
}

func (b *Book) damaged(format string, args ...any) error {
	return fmt.Errorf("%s %s: %w", b.name, fmt.Sprintf(format, args...), ErrDamaged)
}

// examineTables opens the file for reading only, so that a damaged one stays as it
// is with its log, and has the small tables checked. The live values are left to
// Check: they may be large, and each piece of them carries its own checksum. What
// a killed process left half done cannot be undone so; then opening for writing
// does that first.
func (b *Book) examineTables(ctx context.Context, path string) error {
	err := b.connect(ctx, path, readMode(path), reading)
	if b.db != nil {
		defer b.db.Close()
	}
	if err == nil {
		err = b.checkTables(ctx)
	}
	if !b.readOnly && isUnfinished(err) {
		return nil
	}
	return err
}

func (b *Book) checkTables(ctx context.Context) error {
	if err := b.isLogbook(ctx); err != nil {
		return err
	}
	for _, table := range []string{"logbook_version", "rig", "reading", "meter", "done"} {
		if err := b.quickCheck(ctx, "quick_check('"+table+"')"); err != nil {
			return err
		}
	}
	return nil
}

func (b *Book) isLogbook(ctx context.Context) error {
	var n int
	err := b.db.QueryRowContext(ctx, "SELECT count(*) FROM sqlite_schema WHERE name = 'logbook_version'").Scan(&n)
	if err == nil && n == 0 {
		return b.damaged("is a database, but no logbook")
	}
	return b.explain(err)
}

func (b *Book) quickCheck(ctx context.Context, pragma string) error {
	var told string
	err := b.db.QueryRowContext(ctx, "PRAGMA "+pragma).Scan(&told)
	if err != nil {
		return b.explain(err)
	}
	if told != "ok" {
		return b.damaged("does not hold together (%s)", told)
	}
	return nil
}
