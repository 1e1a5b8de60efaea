package metrology

import "slices"

// Profile is how diameters run along an axis, as a fitter names it.
type Profile string

// The profiles. Cone, Barrel and Waist are what both a bore and a journal can
// have; Mouth is one end that stands apart from the rest, as a bell-mouthed
// bore.
const (
	Straight Profile = "straight" // no difference beyond the uncertainty
	Cone     Profile = "cone"     // from one end to the other
	Barrel   Profile = "barrel"   // larger in the middle than at both ends
	Waist    Profile = "waist"    // smaller in the middle than at both ends
	Mouth    Profile = "mouth"    // one end apart, the rest alike
)

// NameProfile names the run of diameters read from one end to the other in one
// direction. u is the standard uncertainty of a difference of two of them;
// differences count from 2u on. end is the index of the larger end of a cone,
// of the end that stands apart of a mouth, and -1 otherwise. Two diameters can
// only be straight or a cone.
// Source: names are common practice, no source. Errors: RangeError for fewer
// than two diameters and for what is not a number.
func NameProfile(diameters []float64, u float64) (p Profile, end int, err error) {
	n := len(diameters)
	if n < 2 {
		return Straight, -1, RangeError{"number of diameters", float64(n), "two or more"}
	}
	if notFinite(u) || u < 0 {
		return Straight, -1, RangeError{"standard uncertainty", u, "zero or more"}
	}
	for _, d := range diameters {
		if notFinite(d) {
			return Straight, -1, RangeError{"diameter", d, "a finite number"}
		}
	}
	apart := func(a, b float64) bool { return a-b > 2*u }
	big, small := 0, n-1
	if diameters[small] > diameters[big] {
		big, small = small, big
	}
	tapers := apart(diameters[big], diameters[small])
	if n == 2 {
		if tapers {
			return Cone, big, nil
		}
		return Straight, -1, nil
	}
	low, high := slices.Min(diameters[1:n-1]), slices.Max(diameters[1:n-1])
	switch {
	case apart(high, diameters[big]):
		return Barrel, -1, nil
	case apart(diameters[small], low):
		return Waist, -1, nil
	case !tapers:
		return Straight, -1, nil
	case !apart(high, diameters[small]): // the middle is like the small end
		return Mouth, big, nil
	case !apart(diameters[big], low):
		return Mouth, small, nil
	}
	return Cone, big, nil
}
