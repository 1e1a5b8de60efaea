package engine

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Laid says how a length on the rim was taken.
type Laid string

const (
	Tape Laid = "tape round the rim" // an arc
	Rule Laid = "rule across"        // a chord
)

// RimMM is the length on a rim of a diameter in mm for an angle in degrees.
// Geometry. Errors: RangeError for a diameter that is not above zero, an angle
// outside 0 to 180; an unknown way.
func RimMM(angleDeg, diameterMM float64, how Laid) (float64, error) {
	if err := aboveZero(amount{"diameter of the rim, mm", diameterMM}); err != nil {
		return 0, err
	}
	if !(angleDeg >= 0 && angleDeg <= 180) {
		return 0, metrology.RangeError{Field: "angle, degrees", Got: angleDeg, Want: "0 to 180"}
	}
	a := angleDeg * math.Pi / 180
	switch how {
	case Tape:
		return diameterMM * a / 2, nil
	case Rule:
		return diameterMM * math.Sin(a/2), nil
	}
	return 0, fmt.Errorf("way of measuring is %q; %q or %q was wanted", how, Tape, Rule)
}

// RimDeg is the angle in degrees for a length on a rim, with its uncertainty
// from those of length and diameter. Method: geometry, GUM 5.1.2.
// Errors: as RimMM; RangeError for a length below zero or more than half round.
func RimDeg(lengthMM, diameterMM metrology.Estimate, how Laid) (metrology.Estimate, error) {
	err := firstErr(lengthMM.Check(), diameterMM.Check(), aboveZero(amount{"diameter of the rim, mm", diameterMM.Value}))
	if err != nil {
		return metrology.Estimate{}, err
	}
	half := diameterMM.Value
	if how == Tape {
		half *= math.Pi / 2
	}
	if !(lengthMM.Value >= 0 && lengthMM.Value <= half) {
		return metrology.Estimate{}, metrology.RangeError{Field: "length on the rim, mm", Got: lengthMM.Value, Want: fmt.Sprintf("0 to %.4g, half way round", half)}
	}
	x := lengthMM.Value / diameterMM.Value
	var rad, slope float64 // slope: d angle/d x
	switch how {
	case Tape:
		rad, slope = 2*x, 2
	case Rule:
		if x > 0.99 {
			return metrology.Estimate{}, metrology.RangeError{Field: "length on the rim, mm", Got: lengthMM.Value, Want: "less: a rule tells nothing near half way round"}
		}
		rad, slope = 2*math.Asin(x), 2/math.Sqrt(1-x*x)
	default:
		return metrology.Estimate{}, fmt.Errorf("way of measuring is %q; %q or %q was wanted", how, Tape, Rule)
	}
	u := slope * math.Hypot(lengthMM.U/diameterMM.Value, x*diameterMM.U/diameterMM.Value)
	return metrology.Estimate{Value: rad * 180 / math.Pi, U: u * 180 / math.Pi}, nil
}

// Spill is the start of delivery found by the drop that stops falling.
type Spill struct {
	BeforeTopDeg metrology.Estimate
	SpreadDeg    float64 // largest less smallest of the repeats
}

// BySpill takes repeats of the length on the rim from the spill to the mark of
// top dead centre, one setting of the pump, and the standard uncertainty of
// that mark in degrees, which repeats do not lessen.
// Errors: as RimDeg; RangeError for fewer than two repeats.
func BySpill(repeatsMM []float64, diameterMM metrology.Estimate, topMarkU float64, how Laid) (Spill, error) {
	mean, err := metrology.TypeA(repeatsMM)
	if err != nil {
		return Spill{}, fmt.Errorf("spill on the rim: %w", err)
	}
	at, err := RimDeg(mean, diameterMM, how)
	if err != nil {
		return Spill{}, err
	}
	if !(topMarkU >= 0) || math.IsInf(topMarkU, 0) {
		return Spill{}, metrology.RangeError{Field: "uncertainty of the top mark, degrees", Got: topMarkU, Want: "zero or more"}
	}
	s := Spill{BeforeTopDeg: metrology.Estimate{Value: at.Value, U: math.Hypot(at.U, topMarkU)}}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, r := range repeatsMM {
		one, err := RimDeg(metrology.Estimate{Value: r}, diameterMM, how)
		if err != nil {
			return Spill{}, err
		}
		lo, hi = min(lo, one.Value), max(hi, one.Value)
	}
	s.SpreadDeg = hi - lo
	return s, nil
}

