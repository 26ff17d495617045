// Package completion answers a shell that asks how a half-typed command line may
// go on. What may follow is read from the command line's own model, so that a new
// command or flag is completed without further work; the scripts for bash, zsh
// and fish only carry the question and the answer.
//
// A flag or argument says by the tag complete:"KIND" what it takes: rig, file,
// folder, none, or a kind that the caller brings a Source for. Without the tag its
// enum, its placeholder or its name tells.
//
// May import: nothing of ours.
package completion
