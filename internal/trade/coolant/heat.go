package coolant

import "matchmark/internal/trade/metrology"

// HeatFlow is what a stream of coolant carries off, kW: litres a second ×
// kg/L × kJ/(kg·K) × K. Errors: RangeError.
func HeatFlow(litresPerSecond, density, heat, riseK float64) (float64, error) {
	if err := metrology.Positives("flow, L/s", litresPerSecond, "density, kg/L", density,
		"heat capacity, kJ/(kg·K)", heat, "rise, K", riseK); err != nil {
		return 0, err
	}
	return litresPerSecond * density * heat * riseK, nil
}

// Expansion is how many litres a filling gains when its density falls from
// cold to hot (kg/m³): V·(cold/hot − 1). Room is wanted for it. Errors:
// RangeError, also for a density that rises.
func Expansion(litres, cold, hot float64) (float64, error) {
	if err := metrology.Positives("litres", litres, "density cold, kg/m³", cold, "density hot, kg/m³", hot); err != nil {
		return 0, err
	}
	if err := metrology.Within("density hot, kg/m³", hot, 0, cold, "no more than cold"); err != nil {
		return 0, err
	}
	return litres * (cold/hot - 1), nil
}
