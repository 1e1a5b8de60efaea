package fit

import (
	"math"

	"matchmark/internal/trade/assign"
	"matchmark/internal/trade/metrology"
)

// Choice is which shaft goes in which hole.
type Choice struct {
	ShaftOf   []int     // ShaftOf[hole] is its shaft
	Clearance []float64 // hole less shaft, mm
	SquaresMM float64   // Σ(clearance − target)², mm²
	WorstMM   float64   // largest |clearance − target|, mm
	Chance    []float64 // that the clearance keeps its limits; nil for SelectByTarget
	Least     float64   // the smallest chance
}

// SelectByTarget pairs measured holes with measured shafts so that
// Σ(clearance − target)² is least. Sizes in mm; there may be spare shafts.
// Method: assignment [KUHN]; exact. Errors: fewer shafts than holes, a
// size or target that is not finite.
func SelectByTarget(holes, shafts []float64, target float64) (Choice, error) {
	squares, err := deviations(holes, shafts, target)
	if err != nil {
		return Choice{}, err
	}
	p, err := assign.Least(squares)
	if err != nil {
		return Choice{}, err
	}
	return choose(p, holes, shafts, target), nil
}

// SelectByChance pairs holes with shafts so that the pair least likely to keep
// its limits lo to hi is as likely as can be; among those Σ(clearance −
// middle)² is least. shared is the standard uncertainty common to a hole and a
// shaft, as where one gauge was set by the other.
// Chances that differ by less than 1e-9 count as equal.
// Method: largest threshold, then assignment; chances by JCGM 106:2012 clause
// 7. Range: both limits finite. Errors: as SelectByTarget; RangeError for the
// limits and the uncertainties.
func SelectByChance(holes, shafts []metrology.Estimate, shared, lo, hi float64) (Choice, error) {
	if math.IsInf(lo, 0) || math.IsInf(hi, 0) || !(lo <= hi) {
		return Choice{}, metrology.RangeError{Field: "lower limit of the clearance, mm", Got: lo, Want: "finite and at most a finite upper limit"}
	}
	middle := (lo + hi) / 2
	h, s := values(holes), values(shafts)
	squares, err := deviations(h, s, middle)
	if err != nil {
		return Choice{}, err
	}
	chance, risk := make([][]float64, len(h)), make([][]float64, len(h))
	for i := range holes {
		chance[i], risk[i] = make([]float64, len(s)), make([]float64, len(s))
		for j := range shafts {
			gap, err := metrology.Difference(holes[i], shafts[j], shared)
			if err != nil {
				return Choice{}, err
			}
			if chance[i][j], err = metrology.Conform(gap, lo, hi); err != nil {
				return Choice{}, err
			}
			risk[i][j] = math.Round((1-chance[i][j])*1e9) / 1e9
		}
	}
	p, err := assign.Worst(risk, squares)
	if err != nil {
		return Choice{}, err
	}
	c := choose(p, h, s, middle)
	c.Least = 1
	for i, j := range p.To {
		c.Chance = append(c.Chance, chance[i][j])
		c.Least = min(c.Least, chance[i][j])
	}
	return c, nil
}

func values(list []metrology.Estimate) []float64 {
	out := make([]float64, len(list))
	for i, e := range list {
		out[i] = e.Value
	}
	return out
}

// deviations is (hole − shaft − target)² for every pair.
func deviations(holes, shafts []float64, target float64) ([][]float64, error) {
	if math.IsNaN(target) || math.IsInf(target, 0) {
		return nil, metrology.RangeError{Field: "target clearance, mm", Got: target, Want: "a finite number"}
	}
	out := make([][]float64, len(holes))
	for i, h := range holes {
		out[i] = make([]float64, len(shafts))
		for j, s := range shafts {
			d := h - s - target
			if math.IsNaN(d) || math.IsInf(d, 0) {
				return nil, metrology.RangeError{Field: "clearance of a pair, mm", Got: d, Want: "a finite number"}
			}
			out[i][j] = d * d
		}
	}
	return out, nil
}

func choose(p assign.Plan, holes, shafts []float64, target float64) Choice {
	c := Choice{ShaftOf: p.To}
	for i, j := range p.To {
		gap := holes[i] - shafts[j]
		c.Clearance = append(c.Clearance, gap)
		c.SquaresMM += (gap - target) * (gap - target)
		c.WorstMM = max(c.WorstMM, math.Abs(gap-target))
	}
	return c
}
