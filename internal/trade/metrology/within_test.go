package metrology

import (
	"errors"
	"math"
	"testing"
)

func TestWithin(t *testing.T) {
	for _, bad := range []float64{-0.1, 100.1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		err := Within("humidity", bad, 0, 100, "0 to 100 %")
		var r RangeError
		if !errors.As(err, &r) || r.Field != "humidity" || r.Want != "0 to 100 %" {
			t.Errorf("%g: %v", bad, err)
		}
	}
	if Within("humidity", 0, 0, 100, "") != nil || Within("humidity", 100, 0, 100, "") != nil {
		t.Error("a bound does not belong to its range")
	}
}

func TestPositives(t *testing.T) {
	var r RangeError
	if err := Positives("bore", 80.0, "stroke", 0.0, "pitch", -1.0); !errors.As(err, &r) || r.Field != "stroke" {
		t.Errorf("got %v, want the first that fails", err)
	}
	if err := Positives("bore", 80.0); err != nil {
		t.Error(err)
	}
}

func TestUnless(t *testing.T) {
	if v, err := Unless(RangeError{}, math.Inf(1)); v != 0 || err == nil {
		t.Errorf("got %g, %v", v, err)
	}
	if v, err := Unless(nil, 2); v != 2 || err != nil {
		t.Errorf("got %g, %v", v, err)
	}
}
