package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"
)

func TestAReadingComesBackAsItWent(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b := p.open(t)
		r := visit(3)
		r.Taken = r.Taken.Add(1234567 * time.Nanosecond).In(time.FixedZone("", 7200))
		want := r
		want.Version, want.Entered, want.Taken = 1, testNow, milli(r.Taken)
		if got := add(t, b, r); !reflect.DeepEqual(got, want) {
			t.Errorf("Add: %+v, want %+v", got, want)
		}
		b.Close()
		if got := readings(t, p.open(t)); !reflect.DeepEqual(got, []Reading{want}) {
			t.Errorf("after opening again: %+v, want %+v", got, want)
		}
	})
}

func TestSentTwiceIsStoredOnce(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		first := add(t, b, visit(1))
		again, fresh, err := b.Add(ctx, visit(1))
		if err != nil || fresh || !reflect.DeepEqual(again, first) {
			t.Errorf("again: %+v, fresh %v, %v", again, fresh, err)
		}
		other := visit(1)
		other.Groups[0] = num(3.802)
		if _, _, err := b.Add(ctx, other); !errors.Is(err, ErrConflict) || !strings.Contains(err.Error(), "visit-1") {
			t.Errorf("other content: %v", err)
		}
		corrected, err := b.Correct(ctx, Reading{ID: "visit-1", Version: 1, Taken: first.Taken, BankV: num(45.7)})
		if err != nil {
			t.Fatal(err)
		}
		late, fresh, err := b.Add(ctx, visit(1))
		if err != nil || fresh || !reflect.DeepEqual(late, corrected) {
			t.Errorf("sent once more after a correction: %+v, fresh %v, %v; want the correction", late, fresh, err)
		}
	})
}

func TestCorrectionsKeepHistory(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		first := add(t, b, visit(1))
		second := first
		second.Note = "read again"
		stored, err := b.Correct(ctx, second)
		if err != nil || stored.Version != 2 || stored.Note != "read again" {
			t.Fatalf("%+v, %v", stored, err)
		}
		if _, err := b.Correct(ctx, second); err != nil {
			t.Errorf("the same correction sent again: %v", err)
		}
		other := first
		other.Note = "something else"
		if _, err := b.Correct(ctx, other); !errors.Is(err, ErrChanged) {
			t.Errorf("a correction of a version that is no longer the latest: %v", err)
		}
		if err := b.Withdraw(ctx, "visit-1", 2, "wrong bank"); err != nil {
			t.Fatal(err)
		}
		if err := b.Withdraw(ctx, "visit-1", 2, "wrong bank"); err != nil {
			t.Errorf("withdrawn again: %v", err)
		}
		if got := readings(t, b); len(got) != 0 {
			t.Errorf("withdrawn, yet listed: %+v", got)
		}
		versions, err := b.Versions(ctx, "visit-1")
		if err != nil || len(versions) != 3 || !reflect.DeepEqual(versions[0], first) || versions[1].Note != "read again" || !versions[2].Gone {
			t.Fatalf("history: %+v, %v", versions, err)
		}
		if back, err := b.Correct(ctx, versions[2]); err != nil || back.Version != 4 || len(readings(t, b)) != 1 {
			t.Errorf("brought back: %+v, %v", back, err)
		}
		if _, err := b.Correct(ctx, Reading{ID: "nowhere", Version: 1, Taken: yearStart, Note: "x"}); !errors.Is(err, ErrUnknown) {
			t.Errorf("a correction of nothing: %v", err)
		}
		if err := b.Check(ctx); err != nil {
			t.Error(err)
		}
	})
}

func TestReadingsAreInOrderOfTime(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b := p.open(t)
		for _, i := range []int{5, 1, 9, 3} {
			add(t, b, visit(i))
		}
		twin := visit(3)
		twin.ID = "Visit-3" // the same instant: then by ID, bytewise, on either database
		add(t, b, twin)
		var ids []string
		for _, r := range readings(t, b) {
			ids = append(ids, r.ID)
		}
		if want := []string{"visit-1", "Visit-3", "visit-3", "visit-5", "visit-9"}; !reflect.DeepEqual(ids, want) {
			t.Errorf("%v, want %v", ids, want)
		}
	})
}

func TestAddAllIsAllOrNothing(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		add(t, b, visit(2))
		clash := visit(2)
		clash.Note = "another"
		if _, err := b.AddAll(ctx, []Reading{visit(1), clash, visit(3)}); !errors.Is(err, ErrConflict) || !strings.Contains(err.Error(), "reading 2") {
			t.Errorf("%v", err)
		}
		if n := len(readings(t, b)); n != 1 {
			t.Errorf("%d readings after a refused batch, want 1", n)
		}
		if fresh, err := b.AddAll(ctx, []Reading{visit(1), visit(2), visit(3), visit(3)}); err != nil || fresh != 2 {
			t.Errorf("fresh %d, %v, want 2", fresh, err)
		}
		if n := len(readings(t, b)); n != 3 {
			t.Errorf("%d readings, want 3", n)
		}
	})
}

