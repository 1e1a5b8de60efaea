package coating

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// Parts splits a mixed volume by parts: 500 at 4:1 is 400 and 100. Errors:
// RangeError, also for fewer than two parts.
func Parts(total float64, ratio ...float64) ([]float64, error) {
	if err := metrology.Within("number of parts", float64(len(ratio)), 2, 5, "2 to 5"); err != nil {
		return nil, err
	}
	if err := metrology.Positive("mixed volume", total); err != nil {
		return nil, err
	}
	sum := 0.0
	for i, r := range ratio {
		if err := metrology.Positive(fmt.Sprintf("part %d of the ratio", i+1), r); err != nil {
			return nil, err
		}
		sum += r
	}
	out := make([]float64, len(ratio))
	for i, r := range ratio {
		out[i] = total * r / sum
	}
	return out, nil
}

// Thinned splits a volume that is to be mixed by parts and then thinned by so
// many per cent of the paint: the last figure is the thinner. Errors:
// RangeError.
func Thinned(total, thinnerPercent float64, ratio ...float64) ([]float64, error) {
	if err := thinner(thinnerPercent); err != nil {
		return nil, err
	}
	paint := total / (1 + thinnerPercent/100)
	parts, err := Parts(paint, ratio...)
	if err != nil {
		return nil, err
	}
	return append(parts, total-paint), nil
}

// HardenerGrams is the hardener (g) for so many grams of base, from a ratio
// by volume and the densities (kg/L) of both: volume and mass ratios differ.
// Errors: RangeError.
func HardenerGrams(base, basePart, hardenerPart, baseDensity, hardenerDensity float64) (float64, error) {
	err := metrology.Positives("base, g", base, "part of the base", basePart, "part of the hardener", hardenerPart,
		"density of the base, kg/L", baseDensity, "density of the hardener, kg/L", hardenerDensity)
	return metrology.Unless(err, base*hardenerPart*hardenerDensity/(basePart*baseDensity))
}
