package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"ampstead/internal/shared"
)

// The tables in the repository are what the published grids give.
func TestTablesAreDerived(t *testing.T) {
	from := filepath.Dir(shared.Path(t, "data/weather/climate-ghi-1deg.csv.gz"))
	to := t.TempDir()
	if err := run(from, to); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"climate.bin.gz", "places.txt.gz"} {
		got, err := os.ReadFile(filepath.Join(to, name))
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(filepath.Join("..", name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what the grids give; run go generate ./weather/climate", name)
		}
	}
}

func TestMissingFolder(t *testing.T) {
	if err := run(t.TempDir(), t.TempDir()); err == nil {
		t.Error("no error without files")
	}
}