func TestManyWritersStoreEachReadingOnce(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		books := []*Book{p.open(t), p.open(t)}
		const writers, each = 4, 15
		fresh := make([]int, writers)
		var all sync.WaitGroup
		for w := range writers {
			all.Go(func() {
				for i := range each {
					_, isFresh, err := books[w%2].Add(context.Background(), visit(i))
					if err != nil {
						t.Errorf("writer %d: %v", w, err)
					}
					if isFresh {
						fresh[w]++
					}
				}
			})
		}
		all.Wait()
		if sum := fresh[0] + fresh[1] + fresh[2] + fresh[3]; sum != each || len(readings(t, books[0])) != each {
			t.Errorf("fresh %v and %d stored, want %d of both", fresh, len(readings(t, books[0])), each)
		}
	})
}

func TestWhatCannotBeStoredNamesTheField(t *testing.T) {
	b := place{where: t.TempDir()}.open(t)
	for _, c := range []struct {
		field  string
		change func(*Reading)
	}{
		{"id", func(r *Reading) { r.ID = "" }},
		{"id", func(r *Reading) { r.ID = "a b" }},
		{"id", func(r *Reading) { r.ID = strings.Repeat("a", 65) }},
		{"taken", func(r *Reading) { r.Taken = time.Time{} }},
		{"taken", func(r *Reading) { r.Taken = testNow.AddDate(0, 0, 2) }},
		{"entered", func(r *Reading) { r.Entered = time.Unix(0, 0) }},
		{"groups_v.3", func(r *Reading) { r.Groups[2] = num(math.NaN()) }},
		{"groups_v.1", func(r *Reading) { r.Groups[0] = num(math.Inf(1)) }},
		{"groups_v", func(r *Reading) { r.Groups = make([]*float64, 513) }},
		{"bank_v", func(r *Reading) { r.BankV = num(1e7) }},
		{"current_a", func(r *Reading) { r.Amps = num(math.NaN()) }},
		{"rested_h", func(r *Reading) { r.RestH = num(math.Inf(-1)) }},
		{"counter_ah", func(r *Reading) { r.CountAh = num(math.NaN()) }},
		{"temperatures_c.2", func(r *Reading) { r.TempsC[1] = math.NaN() }},
		{"temperatures_c", func(r *Reading) { r.TempsC = make([]float64, 65) }},
		{"meter", func(r *Reading) { r.Meter = strings.Repeat("m", 65) }},
		{"note", func(r *Reading) { r.Note = strings.Repeat("n", 4001) }},
		{"note", func(r *Reading) { r.Note = "\xff" }},
		{"note", func(r *Reading) { r.Note = "a\x00b" }},
		{"groups_v", func(r *Reading) { *r = Reading{ID: r.ID, Taken: r.Taken, Groups: make([]*float64, 3)} }},
	} {
		r := visit(1)
		c.change(&r)
		var invalid *Invalid
		if _, _, err := b.Add(context.Background(), r); !errors.As(err, &invalid) || invalid.Field != c.field || invalid.Expected == "" {
			t.Errorf("%s: %v", c.field, err)
		}
	}
	if n := len(readings(t, b)); n != 0 {
		t.Errorf("%d were stored", n)
	}
}

func TestMetersAndDone(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		b, ctx := p.open(t), context.Background()
		for _, m := range []Meter{{"pocket", 0.01, 0.02}, {"bench", 0.001, 0.004}, {"pocket", 0.001, 0.005}} {
			if err := b.SetMeter(ctx, m); err != nil {
				t.Fatal(err)
			}
		}
		meters, err := b.Meters(ctx)
		if want := []Meter{{"bench", 0.001, 0.004}, {"pocket", 0.001, 0.005}}; err != nil || !reflect.DeepEqual(meters, want) {
			t.Errorf("%v, %v, want %v", meters, err, want)
		}
		done := []Done{
			{ID: "a", At: yearStart.AddDate(0, 1, 0), What: "balanced", Ah: []float64{0, -1.5}},
			{ID: "b", At: yearStart, What: "capacity test", Value: num(61.2), Note: "warm"},
		}
		for _, d := range append(done, done...) {
			if err := b.AddDone(ctx, d); err != nil {
				t.Fatal(err)
			}
		}
		got, err := b.Done(ctx)
		if want := []Done{done[1], done[0]}; err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%+v, %v, want %+v", got, err, want)
		}
		done[0].Note = "other"
		if err := b.AddDone(ctx, done[0]); !errors.Is(err, ErrConflict) {
			t.Errorf("another under the same ID: %v", err)
		}
		for field, err := range map[string]error{
			"name":          b.SetMeter(ctx, Meter{}),
			"error_v":       b.SetMeter(ctx, Meter{"x", 0.1, -1}),
			"step_v":        b.SetMeter(ctx, Meter{"x", math.NaN(), 1}),
			"id":            b.AddDone(ctx, Done{At: yearStart, What: "other"}),
			"what":          b.AddDone(ctx, Done{ID: "x", At: yearStart}),
			"at":            b.AddDone(ctx, Done{ID: "x", What: "other"}),
			"ah_by_group.1": b.AddDone(ctx, Done{ID: "x", What: "other", At: yearStart, Ah: []float64{math.NaN()}}),
		} {
			var invalid *Invalid
			if !errors.As(err, &invalid) || invalid.Field != field {
				t.Errorf("%s: %v", field, err)
			}
		}
	})
}

