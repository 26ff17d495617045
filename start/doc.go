// Package start is the way into Ampstead for a person who has never seen it: a
// dozen plain questions, each of which may be answered "I do not know", and the
// rig file that follows from the answers, with its findings and what to do next.
//
// Reading order: question.go (what a question is), questions.go and
// questions_more.go (the list), answers.go (what counts as an answer), plan.go
// (what the answers come to), text.go (the file), outcome.go (its findings),
// sketch.go (what the picture shows).
//
// May import: rig, fit, wire, finding, quantity, physics/cell, weather,
// weather/climate and the standard library. Pure: no files, no clock, no network.
package start
