// Package gear gives the sizes of involute spur gears from counted teeth and a
// few measured lengths, what a pair of them does at a centre distance, and
// what a train of them does to speed.
//
// Lengths are in mm, angles in degrees, speeds in rev/min and km/h. Helical
// gears are not covered: their transverse section is, with the transverse
// module and angle.
//
// It cannot detect a miscount, a tip turned down at a repair, a tooth worn on
// the flank that was measured, or a gear of another rack than the one given:
// two racks of like base pitch have nearly the same spans.
//
// Sources: [ISO21771] gears, concepts and geometry (clauses not seen, textbook
// relations); [ISO53] basic rack; [ISO54] modules; [ISO500] rear power
// take-off.
package gear
