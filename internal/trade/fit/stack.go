package fit

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Link is one size in a chain: Factor is +1 where it opens the gap, −1 where it
// closes it, or a lever. Plus and Minus are how far it may lie above and below
// its nominal size, both as numbers above zero.
type Link struct {
	Name        string
	Nominal     float64
	Plus, Minus float64
	Factor      float64
}

// Stacked is the size that a chain leaves, in the unit of its links. Centre is
// the middle of the worst case and the mean of the other two.
type Stacked struct {
	Nominal, Centre float64
	Worst           float64 // ± about Centre, every part at its worst
	RSS             float64 // ± about Centre, root of the sum of squares
	Inflated        float64 // ± about Centre, 1.5 × RSS
}

// Bender is the factor by which the root of the sum of squares is enlarged for
// parts that are neither centred nor normal. Source: Bender 1962, from memory.
const Bender = 1.5

// Stack adds a chain of toleranced sizes.
// Worst case Σ|aᵢ|Tᵢ and root of the sum of squares √Σ(aᵢTᵢ)²; unequal Plus and
// Minus are taken about their middle.
// Method: Scholz 1995, tolerance stack analysis methods. The squares assume
// parts made independently and centred: for a handful of measured old parts
// use the measured sizes instead.
// Errors: no link; RangeError naming a link whose size is not finite, whose
// tolerance is below zero or whose factor is 0.
func Stack(links []Link) (Stacked, error) {
	if len(links) == 0 {
		return Stacked{}, fmt.Errorf("chain of tolerances has no link; one or more was wanted")
	}
	var s Stacked
	squares := 0.0
	for i, l := range links {
		if err := l.check(i); err != nil {
			return Stacked{}, err
		}
		half := math.Abs(l.Factor) * (l.Plus + l.Minus) / 2
		s.Nominal += l.Factor * l.Nominal
		s.Centre += l.Factor * (l.Nominal + (l.Plus-l.Minus)/2)
		s.Worst += half
		squares += half * half
	}
	s.RSS = math.Sqrt(squares)
	s.Inflated = Bender * s.RSS
	return s, nil
}

func (l Link) check(i int) error {
	name := l.Name
	if name == "" {
		name = fmt.Sprintf("link %d", i+1)
	}
	for _, c := range []struct {
		what string
		got  float64
		ok   bool
		want string
	}{
		{"nominal", l.Nominal, !math.IsNaN(l.Nominal), "a number"},
		{"plus", l.Plus, l.Plus >= 0, "zero or more"},
		{"minus", l.Minus, l.Minus >= 0, "zero or more"},
		{"factor", l.Factor, l.Factor != 0 && !math.IsNaN(l.Factor), "a number other than zero"},
	} {
		if !c.ok || math.IsInf(c.got, 0) {
			return metrology.RangeError{Field: c.what + " of " + name, Got: c.got, Want: c.want}
		}
	}
	return nil
}
