// Package web serves the rig as pages: at a glance, the form that edits the
// file, every device's settings, the wiring, the drill, the year on the road, the book and the
// handbook of figures. Pages are rendered on the server and work without JavaScript; small
// modules make the form answer while it is filled in and show how far a run is.
//
// The rig file on disk is the only state, with the bench logs kept beside it. Each request reads it, so a change
// made by hand shows on the next page; everything computed is kept by the
// file's content and thrown away when that changes. The drill is played and
// the year on the road reckoned behind the pages, one run at a time (jobs.go).
//
// May import: benchlog, choose, prove, shelf, rig, fit, wire, drill, travel, sheet, book, look, figure, finding, quantity,
// physics/cell, physics/conductor and the standard library.
package web
