// Package example reads an example rig for a test.
//
// May import: examples, rig and testing.
package example

import (
	"testing"

	"ampstead/examples"
	"ampstead/rig"
)

// File is an example rig, read.
func File(t testing.TB, name string) *rig.File {
	t.Helper()
	text, err := examples.Read(name)
	if err != nil {
		t.Fatal(err)
	}
	f, err := rig.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return f
}
