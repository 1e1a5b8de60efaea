package watch

import (
	"math"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// TestUsed: the share runs from the new size to the limit, whichever side is
// nearer its end.
func TestUsed(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		value           float64
		newLow, newHigh float64
		low, high       float64
		want            float64
	}{
		{0.08, 0.03, 0.06, -inf, 0.10, 0.5},
		{0.06, 0.03, 0.06, -inf, 0.10, 0},
		{0.12, 0.03, 0.06, -inf, 0.10, 1.5},
		{7.5, 8, 8.2, 7, inf, 0.5}, // worn downwards
		{0.1, -inf, inf, -inf, 0.2, math.NaN()},
		{0.25, 0.3, 0.4, 0.2, 0.9, 0.5},
	} {
		f := &judge.Finding{Value: c.value, Limit: judge.Bounds{NewLow: c.newLow, NewHigh: c.newHigh, Low: c.low, High: c.high}}
		if got := used(f); math.Abs(got-c.want) > 1e-9 || math.IsNaN(got) != math.IsNaN(c.want) {
			t.Errorf("%g of %g..%g to %g..%g: %g used, want %g", c.value, c.newLow, c.newHigh, c.low, c.high, got, c.want)
		}
	}
}

// TestDemo: the demo's list is in order and holds nothing that is worn or not
// read, for that is work still to do and no matter for the next owner.
func TestDemo(t *testing.T) {
	entries, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	m := machine.Fold(entries)
	items := Of(m, judge.All(m))
	if len(items) == 0 {
		t.Fatal("nothing to watch on a half worn tractor")
	}
	last := math.MaxInt
	for _, it := range items {
		if r := it.rank(); r > last {
			t.Errorf("%s stands too low", it.Finding.Check.Name)
		} else {
			last = r
		}
		if v := it.Finding.Verdict; it.Passed == nil && v != judge.Sound && v != judge.Doubtful {
			t.Errorf("%s is %s", it.Finding.Check.Name, v)
		}
		if it.Finding.Verdict == judge.Sound && it.Used < Half {
			t.Errorf("%s has used %g only", it.Finding.Check.Name, it.Used)
		}
	}
}
