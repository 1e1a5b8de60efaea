package lubricant

import (
	"math"
	"strconv"

	"matchmark/internal/trade/metrology"
)

// IndustrialBands lists ISO VG by kinematic viscosity at 40 °C: the middle
// ± 10 %, both bounds belonging to the grade. Between grades there are gaps.
// The first middles are 2.2, 3.2, 4.6 and 6.8 though the grade is called 2,
// 3, 5 and 7. Source: ISO3448; VG 460 and above from memory.
func IndustrialBands() []Band {
	middles := []float64{2.2, 3.2, 4.6, 6.8, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200}
	out := make([]Band, len(middles))
	for i, m := range middles {
		// Rounded to a thousandth, so that a bound is 41.4 and nothing beside it.
		out[i] = Band{Grade: strconv.Itoa(int(m + 0.5)), Low: math.Round(m*900) / 1000, High: math.Round(m*1100) / 1000}
	}
	return out
}

// IndustrialGrade gives the ISO VG of a viscosity at 40 °C (mm²/s). Where it
// lies in a gap the grade is empty and the neighbours are named; at the ends
// one of them is empty. Errors: RangeError.
func IndustrialGrade(kv40 float64) (grade, below, above string, err error) {
	if err := metrology.Positive("viscosity at 40 °C, mm²/s", kv40); err != nil {
		return "", "", "", err
	}
	for _, b := range IndustrialBands() {
		switch {
		case b.Holds(kv40):
			return b.Grade, "", "", nil
		case kv40 > b.High:
			below = b.Grade
		case above == "":
			above = b.Grade
		}
	}
	return "", below, above, nil
}

// GreaseBands lists the NLGI grades by worked penetration (0.1 mm at 25 °C
// after 60 strokes), the stiffest last; both bounds belong to a grade and 15
// units lie between. Source: NLGI, D217, from memory.
func GreaseBands() []Band {
	names := []string{"000", "00", "0", "1", "2", "3", "4", "5", "6"}
	out := make([]Band, len(names))
	for i, n := range names {
		high := 475 - 45*float64(i)
		out[i] = Band{Grade: n, Low: high - 30, High: high}
	}
	return out
}

// GreaseGrade gives the NLGI grade of a worked penetration, empty in a gap.
// Errors: RangeError.
func GreaseGrade(penetration float64) (string, error) {
	if err := metrology.Within("worked penetration, 0.1 mm", penetration, 50, 500, "50 to 500"); err != nil {
		return "", err
	}
	if g := grades(GreaseBands(), penetration); len(g) > 0 {
		return g[0], nil
	}
	return "", nil
}
