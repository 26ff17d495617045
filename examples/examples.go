// Package examples carries the example rigs inside the binary: an invented
// library van as first drafted and as mended, with an invented log of visits, and a
// small van in US units.
//
// May import: the standard library only.
package examples

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
	"sort"
)

//go:embed rigs
var files embed.FS

// Names lists the example rigs in alphabetical order.
func Names() []string {
	entries, err := fs.ReadDir(files, "rigs")
	if err != nil {
		return nil
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	sort.Strings(names)
	return names
}

// Read returns the rig file of an example.
func Read(name string) ([]byte, error) {
	text, err := files.ReadFile(path.Join("rigs", name, "rig.yaml"))
	if err != nil {
		return nil, fmt.Errorf("no example %q; there are %v", name, Names())
	}
	return text, nil
}

// Log returns the table of readings that comes with an example, invented like the
// rig; false where there is none.
func Log(name string) ([]byte, bool) {
	text, err := files.ReadFile(path.Join("rigs", name, "log.csv"))
	return text, err == nil
}
