package engine

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// SteelShear is the shear modulus in MPa of spring steel wire, 78.5 to 79 GPa
// by source; textbook.
const SteelShear = 78500.0

// Spring is a coil spring of round wire, pressed.
type Spring struct {
	WireMM   float64
	MeanMM   float64 // mean diameter: outside less one wire
	Active   float64 // coils that work
	Total    float64 // all coils, for the solid length
	Ground   bool    // ends ground flat
	FreeMM   float64 // length free; 0 where it is not needed
	ShearMPa float64 // shear modulus
}

func (s Spring) check() error {
	if err := aboveZero(amount{"wire, mm", s.WireMM}, amount{"mean diameter, mm", s.MeanMM}, amount{"working coils", s.Active}, amount{"shear modulus, MPa", s.ShearMPa}); err != nil {
		return err
	}
	if c := s.MeanMM / s.WireMM; c < 3 || c > 20 {
		return metrology.RangeError{Field: "mean diameter over wire", Got: c, Want: "3 to 20 (mean diameter is outside less one wire)"}
	}
	return nil
}

// Rate is N/mm: G·d⁴/(8·D³·n). Two per cent in the wire are eight in the rate.
// Method: textbook. Errors: RangeError for a figure that is not above zero, or
// a mean diameter outside 3 to 20 wires.
func (s Spring) Rate() (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	return s.rate(), nil
}

func (s Spring) rate() float64 {
	return s.ShearMPa * math.Pow(s.WireMM, 4) / (8 * math.Pow(s.MeanMM, 3) * s.Active)
}

// RateWithin is Rate with its standard uncertainty from those of wire, mean
// diameter (mm) and coils: relative 4, 3 and 1 times theirs, by squares.
// Method: GUM 5.1.6. Errors: as Rate; RangeError for one below zero.
func (s Spring) RateWithin(uWire, uMean, uCoils float64) (metrology.Estimate, error) {
	k, err := s.Rate()
	if err != nil {
		return metrology.Estimate{}, err
	}
	for _, u := range []amount{{"uncertainty of the wire, mm", uWire}, {"uncertainty of the mean diameter, mm", uMean}, {"uncertainty of the coils", uCoils}} {
		if !(u.got >= 0) || math.IsInf(u.got, 0) {
			return metrology.Estimate{}, metrology.RangeError{Field: u.name, Got: u.got, Want: "zero or more"}
		}
	}
	rel := metrology.SumSquares(4*uWire/s.WireMM, 3*uMean/s.MeanMM, uCoils/s.Active)
	return metrology.Estimate{Value: k, U: k * rel}, nil
}

// SolidMM is the length with all coils touching: total·wire where the ends are
// ground, one wire more where they are only closed.
// Errors: as Rate; RangeError for fewer coils in all than work.
func (s Spring) SolidMM() (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	if !(s.Total >= s.Active) || math.IsInf(s.Total, 0) {
		return 0, metrology.RangeError{Field: "coils in all", Got: s.Total, Want: fmt.Sprintf("the %g that work, or more", s.Active)}
	}
	if s.Ground {
		return s.Total * s.WireMM, nil
	}
	return (s.Total + 1) * s.WireMM, nil
}

// At is the force in N at a length in mm and the shear stress in MPa at the
// inside of the coil.
// Method: rate·(free − length); stress K·8FD/(πd³) with K = (4C + 2)/(4C − 3),
// C = D/d, [SHIGLEY] chapter 10. Errors: as SolidMM; RangeError for a length
// above the free one or below solid.
func (s Spring) At(lengthMM float64) (forceN, stressMPa float64, err error) {
	solid, err := s.SolidMM()
	if err != nil {
		return 0, 0, err
	}
	if !(lengthMM <= s.FreeMM && lengthMM >= solid) {
		return 0, 0, metrology.RangeError{Field: "length, mm", Got: lengthMM, Want: fmt.Sprintf("solid %.4g to free %.4g", solid, s.FreeMM)}
	}
	forceN = s.rate() * (s.FreeMM - lengthMM)
	return forceN, s.curved() * 8 * forceN * s.MeanMM / (math.Pi * math.Pow(s.WireMM, 3)), nil
}

// curved is the factor for the curve of the coil and direct shear.
func (s Spring) curved() float64 {
	c := s.MeanMM / s.WireMM
	return (4*c + 2) / (4*c - 3)
}

// ForceAtStress is the force in N that brings the inside of the coil to a shear
// stress in MPa. Method: as At. Errors: as Rate; RangeError for a stress that
// is not above zero.
func (s Spring) ForceAtStress(stressMPa float64) (float64, error) {
	if err := firstErr(s.check(), aboveZero(amount{"shear stress, MPa", stressMPa})); err != nil {
		return 0, err
	}
	return stressMPa * math.Pi * math.Pow(s.WireMM, 3) / (8 * s.curved() * s.MeanMM), nil
}
