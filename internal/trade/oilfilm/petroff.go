package oilfilm

import "math"

// Petroff is the coefficient of friction of a journal that runs in the middle
// of its bearing: 2π²·(µN/P)·(R/c). It is the floor: any load adds to it.
// Method: [SHIGLEY] eq. 12-6. Errors: RangeError as Film, but for L/D, which
// is free here.
func (j Journal) Petroff(d Duty) (float64, error) {
	if err := j.check(d); err != nil {
		return 0, err
	}
	return 2 * math.Pi * math.Pi * j.sommerfeld(d) * j.ClearanceMM / j.DiameterMM, nil
}
