package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/internal/trade/metrology"
)

// C5a: computed by all permutations.
func TestSharedSelect(t *testing.T) {
	tab := reftest.Load(t, "reference/method-checks.csv")
	tab.Row(t, "C5a")
	c, err := SelectByTarget([]float64{91.012, 91.018, 91.009}, []float64{90.915, 90.905, 90.922}, 0.100)
	if err != nil {
		t.Fatal(err)
	}
	if c.ShaftOf[0] != 0 || c.ShaftOf[1] != 2 || c.ShaftOf[2] != 1 ||
		math.Abs(c.SquaresMM-4.1e-5) > 1e-9 || math.Abs(c.WorstMM-0.004) > 1e-9 {
		tab.Fail(t, "C5a", "got other pairs")
		t.Logf("%+v", c)
	}
	tab.Report(t)
}

// permute calls f with every choice of n columns out of m.
func permute(n, m int, f func([]int)) {
	to, used := make([]int, n), make([]bool, m)
	var walk func(int)
	walk = func(i int) {
		if i == n {
			f(to)
			return
		}
		for j := range m {
			if !used[j] {
				used[j], to[i] = true, j
				walk(i + 1)
				used[j] = false
			}
		}
	}
	walk(0)
}

// Against full enumeration: the least chance is the largest there is, and the
// squares are least among such pairings.
func TestSelectByChanceAgainstEnumeration(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 7))
	for range 40 {
		n, m := 1+rng.IntN(5), 0
		m = n + rng.IntN(3)
		holes, shafts := make([]metrology.Estimate, n), make([]metrology.Estimate, m)
		for i := range holes {
			holes[i] = metrology.Estimate{Value: 91 + 0.02*rng.Float64(), U: 0.003}
		}
		for j := range shafts {
			shafts[j] = metrology.Estimate{Value: 90.9 + 0.02*rng.Float64(), U: 0.002}
		}
		const lo, hi = 0.085, 0.115
		c, err := SelectByChance(holes, shafts, 0.001, lo, hi)
		if err != nil {
			t.Fatal(err)
		}
		best, squares := 0.0, math.Inf(1)
		permute(n, m, func(to []int) {
			least, sq := 1.0, 0.0
			for i, j := range to {
				gap, _ := metrology.Difference(holes[i], shafts[j], 0.001)
				p, _ := metrology.Conform(gap, lo, hi)
				least, sq = min(least, p), sq+(gap.Value-0.1)*(gap.Value-0.1)
			}
			switch {
			case least > best+1e-9:
				best, squares = least, sq
			case least > best-1e-9:
				squares = min(squares, sq)
			}
		})
		if math.Abs(c.Least-best) > 2e-9 || c.SquaresMM > squares+1e-12 {
			t.Fatalf("chance %g, squares %g; enumeration %g, %g", c.Least, c.SquaresMM, best, squares)
		}
	}
}

func TestSelectRefuses(t *testing.T) {
	e := metrology.Estimate{Value: 1, U: 0.1}
	if _, err := SelectByTarget([]float64{1, 2}, []float64{1}, 0); err == nil {
		t.Error("two holes for one shaft were paired")
	}
	if _, err := SelectByTarget([]float64{math.NaN()}, []float64{1}, 0); err == nil {
		t.Error("not-a-number was paired")
	}
	if _, err := SelectByTarget(nil, nil, 0); err == nil {
		t.Error("nothing was paired")
	}
	if _, err := SelectByChance([]metrology.Estimate{e}, []metrology.Estimate{e}, 0.5, 0, 1); err == nil {
		t.Error("shared error above both was taken")
	}
	if _, err := SelectByChance([]metrology.Estimate{e}, []metrology.Estimate{e}, 0, 1, 0); err == nil {
		t.Error("limits upside down were taken")
	}
}
