// Command shots renders the pages of the example rigs as pictures, at three widths
// and in both themes: to look at them, and to make those of docs/screens.
//
//	go run ./internal/shots -to FOLDER [-rig curlew] [-only fit,drill] [-at http://127.0.0.1:4680]
//	go run ./internal/shots -docs docs/screens
//
// It serves the tour itself, from a folder that is removed at the end, unless -at names
// pages that are being served. It needs Chromium.
//
// May import: cli. A command, and nobody imports it.
package main
