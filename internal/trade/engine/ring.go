package engine

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Shares of the bore that a ring gap usually has when new: never under the
// least, or the ends meet when hot. Common practice, no source; a maker's
// figure goes before it.
const (
	LeastGapShare   = 0.003
	MostGapShare    = 0.004
	TopRingGapShare = 0.0045 // top ring of a diesel, up to
)

// Gap is a ring gap in mm as a share of the bore.
// Errors: RangeError for a bore that is not above zero, a share outside 0.002
// to 0.006.
func Gap(boreMM, share float64) (float64, error) {
	if err := aboveZero(amount{"bore, mm", boreMM}); err != nil {
		return 0, err
	}
	if !(share >= 0.002 && share <= 0.006) {
		return 0, metrology.RangeError{Field: "ring gap as a share of the bore", Got: share, Want: "0.002 to 0.006"}
	}
	return boreMM * share, nil
}

// UsualGap is the range of a new ring's gap in mm; common practice, no source.
// Errors: as Gap.
func UsualGap(boreMM float64, topRing bool) (Range, error) {
	share := MostGapShare
	if topRing {
		share = TopRingGapShare
	}
	lo, err := Gap(boreMM, LeastGapShare)
	if err != nil {
		return Range{}, err
	}
	hi, err := Gap(boreMM, share)
	return Range{lo, hi}, err
}

// GapChange is how much a gap opens when the bore grows by a diameter in mm:
// π times it. Geometry. Errors: RangeError for a change that is no number.
func GapChange(boreChangeMM float64) (float64, error) {
	if err := finite(amount{"change of bore, mm", boreChangeMM}); err != nil {
		return 0, err
	}
	return math.Pi * boreChangeMM, nil
}

// Taper is the taper of a bore in mm from the gap of one ring pushed square to
// the top and to the unworn bottom: difference/π; below zero is narrower at
// the top. Errors: RangeError for a gap that is not above zero.
func Taper(topGapMM, bottomGapMM float64) (float64, error) {
	if err := aboveZero(amount{"gap at the top, mm", topGapMM}, amount{"gap at the bottom, mm", bottomGapMM}); err != nil {
		return 0, err
	}
	return (topGapMM - bottomGapMM) / math.Pi, nil
}

// GapArea is the hole in mm² that a gap leaves: the gap times the clearance of
// the land below it on one side. It scales leakage, and says nothing of what
// passes behind the ring.
// Errors: RangeError for a figure that is not above zero, or a clearance over
// 2 mm (of the diameter in thousandths, perhaps).
func GapArea(gapMM, landClearanceMM float64) (float64, error) {
	if err := aboveZero(amount{"ring gap, mm", gapMM}, amount{"clearance of the land, mm", landClearanceMM}); err != nil {
		return 0, err
	}
	if landClearanceMM > 2 {
		return 0, metrology.RangeError{Field: "clearance of the land, mm", Got: landClearanceMM, Want: "2 at most, on one side"}
	}
	return gapMM * landClearanceMM, nil
}
