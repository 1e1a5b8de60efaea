package play

import (
	"math"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
)

// amount reads a figure as the bench does, in the unit that is wanted.
func (s *story) amount(text, unit string) *machine.Amount {
	a, err := bench.Amount(text, unit)
	if err != nil {
		s.fail("figure %q for %q: %w", text, unit, err)
	}
	return &a
}

// inUnit is a typed figure as a plain number of a unit, for data.
func (s *story) inUnit(text, unit string) float64 {
	a := s.amount(text, unit)
	dim, named := bench.DimensionOf(unit)
	if named == "" {
		return a.Value
	}
	v, err := quantity.Convert(a.Value, dim, a.Unit, unit)
	if err != nil {
		s.fail("figure %q as %q: %w", text, unit, err)
	}
	return math.Round(v*1e9) / 1e9
}
