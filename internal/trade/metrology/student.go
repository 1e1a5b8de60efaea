package metrology

import "math"

// CoverageFactor is the two-sided factor k of Student's t for probability p:
// the interval ±k·u holds the share p. dof is cut down to a whole number, as
// GUM G.4.1 advises; 0 means no limit and gives the normal factor.
// Method: inversion of the distribution function by halving to 1e-12.
// Errors: RangeError for p outside (0, 1) and dof between 0 and 1.
func CoverageFactor(p, dof float64) (float64, error) {
	if !(p > 0 && p < 1) {
		return 0, RangeError{"probability", p, "between 0 and 1"}
	}
	if notFinite(dof) || dof < 0 || (dof > 0 && dof < 1) {
		return 0, RangeError{"degrees of freedom", dof, "zero (no limit), or one or more"}
	}
	return studentQuantile((1+p)/2, math.Floor(dof)), nil
}

// studentQuantile finds t with P(T ≤ t) = p, for p ≥ ½.
func studentQuantile(p, dof float64) float64 {
	tail := 1 - p
	hi := 1.0
	for studentUpper(hi, dof) > tail && hi < 1e12 {
		hi *= 2
	}
	lo := 0.0
	for range 200 {
		mid := lo + (hi-lo)/2
		if studentUpper(mid, dof) > tail {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo <= 1e-12*hi {
			break
		}
	}
	return lo + (hi-lo)/2
}

// studentUpper is P(T > t), without loss in the far tail; dof 0 is the
// normal distribution.
// Method: half the incomplete beta function of x = ν/(ν+t²) with ½ν and ½.
func studentUpper(t, dof float64) float64 {
	if dof == 0 {
		return 0.5 * math.Erfc(t/math.Sqrt2)
	}
	if t < 0 {
		return 1 - studentUpper(-t, dof)
	}
	if math.IsInf(t, 1) {
		return 0
	}
	return 0.5 * incompleteBeta(dof/(dof+t*t), t*t/(dof+t*t), dof/2, 0.5)
}

// incompleteBeta is the regularised incomplete beta function of x with
// parameters a and b; y is 1 − x, given apart so that neither loses digits.
// Method: continued fraction of DLMF 8.17.22, turned by the symmetry
// I_x(a,b) = 1 − I_y(b,a) (DLMF 8.17.4) where it converges slowly.
func incompleteBeta(x, y, a, b float64) float64 {
	switch {
	case x <= 0:
		return 0
	case y <= 0:
		return 1
	case x > (a+1)/(a+b+2):
		return 1 - incompleteBeta(y, x, b, a)
	}
	la, _ := math.Lgamma(a)
	lb, _ := math.Lgamma(b)
	lab, _ := math.Lgamma(a + b)
	front := math.Exp(lab-la-lb+a*math.Log(x)+b*math.Log(y)) / a
	return front * betaFraction(x, a, b)
}

// betaFraction sums the continued fraction forwards, by the ratio of
// successive numerators and denominators, to full accuracy.
func betaFraction(x, a, b float64) float64 {
	const tiny = 1e-300
	guard := func(v float64) float64 {
		if math.Abs(v) < tiny {
			return tiny
		}
		return v
	}
	c, d := 1.0, 1/guard(1-(a+b)*x/(a+1))
	sum := d
	for m := 1.0; m <= 10000; m++ {
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		d, c = 1/guard(1+even*d), guard(1+even/c)
		sum *= d * c
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		d, c = 1/guard(1+odd*d), guard(1+odd/c)
		sum *= d * c
		if math.Abs(d*c-1) < 1e-15 {
			break
		}
	}
	return sum
}

// TrapezoidFactor is the coverage factor k for probability p of a trapezoid
// with edge parameter beta (0 triangle, 1 rectangle): the sum of two dominant
// rectangles, which k = 2 would overstate.
// Method: EA-4/02 M:2022 supplement S10.13; for p below 2β/(1+β) the interval
// stays on the flat top: k = p(1+β)/2 / √((1+β²)/6). Errors: RangeError.
func TrapezoidFactor(p, beta float64) (float64, error) {
	if !(p > 0 && p < 1) {
		return 0, RangeError{"probability", p, "between 0 and 1"}
	}
	if !(beta >= 0 && beta <= 1) {
		return 0, RangeError{"edge parameter", beta, "between 0 and 1"}
	}
	u := FromTrapezoid(1, beta)
	if p <= 2*beta/(1+beta) {
		return p * (1 + beta) / 2 / u, nil
	}
	return (1 - math.Sqrt((1-p)*(1-beta*beta))) / u, nil
}
