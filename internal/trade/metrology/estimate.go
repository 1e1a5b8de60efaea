// Package metrology turns readings into sizes with an honest uncertainty and
// tells how surely a size keeps to its limits.
//
// Lengths are in mm and temperatures in °C, but nothing here depends on the
// dimension: value, uncertainty and limits share whatever unit the caller has.
// Sources: GUM is JCGM 100:2008; JCGM 106:2012 is the role of measurement
// uncertainty in conformity assessment; ISO 14253-1:2017; ISO 1.
//
// It cannot detect a mistake of the hand (a wrong turn of the thimble read
// alike each time), a gauge that has been dropped since it was last set, or
// dirt under the anvil: repeats agree all the same.
package metrology

import (
	"fmt"
	"math"
)

// Estimate is a value with its standard uncertainty in the same unit.
// Dof is the effective degrees of freedom behind U; 0 means no limit, as for
// an uncertainty taken as known.
type Estimate struct {
	Value float64
	U     float64
	Dof   float64
}

// Check reports why an estimate cannot be used, or nil.
// Errors: RangeError.
func (e Estimate) Check() error {
	switch {
	case notFinite(e.Value):
		return RangeError{"value", e.Value, "a finite number"}
	case notFinite(e.U) || e.U < 0:
		return RangeError{"standard uncertainty", e.U, "zero or more"}
	case notFinite(e.Dof) || e.Dof < 0:
		return RangeError{"degrees of freedom", e.Dof, "zero (no limit) or more"}
	}
	return nil
}

// Expanded gives the half-width of the interval that holds the true value
// with probability p (0 < p < 1), two-sided: t·U for the degrees of freedom,
// cut down to a whole number.
// Method: GUM 6.2, G.4.1 and G.6.4. Errors: RangeError.
func (e Estimate) Expanded(p float64) (float64, error) {
	if err := e.Check(); err != nil {
		return 0, err
	}
	k, err := CoverageFactor(p, e.Dof)
	return k * e.U, err
}

// RangeError says that a number is outside what a function can take.
type RangeError struct {
	Field string
	Got   float64
	Want  string
}

func (e RangeError) Error() string {
	return fmt.Sprintf("%s is %g; %s was wanted", e.Field, e.Got, e.Want)
}

func notFinite(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }

// FromStep is the standard uncertainty of a display or scale that is read to
// a full step q: q/√12. Method: GUM F.2.2.1.
func FromStep(q float64) float64 { return math.Abs(q) / math.Sqrt(12) }

// FromHalfWidth is the standard uncertainty of an error known only to lie
// within ±a: a/√3. Method: GUM 4.3.7.
func FromHalfWidth(a float64) float64 { return math.Abs(a) / math.Sqrt(3) }

// FromExpanded is the standard uncertainty behind a stated U with factor k:
// U/k, and 0 where k is not above 0. Method: GUM 4.3.3.
func FromExpanded(u, k float64) float64 {
	if !(k > 0) {
		return 0
	}
	return math.Abs(u) / k
}

// FromCycle is the standard uncertainty of a quantity that swings to and fro
// like a sine with amplitude a: a/√2. Method: GUM H.1 (temperature that cycles).
func FromCycle(a float64) float64 { return math.Abs(a) / math.Sqrt2 }

// FromTrapezoid is the standard uncertainty of an error within ±a whose
// density is flat over ±beta·a and falls to 0 at the ends:
// a·√((1+beta²)/6). beta 1 is a rectangle, 0 a triangle. Method: GUM 4.3.9.
func FromTrapezoid(a, beta float64) float64 { return math.Abs(a) * math.Sqrt((1+beta*beta)/6) }

// SumSquares adds uncorrelated standard uncertainties: √Σu². Method: GUM 5.1.2.
func SumSquares(us ...float64) float64 {
	sum := 0.0
	for _, u := range us {
		sum = math.Hypot(sum, u)
	}
	return sum
}

// Part is one contribution to an uncertainty, already in the unit of the
// result. Dof 0 means no limit.
type Part struct {
	Name string
	U    float64
	Dof  float64
}

// EffectiveDof is the Welch-Satterthwaite number of degrees of freedom of a
// sum of parts: u⁴ / Σ(uᵢ⁴/νᵢ); 0 (no limit) where no part has a limit.
// Method: GUM G.4.1.
func EffectiveDof(parts []Part) float64 {
	u, sum := 0.0, 0.0
	for _, p := range parts {
		u = math.Hypot(u, p.U)
	}
	for _, p := range parts {
		if p.Dof > 0 && p.U > 0 {
			sum += math.Pow(p.U/u, 4) / p.Dof
		}
	}
	if sum == 0 {
		return 0
	}
	return 1 / sum
}
