package rig

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"ampstead/history"
)

// story tells the events as "3 edit: bank: series 13 → 14".
func story(t *testing.T, s *Story) string {
	t.Helper()
	var lines []string
	for _, e := range s.Events {
		line := fmt.Sprintf("%d %s:", e.Number, e.Kind)
		for _, c := range e.Changes {
			line += fmt.Sprintf(" %s %s → %s", c.Label, c.Was, c.Is)
		}
		for text, is := range map[string]bool{" first": e.First, " text only": e.TextOnly, " unread": e.Unread != ""} {
			if is {
				line += text
			}
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}

func TestStory(t *testing.T) {
	path := onDisk(t, small).Path
	saved(t, path, 13)
	for _, text := range []string{small + "# a remark\n", "about: [", small} { // each found by the next save
		if err := os.WriteFile(path, []byte(text), 0o640); err != nil {
			t.Fatal(err)
		}
		if err := history.Keep(path, []byte(text), history.Mark{Kind: history.Outside}, clock()); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(path, []byte(strings.Replace(small, "12", "20", 1)), 0o640); err != nil {
		t.Fatal(err)
	}
	var c Chronicle
	for range 2 { // the second time from memory
		s, err := c.StoryOf(path, 0, -1)
		if err != nil {
			t.Fatal(err)
		}
		want := "0 outside: bank: series 12 → 20\n5 outside: unread\n4 outside: unread\n3 outside: bank: series 13 → 12\n2 edit: bank: series 12 → 13\n1 begin: first"
		if got := story(t, s); got != want || s.Older != 0 || s.Undo != 5 || s.Redo != 0 {
			t.Errorf("undo %d, redo %d, older %d; got\n%s\nwant\n%s", s.Undo, s.Redo, s.Older, got, want)
		}
	}
	s, err := StoryOf(path, 4, 2)
	if err != nil || len(s.Events) != 2 || s.Events[0].Number != 3 || s.Older != 1 {
		t.Errorf("%+v, %v", s, err)
	}
}

func TestKeptAndBefore(t *testing.T) {
	f := onDisk(t, small)
	if n, err := Before(f.Path, f.Text); n != 0 || err != nil {
		t.Errorf("before anything: %d, %v", n, err)
	}
	saved(t, f.Path, 13)
	n, err := Before(f.Path, onFile(t, f.Path))
	if n != 1 || err != nil {
		t.Fatalf("%d, %v", n, err)
	}
	g, err := Kept(f.Path, n)
	if err != nil || g.Rig.Bank.Series != 12 {
		t.Fatal(err)
	}
	if err := g.Save(); !errors.Is(err, ErrChanged) {
		t.Errorf("a version was saved as though it were the file: %v", err)
	}
	if _, err := Kept(f.Path, 9); !errors.Is(err, history.ErrUnknown) {
		t.Errorf("version 9: %v", err)
	}
}
