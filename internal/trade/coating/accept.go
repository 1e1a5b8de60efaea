package coating

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// Accepted is whether a measured film passes, and what it failed by.
type Accepted struct {
	Pass  bool
	Mean  float64
	Why   string
	Rules string // whose rule
}

// ByNominal judges single readings (µm) against a nominal film: the mean not
// below it, no reading under 80 %, and no more than a fifth of them between
// 80 and 100 %. Source: ISO19840, from memory. Errors: RangeError.
func ByNominal(readings []float64, nominal float64) (Accepted, error) {
	mean, err := meanOf(readings, nominal)
	if err != nil {
		return Accepted{}, err
	}
	a := Accepted{Mean: mean, Rules: "ISO 19840, from memory"}
	under, thin := 0, 0
	for _, r := range readings {
		switch {
		case r < 0.8*nominal:
			under++
		case r < nominal:
			thin++
		}
	}
	share := float64(thin) / float64(len(readings))
	switch {
	case under > 0:
		a.Why = fmt.Sprintf("%d of %d readings under 80 %%", under, len(readings))
	case share > 0.2:
		a.Why = fmt.Sprintf("%.0f %% of the readings between 80 and 100 %%, no more than 20 wanted", 100*share)
	case mean < nominal:
		a.Why = fmt.Sprintf("mean %.0f µm under %g", mean, nominal)
	}
	a.Pass = a.Why == ""
	return a, nil
}

// BySpots judges spots of three readings each (five spots to 10 m²) against a
// range: every spot's mean within 80 % of the least and 120 % of the most, the
// mean of all within the range. Source: SSPC-PA2 level 3, from memory.
// Errors: RangeError.
func BySpots(spots [][3]float64, least, most float64) (Accepted, error) {
	if err := metrology.Within("most of the range, µm", most, least, 1e5, "no less than the least"); err != nil {
		return Accepted{}, err
	}
	means := make([]float64, len(spots))
	for i, s := range spots {
		for _, r := range s {
			if err := metrology.Positive(fmt.Sprintf("reading of spot %d, µm", i+1), r); err != nil {
				return Accepted{}, err
			}
		}
		means[i] = (s[0] + s[1] + s[2]) / 3
	}
	mean, err := meanOf(means, least)
	if err != nil {
		return Accepted{}, err
	}
	a := Accepted{Mean: mean, Rules: "SSPC-PA 2 level 3, from memory"}
	for i, m := range means {
		if m < 0.8*least || m > 1.2*most {
			a.Why = fmt.Sprintf("spot %d is %.0f µm, %.0f to %.0f wanted", i+1, m, 0.8*least, 1.2*most)
			return a, nil
		}
	}
	if mean < least || mean > most {
		a.Why = fmt.Sprintf("mean %.0f µm, %g to %g wanted", mean, least, most)
	}
	a.Pass = a.Why == ""
	return a, nil
}

func meanOf(readings []float64, nominal float64) (float64, error) {
	if err := metrology.Positive("wanted film, µm", nominal); err != nil {
		return 0, err
	}
	if err := metrology.Within("number of readings", float64(len(readings)), 1, 1e6, "1 or more"); err != nil {
		return 0, err
	}
	sum := 0.0
	for i, r := range readings {
		if err := metrology.Positive(fmt.Sprintf("reading %d, µm", i+1), r); err != nil {
			return 0, err
		}
		sum += r
	}
	return sum / float64(len(readings)), nil
}

// Preparation is a grade of cleaned steel. Source: ISO8501-1, from memory.
type Preparation struct{ Grade, Meaning string }

// Preparations lists the usual grades.
func Preparations() []Preparation {
	return []Preparation{{"Sa 1", "light blast"}, {"Sa 2", "thorough blast"}, {"Sa 2.5", "very thorough blast"},
		{"Sa 3", "blast to visually clean steel"}, {"St 2", "thorough hand/power tool"}, {"St 3", "very thorough hand/power tool"}}
}
