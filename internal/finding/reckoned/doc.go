// Package reckoned works out what a joint, check or test asks of the trade's
// arithmetic: it fills in what the machine knows, says what is missing and
// where to enter it, and never invents a figure. It is pure.
//
// What it cannot detect: a figure entered for the wrong thing, and whether a
// usual value of the kit is that of this machine; each input says where it is
// from.
package reckoned