// Trial is a pump set by a pack of shims (or a turn of its flange, in mm) and
// the spill found with it.
type Trial struct{ ShimMM, SpillDeg float64 }

// Retime is the pack that gives a wanted spill, by a straight line through two
// trial builds: which way a shim moves the spill is measured, not assumed.
// Errors: RangeError for trials with the same pack or the same spill, a pack
// below zero, or one further than 1 mm beyond the trials, where the cam no
// longer runs straight.
func Retime(a, b Trial, wantedDeg float64) (packMM, degPerMM float64, err error) {
	if err := finite(amount{"first pack, mm", a.ShimMM}, amount{"second pack, mm", b.ShimMM}, amount{"first spill, degrees", a.SpillDeg}, amount{"second spill, degrees", b.SpillDeg}, amount{"wanted spill, degrees", wantedDeg}); err != nil {
		return 0, 0, err
	}
	switch {
	case a.ShimMM == b.ShimMM:
		return 0, 0, metrology.RangeError{Field: "difference of the packs, mm", Got: 0, Want: "two packs that differ"}
	case a.SpillDeg == b.SpillDeg:
		return 0, 0, metrology.RangeError{Field: "difference of the spills, degrees", Got: 0, Want: "two spills that differ: the pack does not move it"}
	}
	degPerMM = (b.SpillDeg - a.SpillDeg) / (b.ShimMM - a.ShimMM)
	packMM = a.ShimMM + (wantedDeg-a.SpillDeg)/degPerMM
	lo, hi := min(a.ShimMM, b.ShimMM), max(a.ShimMM, b.ShimMM)
	if packMM < max(0, lo-1) || packMM > hi+1 {
		return 0, 0, metrology.RangeError{Field: "pack of shims, mm", Got: packMM, Want: fmt.Sprintf("%.2f to %.2f, near the trials", max(0, lo-1), hi+1)}
	}
	return packMM, degPerMM, nil
}

// UnknownSpill is where to look for the spill of an engine whose figure is
// lost, in degrees before top: 6n(L/c + t) − θ with the wave in the pipe at
// 1350 to 1450 m/s, ignition after 0.7 to 1.0 ms warm, and fire wanted 0 to 3
// degrees after top. Common practice, no source, ±3 degrees; for indirect
// injection. What was found before stripping goes before it; then tune one
// degree a step, never earlier than the first knock.
// Errors: RangeError for a speed outside 500 to 4000 or a pipe outside 0.1 to
// 1.5 m.
func UnknownSpill(ratedRPM, pipeM float64) (Range, error) {
	if !(ratedRPM >= 500 && ratedRPM <= 4000) {
		return Range{}, metrology.RangeError{Field: "rated speed, rev/min", Got: ratedRPM, Want: "500 to 4000"}
	}
	if !(pipeM >= 0.1 && pipeM <= 1.5) {
		return Range{}, metrology.RangeError{Field: "injection pipe, m", Got: pipeM, Want: "0.1 to 1.5"}
	}
	return Range{Lo: spillAt(ratedRPM, pipeM, 1450, 0.0007, 3), Hi: spillAt(ratedRPM, pipeM, 1350, 0.0010, 0)}, nil
}

// spillAt: pipe in m, wave in m/s, delay in s, fire in degrees after top.
func spillAt(rpm, pipeM, waveMS, delayS, fireDeg float64) float64 {
	return 6*rpm*(pipeM/waveMS+delayS) - fireDeg
}
