package power

import (
	"fmt"
	"slices"

	"matchmark/internal/trade/metrology"
)

// MeanPressure is the brake mean effective pressure of a four-stroke, bar:
// 1200·P/(V·n), with kW, litres and rpm. Errors: RangeError.
func MeanPressure(kw, litres, rpm float64) (float64, error) {
	err := metrology.Positives("power, kW", kw, "displacement, L", litres, "engine speed, rpm", rpm)
	return metrology.Unless(err, 1200*kw/(litres*rpm))
}

// FuelUse is the specific consumption, g/(kW·h), from a burette: cm³ in
// seconds, density in kg/L, power in kW. Errors: RangeError.
func FuelUse(cm3, seconds, density, kw float64) (float64, error) {
	if err := metrology.Positives("fuel, cm³", cm3, "time, s", seconds, "power, kW", kw); err != nil {
		return 0, err
	}
	if err := metrology.Within("density of the fuel, kg/L", density, 0.7, 1, "0.7 to 1"); err != nil {
		return 0, err
	}
	return cm3 * density * 3600 / seconds / kw, nil
}

// Thermal is the thermal efficiency from specific consumption (g/(kW·h)) and
// heating value (MJ/kg; diesel fuel about 42.7): 3600/(b·H). Errors:
// RangeError.
func Thermal(use, heating float64) (float64, error) {
	return metrology.Unless(metrology.Positives("fuel use, g/(kW·h)", use, "heating value, MJ/kg", heating), 3600/(use*heating))
}

// LeakDown is what a cylinder loses, per cent of the pressure let in:
// (p₁ − p₂)/p₁, one unit for both. Errors: RangeError, also for a cylinder
// over the supply.
func LeakDown(in, cylinder float64) (float64, error) {
	if err := metrology.Positive("pressure let in", in); err != nil {
		return 0, err
	}
	if err := metrology.Within("pressure in the cylinder", cylinder, 0, in, "no more than is let in"); err != nil {
		return 0, err
	}
	return 100 * (in - cylinder) / in, nil
}

// Spread is how far the compression pressures of an engine part.
type Spread struct {
	Range  float64 // largest less smallest, as read
	Lowest float64 // smallest, per cent of the largest
}

// SpreadOf compares compression pressures (one unit). Errors: RangeError for
// fewer than two, or one not above 0.
func SpreadOf(pressures []float64) (Spread, error) {
	if err := metrology.Within("cylinders read", float64(len(pressures)), 2, 24, "2 or more"); err != nil {
		return Spread{}, err
	}
	for i, p := range pressures {
		if err := metrology.Positive(fmt.Sprintf("compression of cylinder %d", i+1), p); err != nil {
			return Spread{}, err
		}
	}
	high, low := slices.Max(pressures), slices.Min(pressures)
	return Spread{Range: high - low, Lowest: 100 * low / high}, nil
}
