// Package play plays the strip-down of the demo machine: it takes the kits,
// pulls the tractor apart in an order that the record allows, measures it and
// decides on some of it, and gives the log, the drawings and the planted truth
// that internal/demo embeds.
//
// It is deterministic: one seed, no clock. The story is told in the files named
// story_*.go, a chapter to a function; the other files are what the chapters
// are told with. The machine, its maker and its people are invented, and so is
// every figure.
package play
