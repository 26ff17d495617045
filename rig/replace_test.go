package rig

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func TestReplaceMendsADamagedFileButNotOneChangedMeanwhile(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	damaged := []byte("about: {name: [\n")
	if err := os.WriteFile(path, damaged, 0o600); err != nil {
		t.Fatal(err)
	}
	mended, err := Parse(path, []byte("about: {name: Dipper}\nbank: {cell: lfp, series: 8, cell_capacity: 100 Ah}\n"))
	if err != nil {
		t.Fatal(err)
	}
	if err := mended.Replace([]byte("something else")); !errors.Is(err, ErrChanged) {
		t.Fatalf("Replace of other bytes = %v, want ErrChanged", err)
	}
	if err := mended.Replace(damaged); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(path); string(got) != string(mended.Text) {
		t.Fatalf("on disk: %q", got)
	}
}
