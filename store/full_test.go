package store

import (
	"context"
	"errors"
	"fmt"
	"testing"
)

// untilFull adds visits until there is no space, and returns how many were
// acknowledged.
func untilFull(t *testing.T, b *Book) int {
	t.Helper()
	for i := range 100_000 {
		r := childVisit("full", i)
		if _, _, err := b.Add(context.Background(), r); err != nil {
			if !errors.Is(err, ErrFull) {
				t.Fatalf("after %d: %v", i, err)
			}
			return i
		}
	}
	t.Fatal("never full")
	return 0
}

// stands checks that all acknowledged visits are there, and no other.
func stands(t *testing.T, b *Book, visits int) {
	t.Helper()
	if err := b.Check(context.Background()); err != nil {
		t.Error(err)
	}
	list := readings(t, b)
	if len(list) != visits {
		t.Fatalf("%d readings, %d were acknowledged", len(list), visits)
	}
	for i, r := range list {
		if !sameContent(r, must(b.first(childVisit("full", i)))) {
			t.Fatalf("reading %d is %+v", i, r)
		}
	}
}

// The database's own limit of size stands for a full disk anywhere; a real one is
// in full_linux_test.go.
func TestFull(t *testing.T) {
	folder := t.TempDir()
	b := place{where: folder}.open(t)
	b.db.SetMaxOpenConns(1) // the limit is a connection's
	var pages int
	if err := b.db.QueryRow("PRAGMA max_page_count = 60").Scan(&pages); err != nil || pages != 60 {
		t.Fatal(pages, err)
	}
	n := untilFull(t, b)
	if n < 10 {
		t.Errorf("full after %d visits", n)
	}
	stands(t, b, n)
	if _, err := b.AddAll(context.Background(), []Reading{visit(1), childVisit("x", 1), childVisit("x", 2), childVisit("x", 3)}); !errors.Is(err, ErrFull) {
		t.Errorf("a batch: %v", err)
	}
	if err := b.AddSamples(context.Background(), manySamples()); !errors.Is(err, ErrFull) {
		t.Errorf("live values: %v", err)
	}
	stands(t, b, n)
	if err := b.db.QueryRow("PRAGMA max_page_count = 6000").Scan(&pages); err != nil {
		t.Fatal(err)
	}
	add(t, b, childVisit("full", n))
	b.Close()
	stands(t, place{where: folder}.open(t), n+1)
}

func manySamples() []Sample {
	var list []Sample
	for s := range 20 {
		for _, w := range walk() {
			w.Series = fmt.Sprint("s", s)
			list = append(list, w)
		}
	}
	return list
}
