package metrology

import "math"

// Outlier names the reading farthest from the mean and whether it is too far.
// It is named, never dropped.
type Outlier struct {
	Index    int     // place of the reading in the list
	Value    float64 // the reading
	Distance float64 // from the mean, in standard deviations of the list
	Critical float64 // distance that honest scatter exceeds with probability level
	Suspect  bool
}

// FindOutlier applies the two-sided Grubbs test at a level such as 0.05.
// Needs three readings or more; readings that are all alike have no suspect.
// Method: ISO 5725-2:1994 7.3.4; critical value from Student's t.
// Errors: RangeError.
func FindOutlier(readings []float64, level float64) (Outlier, error) {
	critical, err := GrubbsCritical(len(readings), level, true)
	if err != nil {
		return Outlier{}, err
	}
	mean, s, err := meanAndDeviation(readings)
	if err != nil {
		return Outlier{}, err
	}
	o := Outlier{Critical: critical}
	for i, x := range readings {
		if d := math.Abs(x - mean); d > math.Abs(readings[o.Index]-mean) {
			o.Index = i
		}
	}
	o.Value = readings[o.Index]
	if s > 0 {
		o.Distance = math.Abs(o.Value-mean) / s
	}
	o.Suspect = o.Distance > critical
	return o, nil
}

// GrubbsCritical is the distance, in standard deviations, that the farthest
// of n readings exceeds with probability level: on either side, or on one
// side named beforehand.
// Method: (n−1)/√n · √(t²/(n−2+t²)), t with n−2 degrees of freedom at
// level/(2n) or level/n. Errors: RangeError for n below 3.
func GrubbsCritical(n int, level float64, twoSided bool) (float64, error) {
	if n < 3 {
		return 0, RangeError{"number of readings", float64(n), "three or more"}
	}
	if !(level > 0 && level < 0.5) {
		return 0, RangeError{"level", level, "between 0 and 0.5"}
	}
	k := float64(n)
	tail := level / k
	if twoSided {
		tail /= 2
	}
	t := studentQuantile(1-tail, k-2)
	return (k - 1) / math.Sqrt(k) * math.Sqrt(t*t/(k-2+t*t)), nil
}
