// Package identify goes from measurements with their uncertainty to the
// standard part: a ranked list with probabilities over the catalogue and "none
// of these", never one bare guess, and the one further measurement that would
// tell most.
//
// The probability of an item is its prior times, for each dimension measured,
// the density of the reading: normal with u² plus the variance of the item's
// own tolerance, convolved with an exponential in the direction of wear where
// the surface is said to be worn. "None of these" has a broad density over the
// same dimensions, so a bad match cannot reach 1. Lengths are in mm, angles in
// degrees.
//
// It cannot see what is not measured: clearance class, seals, cage, hand of a
// thread, hardness. It does not know that a size was misread; a wrong reading of
// a standard size gives a confident wrong part.
package identify
