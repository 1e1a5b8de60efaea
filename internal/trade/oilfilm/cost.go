package oilfilm

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Change is what more clearance does at one duty.
type Change struct {
	Before, After Film
	AddedMM       float64
	LostUM        float64 // of the least film; below zero where it grew
	LostShare     float64 // of the least film before
	LeakTimes     float64 // by what a pressure-fed bearing leaks more
	Say           string
}

// Cost answers what more diametral clearance takes from the film, everything
// else alike: (film before) − (film after).
// Method: Film twice; the leak of oil under pressure through a gap goes with
// its cube, textbook. A looser bearing runs cooler and its oil thicker, so the
// true loss is somewhat less; but one that leaks takes the pressure from the
// next. Under a light load more clearance can thicken the film.
// Errors: RangeError for an addition that is not a finite number or leaves no
// clearance; what Film refuses, saying at which clearance.
func Cost(j Journal, d Duty, addedMM float64) (Change, error) {
	if math.IsNaN(addedMM) || math.IsInf(addedMM, 0) || j.ClearanceMM+addedMM <= 0 {
		return Change{}, metrology.RangeError{Field: "added clearance, mm", Got: addedMM, Want: "a number that leaves some clearance"}
	}
	before, err := j.Film(d)
	if err != nil {
		return Change{}, fmt.Errorf("film at %.3f mm clearance: %w", j.ClearanceMM, err)
	}
	wider := j
	wider.ClearanceMM += addedMM
	after, err := wider.Film(d)
	if err != nil {
		return Change{}, fmt.Errorf("film at %.3f mm clearance: %w", wider.ClearanceMM, err)
	}
	c := Change{Before: before, After: after, AddedMM: addedMM, LostUM: before.LeastUM - after.LeastUM}
	c.LostShare = c.LostUM / before.LeastUM
	c.LeakTimes = math.Pow(wider.ClearanceMM/j.ClearanceMM, 3)
	c.Say = fmt.Sprintf("%+.3f mm clearance: least film %.1f to %.1f µm (%+.0f %%), oil leak times %.1f",
		addedMM, before.LeastUM, after.LeastUM, -100*c.LostShare, c.LeakTimes)
	return c, nil
}
