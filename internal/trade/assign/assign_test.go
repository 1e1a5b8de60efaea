package assign

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

func walk(n, m int, f func([]int)) {
	to, used := make([]int, n), make([]bool, m)
	var next func(int)
	next = func(i int) {
		if i == n {
			f(to)
			return
		}
		for j := range m {
			if !used[j] {
				used[j], to[i] = true, j
				next(i + 1)
				used[j] = false
			}
		}
	}
	next(0)
}

// Second route: full enumeration, with and without forbidden pairs.
func TestAgainstEnumeration(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	impossible := 0
	for range 600 {
		n := 1 + rng.IntN(6)
		m := n + rng.IntN(2)
		cost, forbid := make([][]float64, n), 0.4*rng.Float64()
		for i := range cost {
			cost[i] = make([]float64, m)
			for j := range cost[i] {
				cost[i][j] = float64(rng.IntN(20)) - 5
				if rng.Float64() < forbid {
					cost[i][j] = math.Inf(1)
				}
			}
		}
		sum, worst, sumAtWorst := math.Inf(1), math.Inf(1), math.Inf(1)
		walk(n, m, func(to []int) {
			p := total(cost, to)
			sum = min(sum, p.Sum)
			if p.Worst < worst {
				worst, sumAtWorst = p.Worst, p.Sum
			} else if p.Worst == worst {
				sumAtWorst = min(sumAtWorst, p.Sum)
			}
		})
		a, errA := Least(cost)
		b, errB := Worst(cost, nil)
		if math.IsInf(sum, 1) {
			impossible++
			if !errors.As(errA, new(ImpossibleError)) || !errors.As(errB, new(ImpossibleError)) {
				t.Fatalf("no plan for %v, yet %v and %v", cost, errA, errB)
			}
			continue
		}
		if errA != nil || errB != nil {
			t.Fatalf("%v: %v, %v", cost, errA, errB)
		}
		distinct(t, a.To)
		distinct(t, b.To)
		if a.Sum != sum || b.Worst != worst || b.Sum != sumAtWorst {
			t.Fatalf("%v: sum %g of %g, worst %g of %g with sum %g of %g", cost, a.Sum, sum, b.Worst, worst, b.Sum, sumAtWorst)
		}
	}
	if impossible == 0 {
		t.Error("no impossible case was drawn")
	}
}

func distinct(t *testing.T, to []int) {
	t.Helper()
	seen := map[int]bool{}
	for _, j := range to {
		if seen[j] {
			t.Fatalf("column %d is used twice in %v", j, to)
		}
		seen[j] = true
	}
}

func TestRefuses(t *testing.T) {
	for what, cost := range map[string][][]float64{
		"no rows": {}, "ragged": {{1, 2}, {1}}, "too few columns": {{1}, {2}}, "nan": {{math.NaN()}}, "minus infinity": {{math.Inf(-1)}},
	} {
		if _, err := Least(cost); err == nil {
			t.Errorf("%s was taken by Least", what)
		}
		if _, err := Worst(cost, nil); err == nil {
			t.Errorf("%s was taken by Worst", what)
		}
	}
	if _, err := Worst([][]float64{{1}}, [][]float64{{1, 2}}); err == nil {
		t.Error("a second matrix of another shape was taken")
	}
}

func BenchmarkLeast60(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	cost := make([][]float64, 60)
	for i := range cost {
		for range 60 {
			cost[i] = append(cost[i], rng.Float64())
		}
	}
	for b.Loop() {
		if _, err := Least(cost); err != nil {
			b.Fatal(err)
		}
	}
}
