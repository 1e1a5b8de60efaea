// Package demo holds an invented tractor, half stripped, for whoever wants to
// try the program before recording a machine of their own: its log, drawings in
// the place of photos, and the truth that was planted in it.
//
// The files beside this one are written by tools/demogen and never by hand;
// see tools/demogen/play for the story they tell. Maker, place and people are
// invented, and so is every figure.
package demo
