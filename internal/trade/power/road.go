package power

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// RoadSpeed is the speed over ground (km/h) from engine speed (rpm), total
// reduction and rolling circumference (m): C·n/i. Measure the loaded tyre.
// Errors: RangeError.
func RoadSpeed(engine, ratio, circumference float64) (float64, error) {
	err := metrology.Positives("engine speed, rpm", engine, "total reduction", ratio, "rolling circumference, m", circumference)
	return metrology.Unless(err, 0.06*circumference*engine/ratio)
}

// Rolling is the rolling circumference (m) of a wheel of a rolling diameter.
// Errors: RangeError.
func Rolling(diameter float64) (float64, error) {
	return metrology.Unless(metrology.Positive("rolling diameter, m", diameter), math.Pi*diameter)
}

// RollingByPull is the rolling circumference (m) from a distance rolled in so
// many turns. Errors: RangeError.
func RollingByPull(metres, turns float64) (float64, error) {
	return metrology.Unless(metrology.Positives("distance, m", metres, "turns of the wheel", turns), metres/turns)
}

// Slip is the share (per cent) that the wheels lose over the same turns:
// (unloaded − loaded)/unloaded. Errors: RangeError, also for a loaded run
// that goes farther.
func Slip(loaded, unloaded float64) (float64, error) {
	if err := metrology.Positive("distance unloaded, m", unloaded); err != nil {
		return 0, err
	}
	if err := metrology.Within("distance loaded, m", loaded, 0, unloaded, "no more than unloaded"); err != nil {
		return 0, err
	}
	return 100 * (unloaded - loaded) / unloaded, nil
}

// Drawbar is the power at the drawbar, kW: F·v, with N and km/h. Errors:
// RangeError.
func Drawbar(force, kmh float64) (float64, error) {
	return metrology.Unless(metrology.Positives("pull, N", force, "speed, km/h", kmh), force*kmh/3600)
}
