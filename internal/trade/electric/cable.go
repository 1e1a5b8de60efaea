package electric

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// Allowed drops, common practice, no source: lamps by share of the system's
// volts, the starter in volts of a 12 V system, there and back.
const (
	LampShare   = 0.03
	StarterDrop = 0.5
)

// Run is a cable to a consumer. OneWay is its length in metres; Frame says
// that the current comes back through the machine's metal, so that only one
// length counts and Joint (Ω) holds what the earth joints add.
type Run struct {
	Amps    float64
	OneWay  float64
	Frame   bool
	Joint   float64
	Class   Class    // 0 is Flexible
	Celsius *float64 // of the conductor; nil is 20
}

// Drop is what a run loses.
type Drop struct {
	Volts float64
	Share float64 // of the system's volts
	Watts float64
}

func (r Run) check() error {
	if err := metrology.Positives("current, A", r.Amps, "length one way, m", r.OneWay); err != nil {
		return err
	}
	return metrology.Within("resistance of the earth joints, Ω", r.Joint, 0, 1, "0 to 1 Ω")
}

// Lost is the drop of a run over a cross-section (mm²) in a system of so many
// volts: I·R, there and back. Source: Ohm; IEC60228 for R. Errors:
// RangeError, SizeError.
func (r Run) Lost(mm2, system float64) (Drop, error) {
	if err := r.check(); err != nil {
		return Drop{}, err
	}
	if err := metrology.Positive("volts of the system", system); err != nil {
		return Drop{}, err
	}
	class := r.Class
	if class == 0 {
		class = Flexible
	}
	perKm, err := PerKm(mm2, class)
	if err != nil {
		return Drop{}, err
	}
	if r.Celsius != nil {
		if perKm, err = Warm(perKm, *r.Celsius); err != nil {
			return Drop{}, err
		}
	}
	metres := 2 * r.OneWay
	if r.Frame {
		metres = r.OneWay
	}
	volts := r.Amps * (perKm*metres/1000 + r.Joint)
	return Drop{Volts: volts, Share: volts / system, Watts: volts * r.Amps}, nil
}

// Smallest is the smallest cross-section (mm²) of the table that loses no
// more than so many volts. Errors: RangeError, also where not even the
// largest does.
func (r Run) Smallest(most float64) (float64, error) {
	if err := metrology.Positive("allowed drop, V", most); err != nil {
		return 0, err
	}
	var least float64
	for _, mm2 := range Sizes() {
		d, err := r.Lost(mm2, 12)
		if err != nil {
			return 0, err
		}
		if d.Volts <= most {
			return mm2, nil
		}
		least = d.Volts
	}
	return 0, metrology.RangeError{Field: "allowed drop, V", Got: most, Want: fmt.Sprintf("at least %.3g, what 120 mm² loses", least)}
}

// Carries is about what current (A) a single cable in free air carries for
// good: 8 A a mm² up to 6 mm², 6 A up to 16, 5 A above. Own decision on the
// low side, no source; a starter cable carries far more for seconds. The
// figure of the cable in hand replaces it. Errors: SizeError.
func Carries(mm2 float64) (float64, error) {
	if _, err := PerKm(mm2, Flexible); err != nil {
		return 0, err
	}
	switch {
	case mm2 <= 6:
		return 8 * mm2, nil
	case mm2 <= 16:
		return 6 * mm2, nil
	}
	return 5 * mm2, nil
}
