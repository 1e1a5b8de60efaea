package power

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// kmhSquared is 2·3.6²: s[m] = v²[km/h]/(25.92·d).
const kmhSquared = 25.92

const gravity = 9.80665

// LawWords stand beside every legal figure.
const LawWords = "Legal limits are those of the place; this is what one regulation asks."

// StopLimit is what one regulation asks of a stop.
type StopLimit struct {
	Metres       float64 // 0.15·v + v²/k
	Deceleration float64 // least mean, m/s²
	K            float64
	Source       string
	Law          string
}

// LimitOf gives the stopping distance that Regulation (EU) 2015/68 annex II
// allows a tractor at a trial speed (km/h), by its design speed (km/h):
// 0.15·v + v²/92 up to 30 km/h, 0.15·v + v²/130 above. Pedal force up to
// 600 N, hand up to 400 N. Errors: RangeError, also for a trial faster than
// the design.
func LimitOf(kmh, design float64) (StopLimit, error) {
	if err := metrology.Within("design speed, km/h", design, 1, 80, "1 to 80 km/h"); err != nil {
		return StopLimit{}, err
	}
	if err := metrology.Within("trial speed, km/h", kmh, 1, design, "1 km/h to the design speed"); err != nil {
		return StopLimit{}, err
	}
	l := StopLimit{K: 92, Deceleration: 3.55, Source: "Regulation (EU) 2015/68, Annex II", Law: LawWords}
	if design > 30 {
		l.K, l.Deceleration = 130, 5
	}
	l.Metres = 0.15*kmh + kmh*kmh/l.K
	return l, nil
}

// Deceleration is the mean of a stop (m/s²) from speed (km/h) and distance
// (m) on the brakes, without reaction: v²/(25.92·s). Errors: RangeError.
func Deceleration(kmh, metres float64) (float64, error) {
	return metrology.Unless(metrology.Positives("speed, km/h", kmh, "distance, m", metres), kmh*kmh/(kmhSquared*metres))
}

// Distance is the way (m) of a stop from a speed (km/h) at a mean
// deceleration (m/s²), with what is rolled in a reaction time (s). Errors:
// RangeError.
func Distance(kmh, deceleration, reaction float64) (float64, error) {
	if err := metrology.Positives("speed, km/h", kmh, "deceleration, m/s²", deceleration); err != nil {
		return 0, err
	}
	if err := metrology.Within("reaction time, s", reaction, 0, 5, "0 to 5 s"); err != nil {
		return 0, err
	}
	return kmh/3.6*reaction + kmh*kmh/(kmhSquared*deceleration), nil
}

// FullyDeveloped is the mean fully developed deceleration (m/s²):
// (v_b² − v_e²)/(25.92·(s_e − s_b)), with v_b 0.8 and v_e 0.1 of the speed at
// the start (km/h), distances in m. Source: UNR13. Errors: RangeError.
func FullyDeveloped(vb, ve, sb, se float64) (float64, error) {
	if err := metrology.Positives("speed at the first mark, km/h", vb, "distance between the marks, m", se-sb); err != nil {
		return 0, err
	}
	if err := metrology.Within("speed at the second mark, km/h", ve, 0, vb, "no more than at the first"); err != nil {
		return 0, err
	}
	return (vb*vb - ve*ve) / (kmhSquared * (se - sb)), nil
}

// Balance is how far the brake forces (N) of two sides part, per cent of the
// larger. Errors: RangeError; both 0 is refused.
func Balance(left, right float64) (float64, error) {
	for _, in := range []struct {
		side string
		n    float64
	}{{"brake force left, N", left}, {"brake force right, N", right}} {
		if err := metrology.Within(in.side, in.n, 0, 1e6, "0 or more"); err != nil {
			return 0, err
		}
	}
	larger := max(left, right)
	return metrology.Unless(metrology.Positive("larger brake force, N", larger), 100*math.Abs(left-right)/larger)
}

// Braking is the deceleration (m/s²) that brake forces (N) at the wheels give
// a mass (kg): ΣF/m, no more than friction with the ground lets through, which
// is not looked at. Errors: RangeError.
func Braking(mass float64, forces ...float64) (float64, error) {
	sum := 0.0
	for _, f := range forces {
		if err := metrology.Within("brake force of a wheel, N", f, 0, 1e6, "0 or more"); err != nil {
			return 0, err
		}
		sum += f
	}
	return metrology.Unless(metrology.Positive("mass, kg", mass), sum/mass)
}

// SlopeDegrees is the angle of a slope in per cent. Errors: RangeError.
func SlopeDegrees(percent float64) (float64, error) {
	err := metrology.Within("slope, %", percent, 0, 100, "0 to 100 %")
	return metrology.Unless(err, math.Atan(percent/100)*180/math.Pi)
}

// Holding is the force (N) along a slope (%) that holds a mass (kg):
// m·g·sin. Errors: RangeError.
func Holding(mass, percent float64) (float64, error) {
	if err := metrology.Positive("mass, kg", mass); err != nil {
		return 0, err
	}
	degrees, err := SlopeDegrees(percent)
	if err != nil {
		return 0, err
	}
	return mass * gravity * math.Sin(degrees*math.Pi/180), nil
}
