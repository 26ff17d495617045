package benchlog

import (
	"bytes"
	"slices"
	"testing"
)

func TestFields(t *testing.T) {
	tests := []struct {
		separator byte
		line      string
		want      []string
	}{
		{',', "1,2,3", []string{"1", "2", "3"}},
		{',', " 1 , ,3,", []string{"1", "", "3", ""}},
		{',', `"a,b",2,"say ""x""",4`, []string{"a,b", "2", `say "x"`, "4"}},
		{',', `"open,2`, []string{"open,2"}},
		{',', `"a" b,2`, []string{"a b", "2"}},
		{';', `"1,5";2`, []string{"1,5", "2"}},
		{'\t', "1\t\t3", []string{"1", "", "3"}},
		{' ', "  1   2\t3 ", []string{"1", "2", "3"}},
		{' ', `"10:00 AM"  2`, []string{"10:00 AM", "2"}},
		{',', "", []string{""}},
	}
	s := splitter{}
	for _, tt := range tests {
		s.separator = tt.separator
		var got []string
		for _, f := range s.split([]byte(tt.line)) {
			got = append(got, string(f))
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%q: %q, want %q", tt.line, got, tt.want)
		}
	}
}

// TestSplittingDoesNotAllocate: a million rows must not make a million objects.
func TestSplittingDoesNotAllocate(t *testing.T) {
	s := splitter{separator: ','}
	line := []byte(`1.0,"3,7",4.12,-2.0,25.5`)
	if n := testing.AllocsPerRun(100, func() { s.split(line) }); n > 0 {
		t.Errorf("%g allocations a line", n)
	}
}

func TestLines(t *testing.T) {
	long := bytes.Repeat([]byte("x"), headBytes+5000)
	in := newLines(bytes.NewReader(slices.Concat([]byte("a\r\n\nb\n"), long, []byte("\nc"))))
	in.head()
	var got []string
	for {
		line, isLong, ok := in.next()
		if !ok {
			break
		}
		if isLong {
			line = []byte("long")
		}
		got = append(got, string(line))
	}
	if want := []string{"a", "", "b", "long", "c"}; !slices.Equal(got, want) || in.number != 5 {
		t.Errorf("%q, %d lines", got, in.number)
	}
}
