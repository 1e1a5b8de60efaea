package metrology

import "math"

// MaxRepeats is the most repeats that RepeatsToSettle looks at; past it a
// better instrument is the answer.
const MaxRepeats = 50

// RepeatsToSettle is the smallest number of readings in all, at the present
// mean y, for which the verdict would no longer be Doubtful at the default
// levels; 1 means that one reading settles it, 0 that up to MaxRepeats
// readings do not. Only the random part falls: u² = uRandom²/n + uFixed².
// uRandom is the standard deviation of one reading.
// It assumes that the mean stays where it is, which more readings may belie.
// Method: JCGM 106:2012 clause 7 on each n; GUM 4.2.3 for the fall with √n.
// Errors: RangeError.
func RepeatsToSettle(y, uRandom, uFixed, lo, hi float64) (int, error) {
	for _, u := range []float64{uRandom, uFixed} {
		if notFinite(u) || u < 0 {
			return 0, RangeError{"standard uncertainty", u, "zero or more"}
		}
	}
	for n := 1; n <= MaxRepeats; n++ {
		u := math.Hypot(uRandom/math.Sqrt(float64(n)), uFixed)
		p, err := ConformProbability(y, u, lo, hi)
		if err != nil {
			return 0, err
		}
		if Decide(p, DefaultAccept, DefaultReject) != Doubtful {
			return n, nil
		}
	}
	return 0, nil
}
