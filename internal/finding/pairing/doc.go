// Package pairing proposes which of several like parts goes where: piston 2 to
// bore 1, tappet 3 to its bore 2, so that the pair least likely to keep its
// clearance is as likely as can be. It is pure.
//
// A part that runs in several others, such as a pin in its piston and its rod,
// has to suit them all at its place: the worst of its clearances counts. Pairs
// are coupled by nothing but that each part has one place, so the answer is
// exact for one kind of part that moves while the others stay. Two kinds that
// move together are not searched.
// The clearance is judged by package judge, from the readings of both surfaces
// with their uncertainty, against the ruling limit of the place: not looser than
// worn, and not tighter than a new fit where the limit says how tight that is.
//
// What it cannot detect: parts that have run in together and are better left,
// left and right hand, parts matched by weight, lapped or numbered, and a face that is worn to its
// mate's shape. So it keeps every part where it is unless moving gains
// something, and says what it gains.
package pairing
