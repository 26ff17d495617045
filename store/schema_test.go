package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// A logbook of each older version is in testdata as that version wrote it. When a
// migration is added, the fixture of the version before it is added here and stays.
func TestOlderLogbooksOpenWithAllTheyHold(t *testing.T) {
	steps := must(migrations())
	fixtures := must(filepath.Glob("testdata/version-*.sqlite"))
	if len(fixtures) != len(steps) {
		t.Fatalf("%d fixtures for %d versions", len(fixtures), len(steps))
	}
	for _, fixture := range fixtures {
		t.Run(filepath.Base(fixture), func(t *testing.T) {
			folder := t.TempDir()
			put(t, folder, map[string][]byte{FileName: must(os.ReadFile(fixture))})
			holdsFixture(t, place{where: folder}.open(t))
		})
	}
}

// fillFixture is what each version's fixture holds.
func fillFixture(t *testing.T, b *Book) {
	ctx := context.Background()
	first := add(t, b, visit(1))
	first.Note = "corrected"
	must(b.Correct(ctx, first))
	add(t, b, visit(2))
	if err := errors.Join(b.Withdraw(ctx, "visit-2", 1, "wrong bank"), b.SetMeter(ctx, Meter{"bench", 0.001, 0.004}),
		b.AddDone(ctx, Done{ID: "d", At: yearStart, What: "balanced", Ah: []float64{0, -1.5}}),
		b.AddSamples(ctx, walk()[:500])); err != nil {
		t.Fatal(err)
	}
	must(b.Thin(ctx, walk()[100].At))
}

func holdsFixture(t *testing.T, b *Book) {
	t.Helper()
	ctx := context.Background()
	if err := b.Check(ctx); err != nil {
		t.Fatal(err)
	}
	got := readings(t, b)
	want := must(b.first(visit(1)))
	want.Version, want.Note = 2, "corrected"
	if len(got) != 1 || !reflect.DeepEqual(got[0], want) {
		t.Errorf("readings %+v, want %+v", got, want)
	}
	if v := must(b.Versions(ctx, "visit-2")); len(v) != 2 || !v[1].Gone {
		t.Errorf("withdrawn: %+v", v)
	}
	if m := must(b.Meters(ctx)); len(m) != 1 || m[0] != (Meter{"bench", 0.001, 0.004}) {
		t.Errorf("meters: %+v", m)
	}
	if d := must(b.Done(ctx)); len(d) != 1 || d[0].What != "balanced" || len(d[0].Ah) != 2 {
		t.Errorf("done: %+v", d)
	}
	samples := walk()[:500]
	list, _ := chartOf(t, b, "group_1_v", samples[0].At, samples[499].At.Add(1e9), 1500)
	sameBuckets(t, list, expected(samples, samples[0].At, samples[499].At.Add(1e9), list[0].Width), 1.5e-6)
	add(t, b, visit(9))
}

// TestWriteFixture writes the present version's fixture when it is not there.
func TestWriteFixture(t *testing.T) {
	path := filepath.Join("testdata", fmt.Sprintf("version-%d.sqlite", len(must(migrations()))))
	if _, err := os.Stat(path); err == nil {
		t.Skip("there")
	}
	b := place{where: t.TempDir()}.open(t)
	fillFixture(t, b)
	if err := b.Backup(context.Background(), path); err != nil {
		t.Fatal(err)
	}
}

func versionOf(t *testing.T, b *Book) int {
	t.Helper()
	return must(b.version(context.Background(), b.db))
}

func TestAMigrationChangesAllOrNothing(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		fillFixture(t, b)
		steps := must(migrations())
		adds := append(steps, "CREATE TABLE extra (n BIGINT NOT NULL); INSERT INTO extra (n) VALUES (7);")
		fails := append(adds[:len(adds):len(adds)], "INSERT INTO extra (n) VALUES (8); INSERT INTO nowhere VALUES (1);")
		if err := b.migrate(ctx, fails); err == nil || !strings.Contains(err.Error(), "version 3") {
			t.Fatalf("a step that fails: %v", err)
		}
		if v := versionOf(t, b); v != len(steps) {
			t.Errorf("version %d after it, want %d", v, len(steps))
		}
		if _, err := b.db.Exec("SELECT n FROM extra"); err == nil {
			t.Error("half a migration was kept")
		}
		holdsFixture(t, b)
		for range 2 { // the second time it has nothing to do
			if err := b.migrate(ctx, adds); err != nil {
				t.Fatal(err)
			}
		}
		var n int
		if err := b.db.QueryRow("SELECT sum(n) FROM extra").Scan(&n); err != nil || n != 7 {
			t.Errorf("%d, %v, want 7", n, err)
		}
	})
}

func TestATableOfALaterVersionIsRefused(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		add(t, b, visit(1))
		if _, err := b.db.Exec("INSERT INTO logbook_version (version) VALUES (99)"); err != nil {
			t.Fatal(err)
		}
		b.Close()
		for _, readOnly := range []bool{false, true} {
			_, err := Open(ctx, p.where, Options{Rig: "curlew", ReadOnly: readOnly})
			if !errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), "99") {
				t.Errorf("read only %v: %v", readOnly, err)
			}
		}
	})
}

// An older logbook that may only be read is not brought up to date behind the
// reader's back.
func TestAnOlderOneIsNotChangedByReading(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b := p.open(t)
		b.readOnly = true
		err := b.upToDate(context.Background(), append(must(migrations()), "SELECT 1"))
		if !errors.Is(err, ErrReadOnly) {
			t.Errorf("%v", err)
		}
		if v := versionOf(t, b); v != len(must(migrations())) {
			t.Errorf("version %d", v)
		}
	})
}

func TestManyOpenAtOnce(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		const n = 6
		errs := make(chan error, n)
		for range n {
			go func() {
				b, err := Open(context.Background(), p.where, Options{Rig: "curlew"})
				if err == nil {
					err = b.Close()
				}
				errs <- err
			}()
		}
		for range n {
			if err := <-errs; err != nil {
				t.Error(err)
			}
		}
	})
}

// A server is not changed by one that only reads, and a rig it has never seen reads
// as empty.
func TestReadingOnlyFromAServer(t *testing.T) {
	p, ctx := place{server(t), true}, context.Background()
	if _, err := Open(ctx, p.where, Options{Rig: "curlew", ReadOnly: true}); err == nil || !strings.Contains(err.Error(), "no tables yet") {
		t.Errorf("before there are tables: %v", err)
	}
	fillFixture(t, p.open(t))
	for rig, want := range map[string]int{"curlew": 1, "dipper": 0} {
		b, err := Open(ctx, p.where, Options{Rig: rig, ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		if n := len(readings(t, b)); n != want {
			t.Errorf("%s: %d readings, want %d", rig, n, want)
		}
		if _, err := b.db.Exec("DELETE FROM reading"); !errors.Is(b.explain(err), ErrReadOnly) {
			t.Errorf("%s: a reader's delete: %v", rig, err)
		}
	}
}
