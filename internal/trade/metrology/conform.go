package metrology

import "math"

// ConformProbability is the probability that a true value lies within
// [lo, hi] when the estimate is y with standard uncertainty u, normally
// distributed, and nothing else is known. A side without a limit is ±Inf.
// Φ((hi−y)/u) − Φ((lo−y)/u), taken on the side of the nearer tail so that far
// tails keep their digits.
// Method: JCGM 106:2012 clause 7.
// Special cases: u = 0 is a plain comparison, and exactly on a limit conforms.
// Errors: RangeError for a number that is not one, u below 0, lo above hi.
func ConformProbability(y, u, lo, hi float64) (float64, error) {
	return Conform(Estimate{Value: y, U: u}, lo, hi)
}

// Conform is ConformProbability with Student's t where the uncertainty has
// few degrees of freedom (whole part of e.Dof, at least 1; 0 is no limit).
// Method: as ConformProbability, GUM G.3.2 for t. Errors: RangeError.
func Conform(e Estimate, lo, hi float64) (float64, error) {
	if err := e.Check(); err != nil {
		return 0, err
	}
	if err := checkLimits(lo, hi); err != nil {
		return 0, err
	}
	if e.U == 0 {
		if e.Value >= lo && e.Value <= hi {
			return 1, nil
		}
		return 0, nil
	}
	dof := 0.0
	if e.Dof > 0 {
		dof = max(1, math.Floor(e.Dof))
	}
	low, high := (lo-e.Value)/e.U, (hi-e.Value)/e.U
	switch { // rounding may take a very narrow zone below 0
	case low > 0: // the whole interval lies above y
		return max(0, studentUpper(low, dof)-studentUpper(high, dof)), nil
	case high < 0: // the whole interval lies below y
		return max(0, studentUpper(-high, dof)-studentUpper(-low, dof)), nil
	}
	return max(0, 1-studentUpper(-low, dof)-studentUpper(high, dof)), nil
}

func checkLimits(lo, hi float64) error {
	switch {
	case math.IsNaN(lo) || math.IsInf(lo, 1):
		return RangeError{"lower limit", lo, "a number, or none"}
	case math.IsNaN(hi) || math.IsInf(hi, -1):
		return RangeError{"upper limit", hi, "a number, or none"}
	case lo > hi:
		return RangeError{"lower limit", lo, "at most the upper limit"}
	}
	return nil
}

// Verdict is what a probability of conformity amounts to.
type Verdict string

// The verdicts.
const (
	Sound    Verdict = "sound"    // surely enough within limits
	Doubtful Verdict = "doubtful" // measure again, or better
	Worn     Verdict = "worn"     // surely enough outside limits
)

// Decide turns a probability of conformity into a verdict: Sound at accept
// and above, Worn at reject and below, Doubtful between, and Doubtful for
// anything that is not a probability or for reject not below accept.
// Method: JCGM 106:2012 clause 8; the usual pair is DefaultAccept, DefaultReject.
func Decide(p, accept, reject float64) Verdict {
	if !(p >= 0 && p <= 1) || !(reject < accept) {
		return Doubtful
	}
	switch {
	case p >= accept:
		return Sound
	case p <= reject:
		return Worn
	}
	return Doubtful
}

// Usual decision levels and the guard they amount to on one side.
// Source of 95 %: ISO 14253-1:2017 default; the factor is the normal
// distribution's, Φ(1.644854) = 0.95.
const (
	DefaultAccept = 0.95
	DefaultReject = 0.05
	DefaultGuard  = 1.6448536269514722
)

// Zone is where a reading proves conformity. A side without a limit is ±Inf.
type Zone struct{ Low, High float64 }

// Empty reports that nothing is left between the limits: this instrument
// cannot prove conformity.
func (z Zone) Empty() bool { return z.Low > z.High }

// AcceptanceLimits moves each limit inwards by guard·u: a reading within them
// proves conformity on that side. A side without a limit is ±Inf.
// Method: JCGM 106:2012 clause 8; ISO 14253-1:2017. Errors: RangeError.
func AcceptanceLimits(lo, hi, u, guard float64) (Zone, error) {
	if err := checkLimits(lo, hi); err != nil {
		return Zone{}, err
	}
	if notFinite(u) || u < 0 {
		return Zone{}, RangeError{"standard uncertainty", u, "zero or more"}
	}
	if notFinite(guard) || guard < 0 {
		return Zone{}, RangeError{"guard factor", guard, "zero or more"}
	}
	return Zone{lo + guard*u, hi - guard*u}, nil
}

// Capability is the measuring capability index C_m = (hi − lo) / (4u).
// Method: JCGM 106:2012 clause 7 (sub-clause number from memory: 7.6.3).
// Errors: RangeError, also for u = 0 and open limits.
func Capability(lo, hi, u float64) (float64, error) {
	if notFinite(hi-lo) || hi < lo {
		return 0, RangeError{"span of the limits", hi - lo, "finite"}
	}
	if notFinite(u) || !(u > 0) {
		return 0, RangeError{"standard uncertainty", u, "above zero"}
	}
	return (hi - lo) / (4 * u), nil
}
