// Package compare sets two versions of a rig, or two rigs, side by side: what
// changed in the file, which findings went and which came, and what that did to the
// results of each stage. Fit and wire are reckoned at once; travel and drill take
// seconds and are reckoned when asked for.
//
// May import: drill, finding, fit, quantity, rig, travel, wire and the standard
// library.
package compare
