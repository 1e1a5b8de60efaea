package lubricant

import "math"

// Band is a range of viscosity that belongs to one grade. Low belongs to it,
// High does not where Open is set (J300, J306), and does where it is not
// (ISO 3448). High is +Inf where there is none.
type Band struct {
	Grade     string
	Low, High float64
	Open      bool
}

// Holds tells whether a viscosity lies in the band.
func (b Band) Holds(v float64) bool {
	return v >= b.Low && (v < b.High || !b.Open && v == b.High)
}

// grades lists the bands that hold a viscosity.
func grades(bands []Band, v float64) []string {
	var out []string
	for _, b := range bands {
		if b.Holds(v) {
			out = append(out, b.Grade)
		}
	}
	return out
}

// open makes bands whose upper bound belongs to the next grade.
func open(rows ...Band) []Band {
	for i := range rows {
		rows[i].Open = true
		if rows[i].High == 0 {
			rows[i].High = math.Inf(1)
		}
	}
	return rows
}
