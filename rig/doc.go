// Package rig is the design file: what is installed in one vehicle, how it is
// connected and how it is set today. It reads rig.yaml, reports every mistake
// with its place, edits single values while keeping the person's comments, and
// describes its own schema. It knows no physics.
//
// May import: quantity, goccy/go-yaml and the standard library.
package rig
