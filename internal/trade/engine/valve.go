package engine

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Reading is a dial on a valve at an angle of the crank.
type Reading struct{ CrankDeg, LiftMM float64 }

// Timing is what the readings say about one valve at a check lift. Angles are
// as the readings have them, wherever their zero lies.
type Timing struct {
	OpensDeg, ClosesDeg float64
	DurationDeg         float64
	CentreDeg           float64 // middle between equal lifts: the lobe's centre, if it is symmetrical
	PeakMM              float64 // largest reading
}

// AtLift finds where a valve passes a check lift going up and coming down, by
// straight lines between readings. Needs readings every 5 degrees or closer
// about the crossings: the flank bends.
// Errors: RangeError for fewer than 4 readings, angles that do not rise, a
// lift that is not above zero or above the peak; readings that pass the lift
// more than once each way, or that begin or end above it.
func AtLift(readings []Reading, checkMM float64) (Timing, error) {
	if len(readings) < 4 {
		return Timing{}, metrology.RangeError{Field: "number of readings", Got: float64(len(readings)), Want: "4 or more"}
	}
	if err := aboveZero(amount{"check lift, mm", checkMM}); err != nil {
		return Timing{}, err
	}
	t := Timing{PeakMM: readings[0].LiftMM}
	ups, downs := 0, 0
	for i, r := range readings {
		if err := finite(amount{"crank angle, degrees", r.CrankDeg}, amount{"lift, mm", r.LiftMM}); err != nil {
			return Timing{}, err
		}
		t.PeakMM = max(t.PeakMM, r.LiftMM)
		if i == 0 {
			continue
		}
		last := readings[i-1]
		if r.CrankDeg <= last.CrankDeg {
			return Timing{}, metrology.RangeError{Field: fmt.Sprintf("crank angle of reading %d, degrees", i+1), Got: r.CrankDeg, Want: fmt.Sprintf("above the one before, %g", last.CrankDeg)}
		}
		switch at := last.CrankDeg + (checkMM-last.LiftMM)/(r.LiftMM-last.LiftMM)*(r.CrankDeg-last.CrankDeg); {
		case last.LiftMM < checkMM && r.LiftMM >= checkMM:
			t.OpensDeg = at
			ups++
		case last.LiftMM >= checkMM && r.LiftMM < checkMM:
			t.ClosesDeg = at
			downs++
		}
	}
	switch {
	case t.PeakMM < checkMM:
		return Timing{}, metrology.RangeError{Field: "check lift, mm", Got: checkMM, Want: fmt.Sprintf("at most the highest reading, %g", t.PeakMM)}
	case ups != 1 || downs != 1 || t.ClosesDeg < t.OpensDeg:
		return Timing{}, fmt.Errorf("readings pass %g mm %d times up and %d down; one rise and one fall, begun and ended below it, was wanted", checkMM, ups, downs)
	}
	t.DurationDeg = t.ClosesDeg - t.OpensDeg
	t.CentreDeg = (t.OpensDeg + t.ClosesDeg) / 2
	return t, nil
}

// OverlapDeg is how long both valves are above the check lift about top dead
// centre; below zero where they are not. Angles share one zero.
func OverlapDeg(inlet, exhaust Timing) float64 { return exhaust.ClosesDeg - inlet.OpensDeg }

// TopByStop is true top dead centre from the two angles at which the piston
// meets a stop, turned against it from both sides: their middle.
// Errors: RangeError for figures that are none, or 180 or more apart.
func TopByStop(aDeg, bDeg float64) (float64, error) {
	if err := finite(amount{"first stop, degrees", aDeg}, amount{"second stop, degrees", bDeg}); err != nil {
		return 0, err
	}
	if math.Abs(aDeg-bDeg) >= 180 {
		return 0, metrology.RangeError{Field: "between the stops, degrees", Got: math.Abs(aDeg - bDeg), Want: "below 180: read both the same way round"}
	}
	return (aDeg + bDeg) / 2, nil
}

// Mistimed is how far a camshaft is out, told in teeth.
type Mistimed struct {
	OffDeg  float64 // measured less wanted; above zero is late
	Teeth   int     // nearest whole number of teeth
	RestDeg float64 // what no tooth explains: key, stretch, wear or reading
	Tooth   float64 // degrees of crank for one tooth
}

// TeethOut tells a wrong tooth from a small error: one tooth of a crank gear
// of z teeth is 360/z degrees, 15 at 24.
// Errors: RangeError for figures that are none or a gear below 8 or above 200
// teeth.
func TeethOut(measuredDeg, wantedDeg float64, crankTeeth int) (Mistimed, error) {
	if err := finite(amount{"measured angle, degrees", measuredDeg}, amount{"wanted angle, degrees", wantedDeg}); err != nil {
		return Mistimed{}, err
	}
	if crankTeeth < 8 || crankTeeth > 200 {
		return Mistimed{}, metrology.RangeError{Field: "teeth of the crank gear", Got: float64(crankTeeth), Want: "8 to 200"}
	}
	m := Mistimed{OffDeg: measuredDeg - wantedDeg, Tooth: 360 / float64(crankTeeth)}
	m.Teeth = int(math.Round(m.OffDeg / m.Tooth))
	m.RestDeg = m.OffDeg - float64(m.Teeth)*m.Tooth
	return m, nil
}

// Growing is one part of a valve train that grows with heat.
type Growing struct {
	Name     string
	LengthMM float64
	PerK     Range // expansion, 1/K
	RiseK    Range // how much hotter it runs
	Opens    bool  // its growth opens the lash, as that of block and head
}

// LashGrowth is by how much the lash closes from cold to warm, in mm, at the
// valve, every part taken at its worst against the others: α·length·rise,
// closing less opening. It is a finger rule for a lash nobody wrote down,
// never for hydraulic tappets, and a maker's figure goes before it; rocker
// ratio is left out.
// Errors: RangeError naming the part for a length, expansion or rise below
// zero or a range upside down; no parts.
func LashGrowth(parts []Growing) (Range, error) {
	if len(parts) == 0 {
		return Range{}, metrology.RangeError{Field: "number of parts", Got: 0, Want: "one or more"}
	}
	var r Range
	for _, p := range parts {
		for _, c := range []struct {
			name string
			got  float64
			ok   bool
		}{
			{"length, mm", p.LengthMM, p.LengthMM >= 0 && !math.IsInf(p.LengthMM, 0)},
			{"expansion, 1/K", p.PerK.Lo, p.PerK.Lo >= 0 && p.PerK.Hi >= p.PerK.Lo && p.PerK.Hi < 1e-4},
			{"rise, K", p.RiseK.Lo, p.RiseK.Lo >= 0 && p.RiseK.Hi >= p.RiseK.Lo && p.RiseK.Hi < 1000},
		} {
			if !c.ok {
				return Range{}, metrology.RangeError{Field: c.name + " of " + p.Name, Got: c.got, Want: "zero or more, its range the right way up"}
			}
		}
		lo, hi := p.LengthMM*p.PerK.Lo*p.RiseK.Lo, p.LengthMM*p.PerK.Hi*p.RiseK.Hi
		if p.Opens {
			lo, hi = -hi, -lo
		}
		r.Lo, r.Hi = r.Lo+lo, r.Hi+hi
	}
	return r, nil
}
