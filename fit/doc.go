// Package fit answers "what do I set on each device?": the safe window of cell,
// group and bank, the staged layers of limits, a set-point for every setting of
// every device, and findings about how the rig is set today.
//
// Reading order: run.go (the steps), facts.go (what the bank is), limiter.go and
// ladder.go (the staged layers), settings.go (the sheets), rules.go (the table
// of findings).
//
// May import: circuit, finding, figure, quantity, source, rig, physics/*. Pure: no I/O.
package fit
