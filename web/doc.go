// Package web serves the rig as pages: at a glance, the form that edits the
// file, every device's settings, the book and the handbook of figures. Pages
// are rendered on the server and work without JavaScript; two small modules
// make the form answer while it is filled in.
//
// The rig file on disk is the only state. Each request reads it, so a change
// made by hand shows on the next page; everything computed is kept by the
// file's content and thrown away when that changes.
//
// May import: rig, fit, sheet, book, look, figure, finding, quantity and the
// standard library.
package web
