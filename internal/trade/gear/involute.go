package gear

import (
	"math"

	"matchmark/internal/trade/metrology"
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }
func deg(rad float64) float64 { return rad * 180 / math.Pi }

// Involute is tan α − α in radians, α in degrees.
// Errors: RangeError for an angle outside 0 to below 90.
func Involute(angleDeg float64) (float64, error) {
	if !(angleDeg >= 0 && angleDeg < 90) {
		return 0, metrology.RangeError{Field: "pressure angle, degrees", Got: angleDeg, Want: "0 to below 90"}
	}
	return inv(rad(angleDeg)), nil
}

func inv(a float64) float64 { return math.Tan(a) - a }

// InverseInvolute is the angle in degrees whose involute is y.
// Method: Newton from above the root, where the function is convex and the
// steps cannot overshoot; stops when a step no longer lowers the angle.
// Accuracy: 1e-12 of the angle down to y = 1e-9. Errors: RangeError for y
// below 0 or not finite. Cost: 5 to 12 steps.
func InverseInvolute(y float64) (float64, error) {
	if !(y >= 0) || math.IsInf(y, 0) {
		return 0, metrology.RangeError{Field: "involute", Got: y, Want: "zero or more"}
	}
	return deg(unroll(y)), nil
}

// unroll is InverseInvolute in radians for y of zero or more.
func unroll(y float64) float64 {
	if y == 0 {
		return 0
	}
	a := min(math.Cbrt(3*y), math.Atan(y+math.Pi/2)) // both lie above the root
	for range 60 {
		t := math.Tan(a)
		next := a - (t-a-y)/(t*t)
		if !(next < a) {
			break
		}
		a = next
	}
	return a
}
