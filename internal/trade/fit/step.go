package fit

import (
	"math"
	"slices"

	"matchmark/internal/trade/metrology"
)

// MaxSize is the largest nominal size of the tables, mm.
const MaxSize = 500.0

// Upper bounds of the size steps, mm: the main steps, which carry the grades
// and most deviations, and the finer ones of the outer letters. Every main
// bound is also a fine one. Source: ISO 286-1:2010 tables 1 to 3, seen in a
// published reprint of PN-EN ISO 286-1:2011.
var (
	mainSteps = []float64{3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500}
	fineSteps = []float64{3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120,
		140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500}
)

// stepOf is the place of a size among the steps; a bound belongs to the step
// below it: 30 is in "over 18 to 30". Errors: RangeError at or below 0 and
// above MaxSize, for no table is carried on past its end.
func stepOf(steps []float64, nominal float64) (int, error) {
	if !(nominal > 0) || nominal > MaxSize || math.IsInf(nominal, 0) {
		return 0, metrology.RangeError{Field: "nominal size", Got: nominal, Want: "above 0 to 500 mm"}
	}
	i, _ := slices.BinarySearch(steps, nominal)
	return i, nil
}

// stepMean is the geometric mean of the main step of a size, mm; 1 to 3 mm is
// the first. Source: ISO 286-1:2010 annex on the formulas, from memory.
func stepMean(i int) float64 {
	low := 1.0
	if i > 0 {
		low = mainSteps[i-1]
	}
	return math.Sqrt(low * mainSteps[i])
}
