// Package nominal proposes the size a worn bore or journal was made to, from a
// reading of a place on it where nothing runs, when there is no paperwork: the
// likeliest preferred size, metric or inch, with the step that an earlier
// rework has left it at, and how likely that is. It is pure.
//
// The reckoning is that of identify over preferred sizes; this package says
// what it means for one surface of a machine. It cannot tell a reworked size
// from another nominal of the same size (76 + 0.25 from 75.5 + 0.75): it names
// both. What was made to no preferred size comes out as "none of these", or,
// where it happens to lie near one, as that.
package nominal
