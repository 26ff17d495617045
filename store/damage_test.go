package store

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// content is every file of a folder.
func content(t testing.TB, folder string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		text, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		all[e.Name()] = text
	}
	return all
}

func files(t testing.TB, folder string) []string {
	return slices.Sorted(maps.Keys(content(t, folder)))
}

func put(t testing.TB, folder string, all map[string][]byte) {
	t.Helper()
	for name, text := range all {
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// filled is a folder's content with so many visits and some live values; open
// leaves it as a killed process would, with the log beside it.
func filled(t testing.TB, visits int, open bool) map[string][]byte {
	t.Helper()
	folder := t.TempDir()
	b := place{where: folder}.open(t)
	for i := range visits {
		add(t, b, visit(i))
	}
	feed(t, b, walk())
	if !open {
		b.Close()
	}
	return content(t, folder)
}

// A damaged file is told by name, at the first look or at the check, and stays as
// it is, its log included.
func TestADamagedLogbookIsReportedAndKept(t *testing.T) {
	whole, live := filled(t, 300, false), filled(t, 300, true)
	if len(live[FileName+"-wal"]) == 0 {
		t.Fatal("no log beside the open logbook")
	}
	for _, c := range []struct {
		name   string
		from   map[string][]byte
		damage func(file []byte) []byte
	}{
		{"garbage at the head", whole, func(f []byte) []byte { copy(f, "no database at all"); return f }},
		{"garbage at the head, with log", live, func(f []byte) []byte { copy(f, "no database at all"); return f }},
		{"cut in half", whole, func(f []byte) []byte { return f[:len(f)/2] }},
		{"cut by a byte", whole, func(f []byte) []byte { return f[:len(f)-1] }},
		{"cut to a page", whole, func(f []byte) []byte { return f[:4096] }},
		{"cut to less than a header", whole, func(f []byte) []byte { return f[:50] }},
		{"empty", whole, func(f []byte) []byte { return nil }},
		{"text", whole, func(f []byte) []byte { return []byte(strings.Repeat("time;group 1\n", 100)) }},
		{"zeros over the tables", whole, func(f []byte) []byte { clear(f[100:4096]); return f }},
		{"noise in the readings", whole, func(f []byte) []byte {
			at := bytes.Index(f, []byte(`{"id":"visit-7"`)) &^ 4095
			rng := rand.New(rand.NewPCG(1, 1))
			for i := range 4096 {
				f[at+i] = byte(rng.Uint32())
			}
			return f
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder, ctx := t.TempDir(), context.Background()
			before := maps.Clone(c.from)
			before[FileName] = c.damage(bytes.Clone(before[FileName]))
			put(t, folder, before)
			for _, readOnly := range []bool{true, false} {
				b, err := Open(ctx, folder, Options{ReadOnly: readOnly})
				if err == nil {
					b.Close()
				}
				if !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), filepath.Join(folder, FileName)) {
					t.Errorf("read only %v: %v", readOnly, err)
				}
			}
			after := content(t, folder)
			for _, all := range []map[string][]byte{before, after} {
				delete(all, FileName+"-shm") // the log's index holds nothing of its own
				if len(all[FileName+"-wal"]) == 0 {
					delete(all, FileName+"-wal")
				}
			}
			if !maps.EqualFunc(before, after, bytes.Equal) {
				t.Errorf("changed: %v before, %v after", slices.Sorted(maps.Keys(before)), slices.Sorted(maps.Keys(after)))
			}
		})
	}
}

// With a log beside it, a file cut short may still be whole: the log has the rest.
// Else it is reported; what never happens is that entries are missing and all
// seems well.
func TestACutFileWithALogIsWholeOrReported(t *testing.T) {
	live, ctx := filled(t, 300, true), context.Background()
	rng := rand.New(rand.NewPCG(9, 9))
	for range 20 {
		before, folder := maps.Clone(live), t.TempDir()
		before[FileName] = before[FileName][:100+rng.IntN(len(before[FileName])-100)]
		put(t, folder, before)
		b, err := Open(ctx, folder, Options{Now: testClock})
		if err != nil {
			after := content(t, folder)
			if !errors.Is(err, ErrDamaged) || !bytes.Equal(after[FileName], before[FileName]) || !bytes.Equal(after[FileName+"-wal"], before[FileName+"-wal"]) {
				t.Errorf("cut to %d: %v, or the file was changed", len(before[FileName]), err)
			}
			continue
		}
		if err := b.Check(ctx); err == nil && len(readings(t, b)) != 300 {
			t.Errorf("cut to %d: opened with %d of 300 readings", len(before[FileName]), len(readings(t, b)))
		}
		b.Close()
	}
}

func TestOneChangedDigitIsFound(t *testing.T) {
	whole := filled(t, 30, false)
	at := bytes.LastIndex(whole[FileName], []byte(`"bank_v":45.6`))
	whole[FileName][at+len(`"bank_v":45.`)] = '7'
	folder := t.TempDir()
	put(t, folder, whole)
	b := place{where: folder}.open(t)
	if err := b.Check(context.Background()); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), "checksum") {
		t.Errorf("Check: %v", err)
	}
	if _, err := b.Readings(context.Background()); !errors.Is(err, ErrDamaged) {
		t.Errorf("Readings: %v", err)
	}
}

