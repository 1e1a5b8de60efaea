package electric

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Driven is the speed (rpm) of a driven pulley: n·d₁/d₂ by pitch diameters
// (mm), less slip (0 to 1; a flat belt about 0.02). Errors: RangeError.
func Driven(rpm, driver, driven, slip float64) (float64, error) {
	if err := metrology.Positives("speed of the driver, rpm", rpm, "driving diameter, mm", driver, "driven diameter, mm", driven); err != nil {
		return 0, err
	}
	return metrology.Unless(metrology.Within("slip", slip, 0, 0.2, "0 to 0.2"),
		rpm*driver/driven*(1-slip))
}

// LargestDriven is the largest driven pulley (mm) with which a generator
// reaches its cut-in speed while the engine idles: d₁·idle/cut-in. Errors:
// RangeError.
func LargestDriven(crankPulley, idle, cutIn float64) (float64, error) {
	return metrology.Unless(metrology.Positives("crank pulley, mm", crankPulley, "idle, rpm", idle, "cut-in speed, rpm", cutIn),
		crankPulley*idle/cutIn)
}

// OpenBelt is the length (mm) of an open belt round pitch diameters D and d at
// a distance of centres: the usual approximation 2C + π(D+d)/2 + (D−d)²/4C,
// and exactly, with the wrap by arcsine. Errors: RangeError, also for pulleys
// that touch.
func OpenBelt(large, small, centre float64) (usual, exact float64, err error) {
	if err := metrology.Positives("large diameter, mm", large, "small diameter, mm", small); err != nil {
		return 0, 0, err
	}
	if small > large {
		large, small = small, large
	}
	if err := metrology.Within("distance of centres, mm", centre, (large+small)/2, 1e5, "more than half the sum of the diameters"); err != nil {
		return 0, 0, err
	}
	d := large - small
	usual = 2*centre + math.Pi*(large+small)/2 + d*d/(4*centre)
	a := math.Asin(d / (2 * centre))
	exact = 2*centre*math.Cos(a) + large*(math.Pi/2+a) + small*(math.Pi/2-a)
	return usual, exact, nil
}

// LampAmps is what a lamp takes: P/U. Errors: RangeError.
func LampAmps(watts, volts float64) (float64, error) {
	return metrology.Unless(metrology.Positives("power of the lamp, W", watts, "volts", volts),
		watts/volts)
}

// PowerTimes is by how much the power of the same resistance grows at other
// volts: (U₂/U₁)². Twelve volts on a coil for six is four times. Errors:
// RangeError.
func PowerTimes(madeFor, given float64) (float64, error) {
	return metrology.Unless(metrology.Positives("volts it is made for", madeFor, "volts given", given),
		given*given/(madeFor*madeFor))
}
