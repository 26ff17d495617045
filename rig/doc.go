// Package rig is the design file: what is installed in one vehicle, how it is
// connected and how it is set today. It reads rig.yaml, reports every mistake
// with its place, edits single values, adds, copies, renames and removes things while
// keeping the person's comments, keeps what stood there before, and describes its own
// schema. It knows no physics.
//
// May import: history, quantity, goccy/go-yaml and the standard library.
package rig
