package rig

import (
	"path/filepath"

	"ampstead/history"
)

// Tidy removes what a writer that was killed half way has left beside the rig file
// at path. A program that will write there calls it when it starts; where nothing
// can be removed, nothing is, and the next save tries again.
func Tidy(path string) {
	unlock, err := lockFolder(filepath.Dir(path))
	if err != nil {
		return
	}
	defer unlock()
	sweep(path)
	history.Tidy(path)
}
