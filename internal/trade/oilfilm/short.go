package oilfilm

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Short is the short-bearing solution at an eccentricity e: S·(L/D)² and the
// attitude in degrees. Method: [TN2808],
// S(L/D)² = (1−e²)²/(π·e·√(π²(1−e²)+16e²)), tan φ = π√(1−e²)/(4e).
// Range: L/D of 1/4 and below; at 1/4 it promises 2 % too much load at e 0.1,
// 7 % at 0.6, 39 % at 0.9. Errors: RangeError for e outside 0 to 1, ends out.
func Short(e float64) (sTimesSquare, attitudeDeg float64, err error) {
	if !(e > 0 && e < 1) {
		return 0, 0, metrology.RangeError{Field: "eccentricity", Got: e, Want: "above 0 and below 1"}
	}
	return shortS(e), shortAttitude(e), nil
}

func shortS(e float64) float64 {
	left := 1 - e*e
	return left * left / (math.Pi * e * math.Sqrt(math.Pi*math.Pi*left+16*e*e))
}

func shortAttitude(e float64) float64 {
	return math.Atan2(math.Pi*math.Sqrt(1-e*e), 4*e) * 180 / math.Pi
}
