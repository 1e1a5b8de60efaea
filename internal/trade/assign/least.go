package assign

import (
	"fmt"
	"math"
)

// Plan says where each row goes.
type Plan struct {
	To    []int   // To[row] is its column
	Sum   float64 // of the costs
	Worst float64 // the largest of them
}

// Least assigns every row to a column of its own so that the sum of the costs
// is least. cost has at least as many columns as rows; +Inf forbids a pair.
// The same matrix gives the same plan; among equal sums one is given.
// Method: shortest augmenting paths with potentials [KUHN] (Kuhn 1955, Munkres 1957,
// in the form of Jonker and Volgenant 1987). Cost: rows²·columns.
// Errors: no rows, unequal lengths, fewer columns than rows, NaN or −Inf;
// ImpossibleError where the forbidden pairs leave no plan.
func Least(cost [][]float64) (Plan, error) {
	if err := check(cost); err != nil {
		return Plan{}, err
	}
	n, m := len(cost), len(cost[0])
	s := search{cost: cost, rowPot: make([]float64, n), colPot: make([]float64, m+1), rowOf: make([]int, m+1)}
	for j := range s.rowOf {
		s.rowOf[j] = -1
	}
	for i := range n {
		if !s.place(i) {
			return Plan{}, ImpossibleError{Row: i}
		}
	}
	to := make([]int, n)
	for j, i := range s.rowOf[:m] {
		if i >= 0 {
			to[i] = j
		}
	}
	return total(cost, to), nil
}

// search holds the matching so far; column m is where a new row starts.
type search struct {
	cost           [][]float64
	rowPot, colPot []float64
	rowOf          []int
}

// place adds a row by the cheapest augmenting path; false where there is none.
func (s *search) place(row int) bool {
	m := len(s.colPot) - 1
	dist, from, done := make([]float64, m), make([]int, m), make([]bool, m+1)
	for j := range dist {
		dist[j] = math.Inf(1)
	}
	s.rowOf[m] = row
	at := m
	for s.rowOf[at] >= 0 {
		done[at] = true
		i, next, step := s.rowOf[at], -1, math.Inf(1)
		for j := range m {
			if done[j] {
				continue
			}
			if c := s.cost[i][j] - s.rowPot[i] - s.colPot[j]; c < dist[j] {
				dist[j], from[j] = c, at
			}
			if dist[j] < step {
				step, next = dist[j], j
			}
		}
		if next < 0 {
			return false
		}
		for j := range m {
			if done[j] {
				s.rowPot[s.rowOf[j]] += step
				s.colPot[j] -= step
			} else {
				dist[j] -= step
			}
		}
		s.rowPot[row] += step
		s.colPot[m] -= step
		at = next
	}
	for at != m {
		s.rowOf[at] = s.rowOf[from[at]]
		at = from[at]
	}
	s.rowOf[m] = -1
	return true
}

func total(cost [][]float64, to []int) Plan {
	p := Plan{To: to, Worst: math.Inf(-1)}
	for i, j := range to {
		p.Sum += cost[i][j]
		p.Worst = max(p.Worst, cost[i][j])
	}
	return p
}

func check(cost [][]float64) error {
	if len(cost) == 0 {
		return fmt.Errorf("assignment has no rows; one or more was wanted")
	}
	for i, row := range cost {
		if len(row) != len(cost[0]) {
			return fmt.Errorf("assignment row %d has %d columns; %d were wanted, as in row 0", i, len(row), len(cost[0]))
		}
		for j, c := range row {
			if math.IsNaN(c) || math.IsInf(c, -1) {
				return fmt.Errorf("assignment cost of row %d in column %d is %g; a number or +Inf was wanted", i, j, c)
			}
		}
	}
	if len(cost[0]) < len(cost) {
		return fmt.Errorf("assignment has %d columns for %d rows; at least as many columns were wanted", len(cost[0]), len(cost))
	}
	return nil
}

// ImpossibleError says that the allowed pairs cannot serve every row; Row is
// the first that finds no place beside the rows before it.
type ImpossibleError struct{ Row int }

func (e ImpossibleError) Error() string {
	return fmt.Sprintf("assignment finds no place for row %d beside the rows before it", e.Row)
}
