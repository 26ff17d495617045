// Package history keeps every version of a rig file in a folder beside it, so that
// an edit can be undone, done again, and compared with what stood there before. A
// version is a plain copy with a speaking name; copying the rig's folder copies them
// all. Versions are in the order of their numbers: clocks jump, and their times only
// tell a person when.
//
// It takes no lock: who keeps a version holds that of the rig's folder.
//
// May import: the standard library only.
package history
