package gear

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// OverPins is the length over two pins of a diameter in mm in opposite gaps:
// db/cos φ + pin, times cos(90°/z) before the pin where z is odd, with
// inv φ = inv α + pin/db − (π/2 − 2x·tan α)/z. Method: [ISO21771]; φ by
// InverseInvolute.
// Errors: as Sizes; RangeError for a pin that falls below the flanks, touches
// beyond the tip, rests on the root or does not stand proud of the tips.
func (g Gear) OverPins(pinMM float64) (float64, error) {
	s, err := g.Sizes()
	if err != nil {
		return 0, err
	}
	if !(pinMM > 0) || pinMM > s.PitchMM {
		return 0, metrology.RangeError{Field: "pin diameter, mm", Got: pinMM, Want: "above zero and below the gear"}
	}
	refuse := func(why string) (float64, error) {
		return 0, metrology.RangeError{Field: "pin diameter, mm", Got: pinMM,
			Want: fmt.Sprintf("a pin that sits on the flanks, about %.3g (%s)", 1.728*g.ModuleMM, why)}
	}
	z, a := float64(g.Teeth), rad(g.AngleDeg)
	y := inv(a) + pinMM/s.BaseMM - (math.Pi/2-2*g.Shift*math.Tan(a))/z
	if y <= 0 {
		return refuse("this one falls below the flanks")
	}
	phi := unroll(y)
	centre := s.BaseMM / math.Cos(phi) // of the pins, as a diameter
	touch := math.Tan(phi) - pinMM/s.BaseMM
	switch {
	case touch <= 0 || centre-pinMM < s.RootMM:
		return refuse("this one rests on the root")
	case s.BaseMM*math.Hypot(1, touch) > s.TipMM:
		return refuse("this one touches beyond the tip")
	case centre+pinMM <= s.TipMM:
		return refuse("this one does not stand proud of the tips")
	}
	if g.Teeth%2 == 1 {
		centre *= math.Cos(math.Pi / 2 / z)
	}
	return centre + pinMM, nil
}

// Chordal is what a gear tooth calliper reads: the thickness across the tooth
// and the height to set from the tip.
type Chordal struct{ ThicknessMM, HeightMM, HalfAngleDeg float64 }

// Chordal gives the calliper's figures at the reference circle: m·z·sin ψ and
// (tip − pitch)/2 + m·z(1 − cos ψ)/2 with ψ = thickness/(m·z).
// Method: [ISO21771]. Errors: as Sizes.
func (g Gear) Chordal() (Chordal, error) {
	s, err := g.Sizes()
	if err != nil {
		return Chordal{}, err
	}
	psi := s.ThicknessMM / s.PitchMM
	return Chordal{
		ThicknessMM:  s.PitchMM * math.Sin(psi),
		HeightMM:     (s.TipMM-s.PitchMM)/2 + s.PitchMM*(1-math.Cos(psi))/2,
		HalfAngleDeg: deg(psi),
	}, nil
}
