package metrology

import (
	"math"
	"math/rand/v2"
	"slices"
)

// D2 is the expected range of n readings of one and the same size, in
// standard deviations of one reading: 1.128 for 2, 2.326 for 5.
// Method: ∫ [1 − Φ(x)ⁿ − (1 − Φ(x))ⁿ] dx by the trapezium rule over ±9,
// accurate to 1e-9 for n up to 1000. Errors: RangeError for n below 2 or
// above 1000.
func D2(n int) (float64, error) {
	if n < 2 || n > 1000 {
		return 0, RangeError{"number of readings", float64(n), "2 to 1000"}
	}
	const h = 1.0 / 64
	sum, k := 0.0, float64(n)
	for i := -9 * 64; i <= 9*64; i++ {
		below := 0.5 * math.Erfc(-float64(i)*h/math.Sqrt2)
		above := 0.5 * math.Erfc(float64(i)*h/math.Sqrt2)
		sum += 1 - math.Pow(below, k) - math.Pow(above, k)
	}
	return sum * h, nil
}

// Work of RangeEstimate: draws of the noise and steps of the scale.
const (
	rangeDraws = 2000
	rangeSteps = 24
)

// RangeEstimate is the true range (largest less smallest) behind readings of
// different places, each with random standard uncertainty u: ovality, taper,
// runout. The plain range reads too high, for noise alone spreads n equal
// readings by D2(n)·u. An error common to all readings does not belong in u.
//
// Method: the pattern of the readings about their mean is shrunk until its
// expected range with the noise put back equals the range seen; the answer is
// the range of the shrunk pattern, and 0 where even equal sizes would show as
// much. Expectations are means over 2000 draws from the given seed (GUM
// supplement JCGM 101). U is the root mean square distance of the same
// estimate from the answer over the draws about it: it holds bias and
// scatter.
// Accuracy: a bias upwards stays near 0, since a range is never below 0. For
// places truly alike it is 0.7, 0.8 and 1.0 u for 2, 4 and 6 readings, where
// the plain range has 1.1, 2.0 and 2.6 u; from 6 u on it is below 0.3 u
// (our own simulation, 300 sets each; a shorter one is among the tests).
// Needs two readings or more. Cost: 2000·24·n steps, about a millisecond.
// Errors: RangeError.
func RangeEstimate(values []float64, u float64, seed uint64) (Estimate, error) {
	if len(values) < 2 || len(values) > 1000 {
		return Estimate{}, RangeError{"number of readings", float64(len(values)), "2 to 1000"}
	}
	if notFinite(u) || u < 0 {
		return Estimate{}, RangeError{"standard uncertainty", u, "zero or more"}
	}
	mean, _, err := meanAndDeviation(values)
	if err != nil {
		return Estimate{}, err
	}
	seen := slices.Max(values) - slices.Min(values)
	if u == 0 {
		return Estimate{Value: seen}, nil
	}
	curve := newRangeCurve(unitPattern(values, mean, seen), seen+12*u, u, seed)
	answer := curve.invert(seen)
	sum := 0.0
	for _, r := range curve.ranges(answer) {
		d := curve.invert(r) - answer
		sum += d * d
	}
	return Estimate{Value: answer, U: math.Sqrt(sum / rangeDraws)}, nil
}

// unitPattern is the pattern of the readings about their mean, brought to a
// range of 1; readings that are all alike are taken as evenly spread.
func unitPattern(values []float64, mean, seen float64) []float64 {
	pattern := make([]float64, len(values))
	for i, v := range values {
		if seen > 0 {
			pattern[i] = (v - mean) / seen
		} else {
			pattern[i] = float64(i) / float64(len(values)-1)
		}
	}
	return pattern
}

// rangeCurve is the expected noisy range as a function of the true range of a
// pattern, on a grid, with the noise it was found with.
type rangeCurve struct {
	pattern        []float64 // of range 1
	noise          [][]float64
	true, expected []float64
}

// newRangeCurve lays the grid from 0 to top, past the largest range to be met.
func newRangeCurve(pattern []float64, top, u float64, seed uint64) *rangeCurve {
	c := &rangeCurve{pattern: pattern, noise: make([][]float64, rangeDraws)}
	source := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	for i := range c.noise {
		c.noise[i] = make([]float64, len(pattern))
		for j := range c.noise[i] {
			c.noise[i][j] = u * source.NormFloat64()
		}
	}
	for i := range rangeSteps + 1 {
		// Steps grow with the square: the curve bends near zero.
		at := top * float64(i*i) / (rangeSteps * rangeSteps)
		mean := 0.0
		for _, r := range c.ranges(at) {
			mean += r / rangeDraws
		}
		c.true = append(c.true, at)
		c.expected = append(c.expected, mean)
	}
	return c
}

// ranges simulates the noisy range of the pattern with a given true range.
func (c *rangeCurve) ranges(span float64) []float64 {
	list := make([]float64, len(c.noise))
	for i, noise := range c.noise {
		low, high := math.Inf(1), math.Inf(-1)
		for j, p := range c.pattern {
			x := span*p + noise[j]
			low, high = min(low, x), max(high, x)
		}
		list[i] = high - low
	}
	return list
}

// invert finds the true range whose expected noisy range is r; 0 below the
// range that noise alone makes.
func (c *rangeCurve) invert(r float64) float64 {
	last := len(c.expected) - 1
	if r <= c.expected[0] {
		return 0
	}
	for i := 1; i <= last; i++ {
		if r <= c.expected[i] {
			share := (r - c.expected[i-1]) / (c.expected[i] - c.expected[i-1])
			return c.true[i-1] + share*(c.true[i]-c.true[i-1])
		}
	}
	return c.true[last]
}
