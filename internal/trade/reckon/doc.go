// Package reckon answers one question of the trade at a time: a topic, what is
// known, and out comes a figure with its working, its source and how sure it
// is.
//
// Values are typed as a fitter types them (package quantity), choices in words.
// Inside they are in the inside unit of their dimension: mm, N·m, MPa, W, °C,
// N, rpm, degrees, V, A, L. What has no dimension there (g/cm³, mPa·s, mm²) is
// a plain number in the unit that its Input names.
//
// The arithmetic lives in the sister packages of the trade. No topic gives a
// figure of a maker, nor stands in for one. It cannot tell a right unit with a
// wrong number, nor see the part that is asked about.
package reckon
