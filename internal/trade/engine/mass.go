package engine

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// Matched is a set of parts, such as pistons with their pins, by mass.
type Matched struct {
	SpreadG  float64
	Lightest int       // index of the lightest, the first of equals
	OffG     []float64 // what to take off each to meet it, from a boss only
	Say      string
}

// MatchMass gives the spread and what to take off. There is no limit here: a
// maker's figure is wanted for one.
// Errors: RangeError for fewer than two, or a mass that is not above zero.
func MatchMass(massesG []float64) (Matched, error) {
	if len(massesG) < 2 {
		return Matched{}, metrology.RangeError{Field: "number of masses", Got: float64(len(massesG)), Want: "two or more"}
	}
	var m Matched
	for i, g := range massesG {
		if err := aboveZero(amount{fmt.Sprintf("mass %d, g", i+1), g}); err != nil {
			return Matched{}, err
		}
		if g < massesG[m.Lightest] {
			m.Lightest = i
		}
	}
	for _, g := range massesG {
		off := g - massesG[m.Lightest]
		m.OffG, m.SpreadG = append(m.OffG, off), max(m.SpreadG, off)
	}
	m.Say = fmt.Sprintf("%.1f g between heaviest and lightest (number %d)", m.SpreadG, m.Lightest+1)
	return m, nil
}
