// Package shim chooses packs of shims from the stock that is in the drawer: for
// one gap, or for several positions that share the stock and act on the same
// readings, such as pinion depth, backlash and bearing preload.
//
// Lengths are in mm and worked in whole µm. A float below zero is preload.
// How a reading answers to a pack is stated by the user or learned from trial
// builds, never taken from a formula: none is valid for spiral bevel gears.
//
// It cannot detect a burr or oil under a shim, a shim marked wrongly, a casing
// that gives, or a reading that does not answer in a straight line unless there
// are more trial builds than unknowns.
package shim