// Hundreds of rigs share a server: none sees another's.
func TestRigsOnAServerAreApart(t *testing.T) {
	p, ctx := place{server(t), true}, context.Background()
	curlew := p.open(t)
	dipper, err := Open(ctx, p.where, Options{Rig: "dipper", Now: testClock})
	if err != nil {
		t.Fatal(err)
	}
	defer dipper.Close()
	add(t, curlew, visit(1))
	if err := curlew.AddSamples(ctx, []Sample{{yearStart, "bank_v", 50}}); err != nil {
		t.Fatal(err)
	}
	other := visit(1)
	other.Note = "the same ID, another rig"
	add(t, dipper, other)
	if got := readings(t, curlew); len(got) != 1 || got[0].Note == other.Note {
		t.Errorf("%+v", got)
	}
	if names, err := dipper.Series(ctx); err != nil || len(names) != 0 {
		t.Errorf("%v, %v", names, err)
	}
	if _, err := Open(ctx, p.where, Options{}); err == nil {
		t.Error("opened without the rig's name")
	}
}

func TestReadingOnlyLeavesNothing(t *testing.T) {
	folder := t.TempDir()
	b := place{where: folder}.open(t)
	add(t, b, visit(1))
	b.Close()
	reader, err := Open(context.Background(), folder, Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	if n := len(readings(t, reader)); n != 1 {
		t.Errorf("%d readings", n)
	}
	if _, err := reader.db.Exec("DELETE FROM reading"); err == nil {
		t.Error("a reader could delete")
	}
	reader.Close()
	if left := files(t, folder); len(left) != 1 {
		t.Errorf("left %v", left)
	}
}

func TestReadingOnlyMakesNothing(t *testing.T) {
	folder, ctx := t.TempDir(), context.Background()
	b, err := Open(ctx, folder, Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if got := readings(t, b); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	if names, err := b.Series(ctx); err != nil || len(names) != 0 {
		t.Errorf("%v, %v", names, err)
	}
	if list, _, err := b.Chart(ctx, "bank_v", yearStart, testNow, 100); err != nil || len(list) != 0 {
		t.Errorf("%v, %v", list, err)
	}
	if _, _, err := b.Add(ctx, visit(1)); !errors.Is(err, ErrReadOnly) {
		t.Errorf("Add: %v", err)
	}
	if left := files(t, folder); len(left) != 0 {
		t.Errorf("made %v", left)
	}
	if _, err := Open(ctx, fmt.Sprint(folder, "/nowhere"), Options{}); err == nil {
		t.Error("opened in a folder that is not there")
	}
}

func TestAnyFolderNameWillDo(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "a b#c?d%41&e=ü'\"")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Skip(err)
	}
	rigFile := filepath.Join(folder, "rig.yaml")
	if err := os.WriteFile(rigFile, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	b := place{where: rigFile}.open(t)
	add(t, b, visit(1))
	b.Close()
	if got := files(t, folder); !reflect.DeepEqual(got, []string{FileName, "rig.yaml"}) {
		t.Errorf("%v", got)
	}
}

// A writer that is kept waiting too long is told so, and nothing of its entry is
// stored.
func TestBusy(t *testing.T) {
	onBoth(t, func(t *testing.T, p place) {
		holder, b, ctx := p.open(t), p.open(t), context.Background()
		b.db.SetMaxOpenConns(1) // the patience is a connection's
		patience := "PRAGMA busy_timeout = 20"
		if p.server {
			patience = "SET lock_timeout = 20"
		}
		if _, err := b.db.Exec(patience); err != nil {
			t.Fatal(err)
		}
		err := holder.write(ctx, func(*sql.Tx) error {
			_, _, err := b.Add(ctx, visit(1))
			return err
		})
		if !errors.Is(err, ErrBusy) {
			t.Errorf("%v", err)
		}
		if n := len(readings(t, b)); n != 0 {
			t.Errorf("%d readings", n)
		}
		add(t, b, visit(1))
	})
}
