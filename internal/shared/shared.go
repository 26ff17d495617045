// Package shared finds the measured data and reference tables that lie beside
// a developer's checkout; a user's machine does not have them.
//
// May import: the standard library only. For tests.
package shared

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"
)

// Require is the environment variable that turns a missing file from a skip
// into a failure.
const Require = "AMPSTEAD_REQUIRE_SHARED"

// Path returns the path of a file under the shared folder, such as
// "reference/ocv-nca-kim2011.csv". The test is skipped when it is not there.
func Path(t testing.TB, name string) string {
	t.Helper()
	root, err := moduleRoot()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(root, "..", "shared", filepath.FromSlash(name))
	if _, err := os.Stat(path); err == nil {
		return path
	}
	if os.Getenv(Require) != "" {
		t.Fatalf("shared file %s is missing and %s is set", name, Require)
	}
	t.Skipf("shared file %s is not on this machine", name)
	return ""
}

func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		parent := filepath.Dir(dir)
		if parent == dir {
			return "", os.ErrNotExist
		}
		dir = parent
	}
}

// Rows reads a table of the shared folder with a header line: for each row a
// map from column to text. Lines that start with # are left out.
func Rows(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(Path(t, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(all), err)
	}
	var list []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for k, text := range line {
			row[all[0][k]] = text
		}
		list = append(list, row)
	}
	return list
}
