package assign

import (
	"errors"
	"math"
	"slices"
)

// Worst assigns every row to a column of its own so that the largest cost is
// least, and among such plans the sum of second is least. second may be nil:
// the sum of cost is then taken.
// Method: halving over the sorted costs with augmenting paths for each
// threshold, then Least over the pairs that stay. Cost: rows²·columns·log.
// Errors: as Least, for either matrix; second of another shape.
func Worst(cost, second [][]float64) (Plan, error) {
	if err := check(cost); err != nil {
		return Plan{}, err
	}
	if second == nil {
		second = cost
	} else if err := sameShape(cost, second); err != nil {
		return Plan{}, err
	}
	steps := levels(cost)
	k, _ := slices.BinarySearchFunc(steps, true, func(level float64, _ bool) int {
		if firstUnplaced(cost, level) < 0 {
			return 0
		}
		return -1
	})
	if k == len(steps) {
		return Plan{}, ImpossibleError{Row: firstUnplaced(cost, math.MaxFloat64)}
	}
	kept := make([][]float64, len(cost))
	for i, row := range cost {
		kept[i] = make([]float64, len(row))
		for j, c := range row {
			kept[i][j] = second[i][j]
			if c > steps[k] {
				kept[i][j] = math.Inf(1)
			}
		}
	}
	p, err := Least(kept)
	if err != nil {
		return Plan{}, err
	}
	return total(cost, p.To), nil
}

// errShape is a mistake of the caller that depends on no value.
var errShape = errors.New("assignment has a second matrix of another shape; the same rows and columns were wanted")

func sameShape(cost, second [][]float64) error {
	if err := check(second); err != nil {
		return err
	}
	if len(second) != len(cost) || len(second[0]) != len(cost[0]) {
		return errShape
	}
	return nil
}

// levels are the finite costs, each once, in order.
func levels(cost [][]float64) []float64 {
	var all []float64
	for _, row := range cost {
		for _, c := range row {
			if !math.IsInf(c, 1) {
				all = append(all, c)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// firstUnplaced is the first row that finds no column at or below a level, or
// −1 where all do.
func firstUnplaced(cost [][]float64, level float64) int {
	rowOf := make([]int, len(cost[0]))
	for j := range rowOf {
		rowOf[j] = -1
	}
	for i := range cost {
		if !augment(cost, level, i, rowOf, make([]bool, len(rowOf))) {
			return i
		}
	}
	return -1
}

func augment(cost [][]float64, level float64, row int, rowOf []int, seen []bool) bool {
	for j, c := range cost[row] {
		if seen[j] || !(c <= level) {
			continue
		}
		seen[j] = true
		if rowOf[j] < 0 || augment(cost, level, rowOf[j], rowOf, seen) {
			rowOf[j] = row
			return true
		}
	}
	return false
}
