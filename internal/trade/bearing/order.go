package bearing

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Inside is the geometry within a bearing.
type Inside struct {
	Elements int     // balls or rollers of one row
	BallMM   float64 // diameter of ball, or of roller at its middle
	PitchMM  float64 // diameter of the circle of their centres
	AngleDeg float64 // contact angle; 0 for a deep groove
}

// Ring is one of the two rings.
type Ring string

const (
	Inner Ring = "inner ring"
	Outer Ring = "outer ring"
)

// Orders is how often things happen in one turn of the ring that turns.
// Spin and BothRaces are one motion counted twice over: a ball turns Spin
// times, and a spot on it strikes a race 2·Spin times, once each race. Lists
// of bearings print either under the name of ball spin: 2.357 and 4.7135 are
// the same 6205.
type Orders struct {
	Cage      float64 // turns of the cage
	Outer     float64 // balls passing a spot on the outer ring
	Inner     float64 // balls passing a spot on the inner ring
	Spin      float64 // turns of a ball about itself: strikes on one race
	BothRaces float64 // strikes of a spot on a ball on either race
}

// Orders gives the defect orders for the ring that turns, the other standing
// still. With g = (ball/pitch)·cos angle: cage ½(1 − g) where the inner ring
// turns, ½(1 + g) where the outer does, as on a wheel hub; outer n½(1 − g);
// inner n½(1 + g); spin pitch/(2·ball)·(1 − g²).
// Method: rolling without slip, textbook kinematics. A real bearing slips and
// lies up to 2 % below, the cage most.
// Errors: RangeError for fewer than 3 elements, a ball that is not above zero,
// a pitch circle too small for them, an angle outside 0 to below 90; an unknown
// ring.
func (b Inside) Orders(turning Ring) (Orders, error) {
	if err := b.check(); err != nil {
		return Orders{}, err
	}
	g, n := b.BallMM/b.PitchMM*math.Cos(b.AngleDeg*math.Pi/180), float64(b.Elements)
	o := Orders{Cage: (1 - g) / 2, Outer: n * (1 - g) / 2, Inner: n * (1 + g) / 2, Spin: b.PitchMM / (2 * b.BallMM) * (1 - g*g)}
	o.BothRaces = 2 * o.Spin
	switch turning {
	case Inner:
	case Outer:
		o.Cage = (1 + g) / 2
	default:
		return Orders{}, fmt.Errorf("turning ring is %q; %s or %s was wanted", turning, Inner, Outer)
	}
	return o, nil
}

func (b Inside) check() error {
	room := b.PitchMM * math.Sin(math.Pi/float64(max(b.Elements, 1))) // between neighbours' centres
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"balls or rollers in a row", float64(b.Elements), b.Elements >= 3 && b.Elements <= 200, "3 to 200"},
		{"ball diameter, mm", b.BallMM, b.BallMM > 0, "above zero"},
		{"pitch diameter, mm", b.PitchMM, b.PitchMM > 0 && b.BallMM < room && !math.IsInf(b.PitchMM, 0), fmt.Sprintf("a circle on which %d of %g mm have room", b.Elements, b.BallMM)},
		{"contact angle, degrees", b.AngleDeg, b.AngleDeg >= 0 && b.AngleDeg < 90, "0 to below 90"},
	} {
		if !c.ok {
			return metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	return nil
}

// Hz turns orders into frequencies at a speed of the turning ring, rev/min.
// Errors: RangeError for a speed that is not above zero.
func (o Orders) Hz(rpm float64) (Orders, error) {
	if !(rpm > 0) || math.IsInf(rpm, 0) {
		return Orders{}, metrology.RangeError{Field: "speed, rev/min", Got: rpm, Want: "above zero"}
	}
	f := rpm / 60
	return Orders{o.Cage * f, o.Outer * f, o.Inner * f, o.Spin * f, o.BothRaces * f}, nil
}
