// Package catalogue holds the standard parts of the trade as typed items:
// bearings, seals, O-rings, circlips, keys, belts, threads and gear racks, each
// with its dimensions, what the standard lets them vary, and the way in which
// use changes them.
//
// Items come from the tables of package reference; lengths are in mm, angles in
// degrees. An item keeps the source of its row.
//
// It cannot tell parts of one size apart: clearance class, cage, seals, hardness
// and class of strength are not dimensions. Parts of the same size are named as
// equivalents, and the mark on the part decides.
package catalogue