func TestAChangedLiveValueIsFound(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		feed(t, b, walk())
		if _, err := b.db.Exec(b.sql("UPDATE chunk SET data = $1 WHERE kind = 0"), []byte{format, 0, 0, 0, 0, 0, 0}); err != nil {
			t.Fatal(err)
		}
		if err := b.Check(ctx); !errors.Is(err, ErrDamaged) {
			t.Errorf("Check: %v", err)
		}
		if _, _, err := b.Chart(ctx, "group_1_v", yearStart, yearStart.Add(12*time.Hour), 2000); !errors.Is(err, ErrDamaged) {
			t.Errorf("Chart: %v", err)
		}
		if err := b.AddSamples(ctx, []Sample{{walk()[0].At.Add(1), "group_1_v", 3}}); !errors.Is(err, ErrDamaged) {
			t.Errorf("AddSamples: %v", err)
		}
	})
}

func TestAnotherDatabaseIsNoLogbook(t *testing.T) {
	folder := t.TempDir()
	other := &Book{dialect: sqliteDialect}
	if err := other.connect(context.Background(), filepath.Join(folder, FileName), "rwc", nil); err != nil {
		t.Fatal(err)
	}
	if _, err := other.db.Exec("CREATE TABLE recipes (name TEXT)"); err != nil {
		t.Fatal(err)
	}
	other.db.Close()
	if _, err := Open(context.Background(), folder, Options{}); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), "no logbook") {
		t.Errorf("%v", err)
	}
}

func TestALogWithoutItsLogbookIsKept(t *testing.T) {
	live, folder := filled(t, 3, true), t.TempDir()
	delete(live, FileName)
	put(t, folder, live)
	if _, err := Open(context.Background(), folder, Options{}); !errors.Is(err, ErrDamaged) {
		t.Errorf("%v", err)
	}
	if _, err := os.Stat(filepath.Join(folder, FileName)); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a new logbook beside the old one's log: %v", err)
	}
}

// After a power cut the log may end anywhere, and what was written last may be
// there in part or wrong. What opens is then a beginning of what was written,
// whole to the last entry.
func TestAPowerCutLeavesABeginning(t *testing.T) {
	const visits = 40
	folder, ctx := t.TempDir(), context.Background()
	b := place{where: folder}.open(t)
	var ends []int64 // of the log after each acknowledged visit
	for i := range visits {
		add(t, b, visit(i))
		info, err := os.Stat(filepath.Join(folder, FileName+"-wal"))
		if err != nil {
			t.Fatal(err)
		}
		ends = append(ends, info.Size())
	}
	all := content(t, folder)
	log := all[FileName+"-wal"]
	delete(all, FileName+"-shm")
	rng := rand.New(rand.NewPCG(7, 7))
	for try := range 60 {
		at := rng.IntN(len(log))
		cut := bytes.Clone(log[:at])
		if try%2 == 1 { // or the rest of it never reached the disk in this form
			cut = bytes.Clone(log)
			for i := at; i < len(cut); i++ {
				cut[i] = byte(rng.Uint32())
			}
		}
		folder := t.TempDir()
		put(t, folder, all)
		put(t, folder, map[string][]byte{FileName + "-wal": cut})
		b, err := Open(ctx, folder, Options{Now: testClock})
		if err != nil {
			t.Fatalf("cut at %d: %v", at, err)
		}
		kept, whole := readings(t, b), 0
		for _, end := range ends {
			if end <= int64(at) {
				whole++
			}
		}
		if len(kept) != whole {
			t.Errorf("cut at %d of %d: %d visits, want the %d whose log was whole", at, len(log), len(kept), whole)
		}
		for i, r := range kept {
			if !sameContent(r, must(b.first(visit(i)))) {
				t.Errorf("cut at %d: visit %d is %+v", at, i, r)
			}
		}
		if err := b.Check(ctx); err != nil {
			t.Errorf("cut at %d: %v", at, err)
		}
		b.Close()
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// That an acknowledged entry is on the disk rests on these two settings, on every
// connection.
func TestEachCommitIsSynchronised(t *testing.T) {
	b := place{where: t.TempDir()}.open(t)
	for range 4 {
		conn, err := b.db.Conn(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		var journal, synchronous string
		if err := conn.QueryRowContext(context.Background(), "PRAGMA journal_mode").Scan(&journal); err != nil {
			t.Fatal(err)
		}
		if err := conn.QueryRowContext(context.Background(), "PRAGMA synchronous").Scan(&synchronous); err != nil {
			t.Fatal(err)
		}
		if journal != "wal" || synchronous != "2" {
			t.Errorf("journal %s, synchronous %s, want wal and 2 (full)", journal, synchronous)
		}
	}
}
