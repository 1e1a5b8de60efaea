package bearing

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Kind is what rolls.
type Kind string

const (
	Ball   Kind = "ball"
	Roller Kind = "roller" // cylindrical, needle and taper
)

// exponent of the life relation: 3 for balls, 10/3 for rollers.
func (k Kind) exponent() (float64, error) {
	switch k {
	case Ball:
		return 3, nil
	case Roller:
		return 10. / 3, nil
	}
	return 0, fmt.Errorf("kind of bearing is %q; %s or %s was wanted", k, Ball, Roller)
}

// Factors turn a radial and an axial load into one. They come from the list of
// the bearing; X and Y hold where axial over radial load is above E, below it
// the radial load stands alone.
type Factors struct{ E, X, Y float64 }

// Equivalent is the one load P = X·Fr + Y·Fa that is as hard on a bearing as
// both, never below Fr; loads share a unit. Method: [ISO281].
// Errors: RangeError for a load below zero, both zero, or a factor below zero.
func Equivalent(radial, axial float64, f Factors) (float64, error) {
	for _, c := range []struct {
		name string
		got  float64
	}{{"radial load", radial}, {"axial load", axial}, {"e", f.E}, {"X", f.X}, {"Y", f.Y}} {
		if !(c.got >= 0) || math.IsInf(c.got, 0) {
			return 0, metrology.RangeError{Field: c.name, Got: c.got, Want: "zero or more"}
		}
	}
	if radial == 0 && axial == 0 {
		return 0, metrology.RangeError{Field: "radial and axial load", Got: 0, Want: "one of them above zero"}
	}
	if axial <= f.E*radial {
		return radial, nil
	}
	p := max(radial, f.X*radial+f.Y*axial)
	if p == 0 {
		return 0, metrology.RangeError{Field: "equivalent load", Got: 0, Want: "factors that leave some"}
	}
	return p, nil
}

// Life is how long nine bearings of ten last.
type Life struct {
	MillionTurns float64
	Hours        float64
	Heavy        bool // load above half the rating: the formula promises too much
	Source       string
}

// BasicLife is L10 = (C/P)^p million turns, p 3 for balls and 10/3 for rollers,
// C and P in one unit, and hours at a speed. Method: [ISO281] basic rating
// life. A clean, oiled bearing lasts longer, a dirty gearbox far less; no
// account is taken of either.
// Errors: RangeError for a rating, load or speed that is not above zero, a
// load above the rating; an unknown kind.
func BasicLife(k Kind, rating, load, rpm float64) (Life, error) {
	p, err := k.exponent()
	if err != nil {
		return Life{}, err
	}
	if err := aboveZero(amount{"dynamic rating", rating}, amount{"equivalent load", load}, amount{"speed, rev/min", rpm}); err != nil {
		return Life{}, err
	}
	if load > rating {
		return Life{}, metrology.RangeError{Field: "equivalent load", Got: load, Want: fmt.Sprintf("the rating, %g, at most", rating)}
	}
	l := Life{MillionTurns: math.Pow(rating/load, p), Heavy: load > rating/2, Source: "ISO 281 basic rating life, nine of ten reach it"}
	l.Hours = l.MillionTurns * 1e6 / (60 * rpm)
	return l, nil
}

// RatingFor is the dynamic rating that a bearing needs for a life in hours:
// P·(60·n·h/10⁶)^(1/p). Method and errors: as BasicLife.
func RatingFor(k Kind, load, hours, rpm float64) (float64, error) {
	p, err := k.exponent()
	if err != nil {
		return 0, err
	}
	if err := aboveZero(amount{"equivalent load", load}, amount{"life, hours", hours}, amount{"speed, rev/min", rpm}); err != nil {
		return 0, err
	}
	return load * math.Pow(60*rpm*hours/1e6, 1/p), nil
}

// amount is a figure with the name an error gives it.
type amount struct {
	name string
	got  float64
}

func aboveZero(list ...amount) error {
	for _, a := range list {
		if !(a.got > 0) || math.IsInf(a.got, 0) {
			return metrology.RangeError{Field: a.name, Got: a.got, Want: "above zero"}
		}
	}
	return nil
}

// Edition of ISO 281: the factor for reliability changed.
type Edition int

const (
	ISO281of1990 Edition = 1990
	ISO281of2007 Edition = 2007
)

// a1 by edition for 90, 95, 96, 97, 98 and 99 %. Both from memory.
var (
	a1At   = [6]float64{90, 95, 96, 97, 98, 99}
	a11990 = [6]float64{1, 0.62, 0.53, 0.44, 0.33, 0.21}
	a12007 = [6]float64{1, 0.64, 0.55, 0.47, 0.37, 0.25}
)

// Reliability is the factor a₁ by which L10 shrinks where more than nine of
// ten are to last. Only the printed steps are known: nothing is read between.
// Source: ISO 281, table of the edition, from memory. Errors: RangeError for
// another percentage or edition.
func Reliability(percent float64, e Edition) (float64, error) {
	table := a12007
	switch e {
	case ISO281of1990:
		table = a11990
	case ISO281of2007:
	default:
		return 0, metrology.RangeError{Field: "edition of ISO 281", Got: float64(e), Want: "1990 or 2007"}
	}
	for i, at := range a1At {
		if at == percent {
			return table[i], nil
		}
	}
	return 0, metrology.RangeError{Field: "reliability, %", Got: percent, Want: "90, 95, 96, 97, 98 or 99"}
}
