// Package engine gives what a restorer reckons on a small diesel: volumes and
// compression ratio, piston to head clearance and the gasket for it, ring
// gaps, valve and injection timing from dial and rim, the cranking pressure to
// expect, springs, and pistons matched by mass.
//
// Lengths are in mm, volumes in cm³, angles in degrees of the crank, pressures
// in bar, forces in N, masses in g, temperatures in °C, speeds in rev/min.
//
// It cannot detect a dead centre that was set by eye, a gasket that crushes
// more than its maker says, a stretched timing chain, or a worn nozzle: they
// all read as good figures. Ranges that are called usual are common practice
// without a source and never pass or fail a part.
package engine

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Range is a figure that is not known to a point.
type Range struct{ Lo, Hi float64 }

// amount is a figure with the name an error gives it.
type amount struct {
	name string
	got  float64
}

func aboveZero(list ...amount) error {
	for _, a := range list {
		if !(a.got > 0) || math.IsInf(a.got, 0) {
			return metrology.RangeError{Field: a.name, Got: a.got, Want: "above zero"}
		}
	}
	return nil
}

func finite(list ...amount) error {
	for _, a := range list {
		if math.IsNaN(a.got) || math.IsInf(a.got, 0) {
			return metrology.RangeError{Field: a.name, Got: a.got, Want: "a finite number"}
		}
	}
	return nil
}
