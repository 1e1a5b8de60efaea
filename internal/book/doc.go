// Package book draws up the papers that leave the bench: the order to a shop
// and the buying list. Papers are data, worked out of a machine, its verdicts
// and the plan of remedies; writers put them down as CSV or plain text. It is
// pure, and what it says of sizes comes from the readings by way of judge.
//
// Every figure that somebody will cut or buy to carries where it comes from. A
// limit whose source nobody named says so; none is ever given as a maker's.
//
// What it cannot detect: a part that cannot be had, a shop's own allowance for
// honing or plating, and a mating part that was measured before it was changed.
package book
