// Package lan lists the addresses that other devices on the same network reach this
// machine by, the likeliest first.
//
// May import: nothing of ours.
package lan
