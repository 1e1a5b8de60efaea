// Package assign puts each of n things into one of m places at the least cost:
// by the sum, or so that the worst place is as good as it can be and the sum is
// least among those.
//
// The cost of a pair must not depend on the other pairs. Where several parts
// act on one clearance together this package cannot be used.
package assign
