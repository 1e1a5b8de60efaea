package engine

import (
	"fmt"
	"math"
	"slices"

	"matchmark/internal/trade/metrology"
)

// Bump is the clearance in mm between piston and head at top dead centre:
// crushed gasket − protrusion + recess of the head, all square to the deck and
// at its own place; a piston that stops below the deck has a protrusion below
// zero. A result at or below zero strikes; it is returned, not refused.
// Errors: RangeError for an estimate that cannot be used or a gasket that is
// not above zero.
func Bump(gasket, protrusion, recess metrology.Estimate) (metrology.Estimate, error) {
	if err := firstErr(gasket.Check(), aboveZero(amount{"crushed gasket, mm", gasket.Value})); err != nil {
		return metrology.Estimate{}, err
	}
	return metrology.Weighted([]metrology.Estimate{gasket, protrusion, recess}, []float64{1, -1, 1})
}

// Gasket is one that can be had: its name or notches and thickness crushed.
type Gasket struct {
	Name      string
	CrushedMM metrology.Estimate
}

// Option is what one gasket does on all cylinders.
type Option struct {
	Gasket  Gasket
	BumpMM  []metrology.Estimate // by cylinder
	LeastMM float64
	MostMM  float64
	Chance  float64 // that the worst cylinder lies within the window
	Fits    bool    // every estimate lies within it
}

// GasketChoice lists the options, thinnest first. Best is the index of the one
// with the highest chance, the thinner of equals; −1 where none fits.
type GasketChoice struct {
	Options []Option
	Best    int
	Say     string
}

// ChooseGasket holds every gasket against the protrusions of all cylinders and
// a window in mm, one gasket for the whole head. Usual windows are common
// practice (0.6 to 1.0 mm for small direct injection): take the maker's where
// there is one. The uncertainty of a gasket is shared by all cylinders, so
// Chance is that of the worst, no product.
// Errors: RangeError as Bump, for a window upside down or no cylinder; no
// gasket.
func ChooseGasket(gaskets []Gasket, protrusions []metrology.Estimate, window Range) (GasketChoice, error) {
	if len(gaskets) == 0 || len(protrusions) == 0 {
		return GasketChoice{}, metrology.RangeError{Field: "number of gaskets or pistons", Got: 0, Want: "one or more of each"}
	}
	if !(window.Lo < window.Hi) {
		return GasketChoice{}, metrology.RangeError{Field: "lower bound of the window, mm", Got: window.Lo, Want: fmt.Sprintf("below the upper, %g", window.Hi)}
	}
	c := GasketChoice{Best: -1}
	for _, g := range gaskets {
		o, err := option(g, protrusions, window)
		if err != nil {
			return GasketChoice{}, err
		}
		c.Options = append(c.Options, o)
	}
	slices.SortStableFunc(c.Options, func(a, b Option) int {
		switch {
		case a.Gasket.CrushedMM.Value < b.Gasket.CrushedMM.Value:
			return -1
		case a.Gasket.CrushedMM.Value > b.Gasket.CrushedMM.Value:
			return 1
		}
		return 0
	})
	for i, o := range c.Options {
		if o.Fits && (c.Best < 0 || o.Chance > c.Options[c.Best].Chance+1e-9) {
			c.Best = i
		}
	}
	c.Say = fmt.Sprintf("no gasket keeps every piston within %g to %g mm: measure again, or change a piston or the deck", window.Lo, window.Hi)
	if c.Best >= 0 {
		o := c.Options[c.Best]
		c.Say = fmt.Sprintf("%s: %.2f to %.2f mm over the pistons; confirm with soft wire", o.Gasket.Name, o.LeastMM, o.MostMM)
	}
	return c, nil
}

func option(g Gasket, protrusions []metrology.Estimate, window Range) (Option, error) {
	o := Option{Gasket: g, LeastMM: math.Inf(1), MostMM: math.Inf(-1), Chance: 1, Fits: true}
	for i, p := range protrusions {
		b, err := Bump(g.CrushedMM, p, metrology.Estimate{})
		if err != nil {
			return Option{}, fmt.Errorf("gasket %q, cylinder %d: %w", g.Name, i+1, err)
		}
		chance, err := metrology.Conform(b, window.Lo, window.Hi)
		if err != nil {
			return Option{}, fmt.Errorf("gasket %q, cylinder %d: %w", g.Name, i+1, err)
		}
		o.BumpMM = append(o.BumpMM, b)
		o.LeastMM, o.MostMM = min(o.LeastMM, b.Value), max(o.MostMM, b.Value)
		o.Chance = min(o.Chance, chance)
		o.Fits = o.Fits && b.Value >= window.Lo && b.Value <= window.Hi
	}
	return o, nil
}

// Wire is what soft wire crushed between piston and head says.
type Wire struct{ MeanMM, LeastMM, SpreadMM float64 }

// ByWire takes the readings of the crushed wires of one piston, laid front and
// back along the pin so that rocking cancels. Needs two or more.
// Errors: RangeError for fewer, or a reading that is not above zero.
func ByWire(readings []float64) (Wire, error) {
	if len(readings) < 2 {
		return Wire{}, metrology.RangeError{Field: "number of wires", Got: float64(len(readings)), Want: "two or more"}
	}
	w := Wire{LeastMM: slices.Min(readings), SpreadMM: slices.Max(readings) - slices.Min(readings)}
	for _, r := range readings {
		if err := aboveZero(amount{"crushed wire, mm", r}); err != nil {
			return Wire{}, err
		}
		w.MeanMM += r / float64(len(readings))
	}
	return w, nil
}

// MisbuiltMM is how far wire and reckoning may differ; above it something is
// built wrong: a burr, a gasket of another grade, a piston the wrong way
// round. Common practice, no source.
const MisbuiltMM = 0.08

// Agrees says whether the wire's mean and the reckoned clearance are within
// MisbuiltMM of one another. Errors: RangeError for figures that are none.
func (w Wire) Agrees(reckonedMM float64) (bool, error) {
	if err := finite(amount{"reckoned clearance, mm", reckonedMM}); err != nil {
		return false, err
	}
	return math.Abs(w.MeanMM-reckonedMM) <= MisbuiltMM, nil
}
