package metrology

import "slices"

// Form holds the diameters of one bore or journal: Levels[i] are the
// diameters at one height, in the same order of directions at every height.
type Form struct {
	Levels [][]float64
}

// Check needs one height or more and as many finite diameters at each.
// Errors: RangeError.
func (f Form) Check() error {
	if len(f.Levels) == 0 || len(f.Levels[0]) == 0 {
		return RangeError{"number of diameters", 0, "one or more"}
	}
	for _, level := range f.Levels {
		if len(level) != len(f.Levels[0]) {
			return RangeError{"number of diameters at a height", float64(len(level)), "the same at every height"}
		}
		for _, d := range level {
			if notFinite(d) {
				return RangeError{"diameter", d, "a finite number"}
			}
		}
	}
	return nil
}

// OutOfRound is the largest difference of diameters at one height. It is a
// difference of diameters, twice a radial roundness figure of ISO 1101.
// Errors: as Check.
func (f Form) OutOfRound() (float64, error) {
	if err := f.Check(); err != nil {
		return 0, err
	}
	worst := 0.0
	for _, level := range f.Levels {
		worst = max(worst, slices.Max(level)-slices.Min(level))
	}
	return worst, nil
}

// Taper is the largest difference of diameters along one direction; a barrel
// counts as much as a cone. Errors: as Check.
func (f Form) Taper() (float64, error) {
	if err := f.Check(); err != nil {
		return 0, err
	}
	worst := 0.0
	for j := range f.Levels[0] {
		low, high := f.Levels[0][j], f.Levels[0][j]
		for _, level := range f.Levels {
			low, high = min(low, level[j]), max(high, level[j])
		}
		worst = max(worst, high-low)
	}
	return worst, nil
}

// Extremes are the smallest and largest diameter of all. Errors: as Check.
func (f Form) Extremes() (low, high float64, err error) {
	if err := f.Check(); err != nil {
		return 0, 0, err
	}
	all := slices.Concat(f.Levels...)
	return slices.Min(all), slices.Max(all), nil
}
