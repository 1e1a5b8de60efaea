package metrology

import "math"

// Within is nil where got lies in [low, high], else a RangeError that says
// what was wanted, unit and all. Not-a-number and infinity lie nowhere.
func Within(field string, got, low, high float64, want string) error {
	if notFinite(got) || got < low || got > high {
		return RangeError{Field: field, Got: got, Want: want}
	}
	return nil
}

// Positive is nil where got is a finite number above 0.
func Positive(field string, got float64) error {
	return Within(field, got, math.SmallestNonzeroFloat64, math.MaxFloat64, "a number above 0")
}

// Positives checks pairs of name and value and gives the first that fails, in
// the order given: Positives("bore", 80.0, "stroke", 90.0). It panics where
// the pairs are not of text and float64, which is a mistake of the program.
func Positives(pairs ...any) error {
	for i := 0; i+1 < len(pairs); i += 2 {
		if err := Positive(pairs[i].(string), pairs[i+1].(float64)); err != nil {
			return err
		}
	}
	return nil
}

// Unless gives a value, or 0 where there is an error: the quotient of a
// refused division never leaves a function.
func Unless(err error, value float64) (float64, error) {
	if err != nil {
		return 0, err
	}
	return value, nil
}
