package power

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// KW is power from torque (N·m) and speed (rpm): 2π·n·T/60000. Errors:
// RangeError.
func KW(torque, rpm float64) (float64, error) {
	return metrology.Unless(metrology.Positives("torque, N·m", torque, "speed, rpm", rpm), 2*math.Pi*rpm*torque/60000)
}

// Torque is what gives a power (kW) at a speed (rpm), N·m. Errors: RangeError.
func Torque(kw, rpm float64) (float64, error) {
	return metrology.Unless(metrology.Positives("power, kW", kw, "speed, rpm", rpm), 60000*kw/(2*math.Pi*rpm))
}

// Brake is a reading of a brake dynamometer: the scale's force and its tare
// (N), the arm (m) and the speed of the braked shaft (rpm).
type Brake struct{ Scale, Tare, Arm, Rpm float64 }

// KW is the power a brake takes: (scale − tare)·arm at its speed. Errors:
// RangeError, also for a scale that reads no more than its tare.
func (b Brake) KW() (float64, error) {
	if err := metrology.Within("tare, N", b.Tare, 0, 1e6, "0 or more"); err != nil {
		return 0, err
	}
	if err := metrology.Positives("scale less tare, N", b.Scale-b.Tare, "arm, m", b.Arm); err != nil {
		return 0, err
	}
	return KW((b.Scale-b.Tare)*b.Arm, b.Rpm)
}

// Shaft is a type of power take-off end. Source: ISO500-1, from memory.
type Shaft struct {
	Type     int
	Rpm      float64
	Diameter float64 // mm
	Splines  int
	Form     string
}

// Shafts lists the three types. An implement for 540 on a shaft of 1000 runs
// 1.85 times too fast.
func Shafts() []Shaft {
	return []Shaft{{1, 540, 35, 6, "straight"}, {2, 1000, 35, 21, "involute"}, {3, 1000, 45, 20, "involute"}}
}

// Ratio is the reduction from engine to another shaft, both in rpm, or how
// many times too fast one runs. Errors: RangeError.
func Ratio(engine, shaft float64) (float64, error) {
	return metrology.Unless(metrology.Positives("engine speed, rpm", engine, "shaft speed, rpm", shaft), engine/shaft)
}

// ShaftSpeed is a shaft's speed (rpm) from the engine's and the reduction.
// Errors: RangeError.
func ShaftSpeed(engine, ratio float64) (float64, error) {
	return metrology.Unless(metrology.Positives("engine speed, rpm", engine, "reduction", ratio), engine/ratio)
}

// ShaftOff is how far a power take-off runs from its nominal speed, per cent,
// and whether that is within the 3 % that the trade lets pass (common
// practice, no source; the nominal speeds are those of ISO 500-1). Errors:
// RangeError for a nominal speed that is neither 540 nor 1000.
func ShaftOff(rpm, nominal float64) (percent float64, good bool, err error) {
	if err := metrology.Positive("speed of the shaft, rpm", rpm); err != nil {
		return 0, false, err
	}
	if nominal != 540 && nominal != 1000 {
		return 0, false, metrology.RangeError{Field: "nominal speed, rpm", Got: nominal, Want: "540 or 1000"}
	}
	percent = 100 * (rpm - nominal) / nominal
	return percent, math.Abs(percent) <= 3, nil
}
