package metrology

import (
	"math"
	"slices"
)

// priorDof is the weight, in degrees of freedom, of what is known beforehand
// about the repeats of an instrument: 8 stands for a figure good to a quarter.
// Method: GUM G.4.2, ν = ½·(Δu/u)⁻².
const priorDof = 8

// Result is what a set of readings amounts to, with its working.
type Result struct {
	Estimate
	Count     int
	Observed  float64 // standard deviation of the readings; 0 for one reading
	Random    float64 // standard deviation of one reading, prior and readings pooled
	Fixed     float64 // standard uncertainty that repeats do not lessen
	Spread    float64 // largest less smallest reading
	TooSpread bool    // the spread exceeds U (95 %) of one reading: dirt or technique
	Parts     []Part
}

// Combine gives the mean of repeats of one feature and its uncertainty: the
// repeats (the instrument's known scatter pooled with the one seen), the
// limit of error and the step.
// Needs one reading or more, all of one place: readings of different places
// along a bore are form, not repeats.
// Method: GUM 4.2.3, 4.2.4 (pooling), 4.3.7, F.2.2.1, 5.1.2, G.4.1.
// Errors: RangeError.
func Combine(readings []float64, in Instrument) (Result, error) {
	if err := in.Check(); err != nil {
		return Result{}, err
	}
	mean, observed, err := meanAndDeviation(readings)
	if err != nil {
		return Result{}, err
	}
	n := float64(len(readings))
	random, dof := pooled(observed, len(readings), in.Repeat)
	r := Result{
		Count: len(readings), Observed: observed, Random: random, Fixed: in.Fixed(mean),
		Spread: slices.Max(readings) - slices.Min(readings),
		Parts: []Part{
			{"repeats", random / math.Sqrt(n), dof},
			{"limit of error", FromHalfWidth(in.HalfWidth), 0},
			{"share of the reading", FromHalfWidth(in.Relative * mean), 0},
			{"step", FromStep(in.Step), 0},
		},
	}
	r.Value, r.Dof = mean, EffectiveDof(r.Parts)
	r.U = SumSquares(random/math.Sqrt(n), r.Fixed)
	r.TooSpread = r.Spread > 2*in.Single(mean).U && in.Repeat > 0
	return r, r.Check()
}

// TypeA is the mean of repeats with the standard uncertainty s/√n and n − 1
// degrees of freedom, from the scatter alone. Needs two readings or more.
// Method: GUM 4.2.3. Errors: RangeError.
func TypeA(readings []float64) (Estimate, error) {
	if len(readings) < 2 {
		return Estimate{}, RangeError{"number of readings", float64(len(readings)), "two or more"}
	}
	mean, s, err := meanAndDeviation(readings)
	if err != nil {
		return Estimate{}, err
	}
	return Estimate{Value: mean, U: s / math.Sqrt(float64(len(readings))), Dof: float64(len(readings) - 1)}, nil
}

// pooled is the standard deviation of one reading and its degrees of freedom
// from n readings with deviation s and a prior deviation; 0 is no prior.
func pooled(s float64, n int, prior float64) (deviation, dof float64) {
	seen := float64(n - 1)
	if prior == 0 {
		return s, seen
	}
	dof = priorDof + seen
	return math.Sqrt((priorDof*prior*prior + seen*s*s) / dof), dof
}

// meanAndDeviation needs one finite reading or more; the deviation of one is 0.
func meanAndDeviation(readings []float64) (mean, deviation float64, err error) {
	if len(readings) == 0 {
		return 0, 0, RangeError{"number of readings", 0, "one or more"}
	}
	for i, x := range readings {
		if notFinite(x) {
			return 0, 0, RangeError{"reading", x, "a finite number"}
		}
		mean += (x - mean) / float64(i+1)
	}
	if len(readings) == 1 {
		return mean, 0, nil
	}
	sum := 0.0
	for _, x := range readings {
		sum += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(sum / float64(len(readings)-1)), nil
}
