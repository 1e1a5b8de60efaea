package judge

import (
	"fmt"
	"math"
	"strconv"

	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/spelling"
)

// scale is the unit of a check: how a value held inside is shown and compared
// in it. A unit that is no unit of measure ("of the best", "drops") is a word:
// values are taken as they are.
type scale struct {
	unit   string
	dim    quantity.Dimension
	inside string  // unit in which amounts of dim are held
	factor float64 // shown = inside·factor + offset
	offset float64
	word   bool
}

// scaleOf reads a check's unit.
func (b *bench) scaleOf(unit string) scale {
	if s, ok := b.scales[unit]; ok {
		return s
	}
	s := readScale(unit)
	b.scales[unit] = s
	return s
}

func readScale(unit string) scale {
	word := scale{unit: unit, factor: 1, word: true}
	one, err := quantity.Parse("1 "+unit, quantity.AnyDimension, "")
	if unit == "" || err != nil {
		return word
	}
	s := scale{unit: unit, dim: one.Dim, inside: quantity.Inside(one.Dim), factor: 1}
	if unit == s.inside {
		return s
	}
	zero, err0 := quantity.Convert(0, s.dim, s.inside, unit)
	full, err1 := quantity.Convert(1, s.dim, s.inside, unit)
	if err0 != nil || err1 != nil {
		return word
	}
	s.factor, s.offset = full-zero, zero
	return s
}

// length tells whether the unit measures lengths, as features do.
func (s scale) length() bool { return s.dim == quantity.Length }

// plain tells whether values carry no unit: words, ratios, counts.
func (s scale) plain() bool {
	return s.word || s.dim == quantity.Ratio || s.dim == quantity.Count || s.dim == quantity.Number
}

// hold gives an amount's value and typed step in the unit held inside; a step
// that is none is 0.
// Errors: the amount measures another kind of thing than the check, or is
// beyond all measure.
func (s scale) hold(a machine.Amount) (value, step float64, err error) {
	if !(math.Abs(a.Value) < farOut) {
		return 0, 0, fmt.Errorf("%s is beyond all measure", typed(a))
	}
	if a.Step > 0 && a.Step < farOut {
		step = a.Step
	}
	switch {
	case s.word && (a.Unit == "" || a.Unit == s.unit), !s.word && a.Unit == s.inside:
		return a.Value, step, nil
	case s.word:
		return 0, 0, fmt.Errorf("%s is in %s; a figure %s is wanted", typed(a), a.Unit, orPlain(s.unit))
	}
	v, err := quantity.Convert(a.Value, s.dim, a.Unit, s.inside)
	if err != nil || a.Unit == "" {
		return 0, 0, fmt.Errorf("%s is in %s; %s in %s is wanted", typed(a), orPlain(a.Unit), spelling.An(string(s.dim)), s.unit)
	}
	next, err := quantity.Convert(a.Value+step, s.dim, a.Unit, s.inside)
	if err != nil {
		next = v
	}
	return v, math.Abs(next - v), nil
}

// farOut is past any figure of a machine, and far from where sums overflow.
const farOut = 1e12

// show turns a value held inside into the check's unit.
func (s scale) show(v float64) float64 { return v*s.factor + s.offset }

// typed is an amount in the words of the worker, or its figure.
func typed(a machine.Amount) string {
	if a.Typed != "" {
		return a.Typed
	}
	return strconv.FormatFloat(a.Value, 'g', 7, 64) + space(a.Unit)
}

func orPlain(unit string) string {
	if unit == "" {
		return "no unit"
	}
	return unit
}
