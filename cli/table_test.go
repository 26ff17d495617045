package cli

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestTableLinesUpAndWraps(t *testing.T) {
	var tab table
	tab.row("at", "why")
	tab.row("25 °C", strings.Repeat("word ", 40))
	var out strings.Builder
	tab.print(&out)
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	if len(lines) != 4 {
		t.Fatalf("%d lines, want a head and three of words:\n%s", len(lines), out.String())
	}
	for _, line := range lines {
		if n := utf8.RuneCountInString(line); n > textWidth {
			t.Errorf("%d characters in %q", n, line)
		}
	}
	if lines[0] != "at     why" || lines[2][:7] != strings.Repeat(" ", 7) || lines[2][7] == ' ' {
		t.Errorf("columns do not line up:\n%s", out.String())
	}
}
