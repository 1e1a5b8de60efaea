package hydraulic

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Force is the push of a cylinder, N: p·π/4·d², bore in mm, pressure in bar.
// Errors: RangeError.
func Force(bore, bar float64) (float64, error) {
	return metrology.Unless(metrology.Positives("bore, mm", bore, "pressure, bar", bar), area(bore)*bar/10)
}

// Pull is the force on the rod side, N: p·π/4·(d² − rod²). Errors: RangeError.
func Pull(bore, rod, bar float64) (float64, error) {
	if err := metrology.Positives("bore, mm", bore, "rod, mm", rod, "pressure, bar", bar); err != nil {
		return 0, err
	}
	if err := metrology.Within("rod, mm", rod, 0, bore, "less than the bore"); err != nil {
		return 0, err
	}
	return (area(bore) - area(rod)) * bar / 10, nil
}

// Speed is how fast a piston moves, mm/s: Q/A, flow in L/min. Errors:
// RangeError.
func Speed(bore, flow float64) (float64, error) {
	err := metrology.Positives("bore, mm", bore, "flow, L/min", flow)
	return metrology.Unless(err, flow*1e6/60/area(bore))
}

// Leak is the oil that gets past, cm³/min, from how fast a loaded piston
// sinks (mm/min). At the ball ends multiply the sinking there by the travel
// ratio first. Errors: RangeError.
func Leak(bore, sink float64) (float64, error) {
	return metrology.Unless(metrology.Positives("bore, mm", bore, "sinking of the piston, mm/min", sink), area(bore)*sink/1000)
}

func area(d float64) float64 { return math.Pi / 4 * d * d }

// Lift is the force (N) at the ball ends without friction: what the piston
// gives times piston travel over ball travel, both measured (mm) over one
// small move about the same height. By virtual work; no lever is measured.
// Errors: RangeError.
func Lift(piston, pistonTravel, ballTravel float64) (float64, error) {
	err := metrology.Positives("force of the piston, N", piston, "travel of the piston, mm", pistonTravel, "travel of the ball ends, mm", ballTravel)
	return metrology.Unless(err, piston*pistonTravel/ballTravel)
}

// Hoop is the stress in a thin cylinder wall, MPa: p·D/(2t), pressure in bar,
// bore and wall in mm. Textbook, for walls up to a tenth of the bore; a
// thicker one is refused, for the formula would read low at the bore. Errors:
// RangeError.
func Hoop(bar, bore, wall float64) (float64, error) {
	if err := metrology.Positives("pressure, bar", bar, "bore, mm", bore); err != nil {
		return 0, err
	}
	if err := thin(bore, wall); err != nil {
		return 0, err
	}
	return bar / 10 * bore / (2 * wall), nil
}

func thin(bore, wall float64) error {
	return metrology.Within("wall, mm", wall, math.SmallestNonzeroFloat64, bore/10, "above 0 and no more than a tenth of the bore")
}

// WallStress is the stress that a cylinder wall of unknown steel is not to
// pass, MPa. Common practice, no source.
const WallStress = 80.0

// WallBar is the pressure (bar) at which a thin wall reaches WallStress.
// Errors: RangeError.
func WallBar(bore, wall float64) (float64, error) {
	if err := metrology.Positive("bore, mm", bore); err != nil {
		return 0, err
	}
	if err := thin(bore, wall); err != nil {
		return 0, err
	}
	return 10 * WallStress * 2 * wall / bore, nil
}
