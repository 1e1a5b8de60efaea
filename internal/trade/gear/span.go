package gear

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Span is the base tangent length over k teeth of an external spur gear with z
// teeth: m·cos α·[(k − ½)π + z·inv α] + 2·x·m·sin α, mm; alphaDeg in degrees.
// Two spans differ by the base pitch whatever the profile shift x. The bare
// formula: whether k teeth touch on the involute is what SpanOver checks.
// Method: [ISO21771].
func Span(m, alphaDeg float64, z, k int, x float64) float64 {
	a := rad(alphaDeg)
	return m*math.Cos(a)*((float64(k)-0.5)*math.Pi+float64(z)*inv(a)) + 2*x*m*math.Sin(a)
}

// BasePitch is π·m·cos α, mm; alphaDeg in degrees.
func BasePitch(m, alphaDeg float64) float64 { return math.Pi * m * math.Cos(rad(alphaDeg)) }

// SpanOver is Span for a gear, once it is sure that the anvils touch flanks.
// Errors: as Sizes; RangeError naming k where the anvils would pass the tip or
// rest in the foot, with a k that serves.
func (g Gear) SpanOver(k int) (float64, error) {
	s, err := g.Sizes()
	if err != nil {
		return 0, err
	}
	if !g.touches(s, k) {
		return 0, metrology.RangeError{Field: "teeth within the span", Got: float64(k),
			Want: fmt.Sprintf("a count whose flanks the anvils touch, such as %d", g.SpanTeeth())}
	}
	return Span(g.ModuleMM, g.AngleDeg, g.Teeth, k, g.Shift), nil
}

// touches says whether the span over k teeth has its ends on the involute.
func (g Gear) touches(s Sizes, k int) bool {
	if k < 1 || k >= g.Teeth {
		return false
	}
	w := Span(g.ModuleMM, g.AngleDeg, g.Teeth, k, g.Shift)
	at := math.Hypot(s.BaseMM, w)
	return w > 0 && at < s.TipMM && at > s.RootMM
}

// SpanTeeth is how many teeth to span so that the anvils touch nearest to the
// shifted reference circle. Needs a gear that passes Check.
func (g Gear) SpanTeeth() int {
	s, best, least := g.sizes(), 1, math.Inf(1)
	for k := 1; k < g.Teeth; k++ {
		w := Span(g.ModuleMM, g.AngleDeg, g.Teeth, k, g.Shift)
		if off := math.Abs(math.Hypot(s.BaseMM, w) - s.PitchMM - 2*g.Shift*g.ModuleMM); w > 0 && off < least {
			best, least = k, off
		}
	}
	return best
}

// ShiftFromSpan is the profile shift behind a span over k teeth:
// (W − W₀)/(2·m·sin α), the gear's own Shift not being used. Backlash and wear
// make it come out low, by 1/(2·sin α) of what the span lost.
// Errors: as Check; RangeError for a span that is not above zero or leads to a
// shift outside −1.5 to 1.5: then rack, z or k is not what was thought.
func (g Gear) ShiftFromSpan(k int, spanMM float64) (float64, error) {
	g.Shift = 0
	if err := g.Check(); err != nil {
		return 0, err
	}
	if k < 1 || k >= g.Teeth {
		return 0, metrology.RangeError{Field: "teeth within the span", Got: float64(k), Want: fmt.Sprintf("1 to %d", g.Teeth-1)}
	}
	x := (spanMM - Span(g.ModuleMM, g.AngleDeg, g.Teeth, k, 0)) / (2 * g.ModuleMM * math.Sin(rad(g.AngleDeg)))
	return plausible(x, "span, mm", spanMM)
}

// ShiftFromTip is the profile shift behind a tip diameter,
// (da/m − z − 2·addendum)/2. Tips cut back to keep clearance in a shifted pair
// make it come out low. Errors: as ShiftFromSpan.
func (g Gear) ShiftFromTip(tipMM float64) (float64, error) {
	g.Shift = 0
	if err := g.Check(); err != nil {
		return 0, err
	}
	return plausible((tipMM/g.ModuleMM-float64(g.Teeth)-2*g.Addendum)/2, "tip diameter, mm", tipMM)
}

func plausible(x float64, name string, got float64) (float64, error) {
	if !(got > 0) || math.IsInf(got, 0) {
		return 0, metrology.RangeError{Field: name, Got: got, Want: "above zero"}
	}
	if x < -1.5 || x > 1.5 {
		return 0, metrology.RangeError{Field: name, Got: got, Want: fmt.Sprintf("a length that fits module, angle and teeth: this one needs a profile shift of %.2f", x)}
	}
	return x, nil
}

// ThinningFromSpan is how much thinner than theory the teeth are, on the arc
// of the reference circle: (W theory − W measured)/cos α, mm.
// Errors: as SpanOver; RangeError for a measured span that is not above zero.
func (g Gear) ThinningFromSpan(k int, spanMM float64) (float64, error) {
	w, err := g.SpanOver(k)
	if err != nil {
		return 0, err
	}
	if !(spanMM > 0) || math.IsInf(spanMM, 0) {
		return 0, metrology.RangeError{Field: "span, mm", Got: spanMM, Want: "above zero"}
	}
	return (w - spanMM) / math.Cos(rad(g.AngleDeg)), nil
}
