// Package shelf keeps the logs of bench tests with a rig: files in the folder
// bench beside rig.yaml, and how their columns are read.
//
// May import: benchlog, fit, prove, rig and the standard library. It writes a
// file whole or not at all, and nothing outside its folder.
package shelf
