package sheet

import "testing"

func TestWordsLeaveTheColumns(t *testing.T) {
	long := "a table of a regulation, one of its columns, times a factor"
	f := Figure{Terms: []Term{{Name: "size"}, {Name: "ampacity", Out: true}, {Name: "basis", Out: true}},
		Uses: [][]Term{{{Text: "50 mm²"}, {Text: "210 A", Out: true}, {Text: long, Out: true}}, {{Text: "16 mm²"}, {Text: "90 A", Out: true}, {Text: "short", Out: true}}}}
	f.noteWords()
	if len(f.Terms) != 2 || len(f.Uses[0]) != 2 || len(f.Uses[1]) != 2 || f.Uses[1][1].Text != "90 A" {
		t.Errorf("columns %v, uses %v", f.Terms, f.Uses)
	}
	if len(f.Notes) != 2 || f.Notes[0] != "basis: "+long {
		t.Errorf("notes %q", f.Notes)
	}
}
