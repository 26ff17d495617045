// Package golden compares outputs with expected files; run the test with
// -update to rewrite them.
//
// May import: the standard library only. For tests.
package golden

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the expected files")

// Check compares got with testdata/name.
func Check(t testing.TB, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (run with -update to write it)", err)
	}
	if line, g, w := firstDifference(got, want); line > 0 {
		t.Errorf("%s:%d differs (run with -update to accept it)\n got: %s\nwant: %s", path, line, g, w)
	}
}

// firstDifference returns the number of the first line in which a and b differ
// and that line of each, or 0 when they are equal.
func firstDifference(a, b []byte) (line int, inA, inB string) {
	if bytes.Equal(a, b) {
		return 0, "", ""
	}
	linesA, linesB := bytes.SplitAfter(a, []byte("\n")), bytes.SplitAfter(b, []byte("\n"))
	i := 0
	for i < len(linesA) && i < len(linesB) && bytes.Equal(linesA[i], linesB[i]) {
		i++
	}
	return i + 1, lineAt(linesA, i), lineAt(linesB, i)
}

// lineAt quotes at most 200 bytes of a line.
func lineAt(lines [][]byte, i int) string {
	if i >= len(lines) {
		return "(end of file)"
	}
	return fmt.Sprintf("%q", lines[i][:min(len(lines[i]), 200)])
}
