package shim

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// Position is a place that takes a pack.
type Position struct {
	Name     string
	MaxShims int // 1 to 8
}

// Outcome is a reading with the limits it must land in, mm; ±Inf for none.
type Outcome struct {
	Influence Influence
	Lo, Hi    float64
}

// Coupled is a choice of packs at several positions that share one stock and
// act on the same readings.
type Coupled struct {
	Stock     []Shim
	Positions []Position
	Outcomes  []Outcome
	ShimU     float64 // standard uncertainty of each shim, mm
	Aim       Aim     // Fewest (also when empty) or Surest
	Show      int     // most sets to list; 0 is 20
}

// Set is a pack for each position.
type Set struct {
	Packs    []Pack
	Shims    int
	Readings []metrology.Estimate // to expect, one for each outcome
	Chances  []float64            // of each landing in its limits
	// AtLeast is a lower bound of the chance that all land, however they hang
	// together: 1 less the sum of what each may miss.
	AtLeast float64
	// Trial: AtLeast is below 0.95. Build it, read again and learn from it
	// before closing for good.
	Trial bool
}

// Sets is the answer: for each set of thicknesses its best packs, best first.
type Sets struct {
	List       []Set
	Found      int    // sets of thicknesses that land and that the stock can make, as far as looked at
	Incomplete string // not empty where the search was cut short, and why
}

// surely is the chance from which a set is no trial any more.
const surely = 0.95

// Bounds of the work; a search that meets one says so.
const (
	mostPacks  = 100_000    // packs at one position
	mostHalf   = 500_000    // sets of thicknesses of one half of the positions
	mostChecks = 50_000_000 // pairs of halves looked at
	mostKept   = 200_000    // sets of thicknesses that land
	usualShow  = 20
)

func (c Coupled) check() error {
	if len(c.Positions) == 0 || len(c.Positions) > 4 {
		return metrology.RangeError{Field: "number of positions", Got: float64(len(c.Positions)), Want: "1 to 4"}
	}
	for _, p := range c.Positions {
		if p.MaxShims < 1 || p.MaxShims > 8 {
			return metrology.RangeError{Field: "most shims at " + p.Name, Got: float64(p.MaxShims), Want: "1 to 8"}
		}
	}
	if len(c.Outcomes) == 0 {
		return fmt.Errorf("coupled packs have no reading to bring within limits; one or more was wanted")
	}
	for _, o := range c.Outcomes {
		if err := o.Influence.check(len(c.Positions)); err != nil {
			return err
		}
		if !(o.Lo <= o.Hi) {
			return metrology.RangeError{Field: "lower limit of " + o.Influence.Name + ", mm", Got: o.Lo, Want: "at most the upper limit"}
		}
	}
	if !(c.ShimU >= 0) || bad(c.ShimU) {
		return metrology.RangeError{Field: "uncertainty of a shim, mm", Got: c.ShimU, Want: "zero or more"}
	}
	if c.Aim == Nearest {
		return fmt.Errorf("aim %q has no meaning for several readings; %s or %s was wanted", c.Aim, Fewest, Surest)
	}
	return c.Aim.check()
}

// Solve finds the sets of packs that bring every reading within its limits.
// Method: all packs at each position, their sums joined by meeting in the
// middle (the positions are halved, one half sorted by its part in a reading),
// then for each set of sums the fewest shims that one shared stock can give,
// by branch and bound. Exact, unless Incomplete says otherwise.
// Errors: NearestError with the nearest set where none lands; RangeError for
// the inputs; a stock and MaxShims that allow too many packs.
func (c Coupled) Solve() (Sets, error) {
	if err := c.check(); err != nil {
		return Sets{}, err
	}
	kinds, err := readStock(c.Stock)
	if err != nil {
		return Sets{}, err
	}
	s := solver{Coupled: c, kinds: kinds}
	for _, p := range c.Positions {
		g, err := groupsOf(kinds, p)
		if err != nil {
			return Sets{}, err
		}
		s.sums = append(s.sums, g)
	}
	if s.Show <= 0 {
		s.Show = usualShow
	}
	out := s.within(0, s.Show)
	if len(out.List) == 0 && out.Incomplete == "" {
		return Sets{}, s.nearest()
	}
	return out, nil
}

// NearestError says that no set of packs lands, and which comes nearest.
type NearestError struct {
	ShortMM float64 // by how much the worst reading misses its limits
	Nearest Set
	Names   []string // of the positions
}

func (e NearestError) Error() string {
	text := fmt.Sprintf("no packs of the stock land within all limits; the nearest miss by %.3f mm with", e.ShortMM)
	for i, p := range e.Nearest.Packs {
		text += fmt.Sprintf(" %s %s,", e.Names[i], p)
	}
	return text[:len(text)-1]
}
