package nominal

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

func propose(t *testing.T, sort string, mm, u float64) Proposal {
	t.Helper()
	p, err := Propose(Evidence{Sort: sort, Unworn: metrology.Estimate{Value: mm, U: u}, Place: "unworn top of bore 1"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Sizes by hand; how usual they are is common practice, no source.
func TestPropose(t *testing.T) {
	for _, c := range []struct {
		sort            string
		mm              float64
		nominal, rework float64
		words           string
	}{
		{machine.Bore, 82.012, 82, 0, "82.00 mm, probability 0.9"},
		{machine.Bore, 76.262, 76, 0.25, "76.00 + 0.25 mm, probability 0.9"},
		{machine.Bore, 95.515, 95, 0.5, "95.00 + 0.50 mm, probability 0."},
		{machine.Bore, 76.2 + 0.508 + 0.012, 76.2, 0.508, "76.20 + 0.508 mm (3 in, 0.020 in oversize)"},
		{machine.Shaft, 44.738, 45, -0.25, "45.00 − 0.25 mm, probability 0.9"},
		{machine.Shaft, 59.985, 60, 0, "60.00 mm, probability "},
	} {
		p := propose(t, c.sort, c.mm, 0.004)
		best, ok := p.Best()
		if math.Abs(best.Nominal-c.nominal) > 1e-9 || math.Abs(best.Rework-c.rework) > 1e-9 || !strings.HasPrefix(p.Words(), c.words) {
			t.Errorf("%s %g: %s", c.sort, c.mm, p.Words())
		}
		t.Logf("%s %g, sure %v: %s", c.sort, c.mm, ok, p.Words())
	}
}

// A size between all preferred ones is not forced on any.
func TestNoUsualSize(t *testing.T) {
	p := propose(t, machine.Bore, 82.13, 0.003)
	if best, ok := p.Best(); ok {
		t.Errorf("82.13 taken for %+v: %s", best, p.Words())
	}
	if p.None < 0.2 || !strings.Contains(p.Words(), "no usual size") {
		t.Errorf("%s", p.Words())
	}
}

// Roughly read, nothing is settled, and the other sizes are named.
func TestRoughReading(t *testing.T) {
	p := propose(t, machine.Bore, 82.12, 0.1)
	if _, ok := p.Best(); ok || len(p.Options) < 2 || !strings.Contains(p.Words(), "; or ") {
		t.Errorf("%s", p.Words())
	}
}

func TestRefused(t *testing.T) {
	var wrong SortError
	if _, err := Propose(Evidence{Sort: machine.Face, Unworn: metrology.Estimate{Value: 80, U: 0.01}}); !errors.As(err, &wrong) {
		t.Errorf("a face has a nominal bore: %v", err)
	}
	for _, e := range []metrology.Estimate{{Value: -1, U: 0.01}, {Value: 80}, {Value: math.NaN(), U: 0.01}} {
		if _, err := Propose(Evidence{Sort: machine.Bore, Unworn: e}); err == nil {
			t.Errorf("%+v was taken", e)
		}
	}
}

// Of bores and journals made to whole and half millimetres and to eighths and
// sixteenths of an inch, with or without a step of rework, those the package is
// sure of are right at least as often as it says; the stated probability is as
// good as its word in the middle too.
func TestSureMeansRight(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	const n = 3000
	sure, right, stated, hit := 0, 0, 0.0, 0
	for range n {
		nominal, unit, steps := math.Round(60+60*rng.Float64()), 1.0, []float64{0, 0.25, 0.5, 0.75, 1}
		switch rng.IntN(6) {
		case 0:
			nominal += 0.5
		case 1:
			nominal, unit, steps = 2+math.Round(24*rng.Float64())/8, 25.4, []float64{0, 0.010, 0.020, 0.030, 0.040}
		}
		rework := 0.0
		if rng.IntN(3) == 0 {
			rework = steps[rng.IntN(len(steps))]
		}
		sort, sign := machine.Bore, 1.0
		if rng.IntN(2) == 0 {
			sort, sign = machine.Shaft, -1
		}
		size := unit * (nominal + sign*rework)
		u := 0.003 + 0.005*rng.Float64()
		p := propose(t, sort, size+sign*0.03*rng.Float64()+u*rng.NormFloat64(), u)
		best, ok := p.Best()
		same := math.Abs(best.Size()-size) < 1e-6
		stated += best.P
		if same {
			hit++
		}
		if ok {
			sure++
			if same {
				right++
			}
		}
	}
	t.Logf("%d sizes: likeliest right %.1f %%, stated %.1f %%; sure of %.1f %%, of these right %.2f %%", n, 100*float64(hit)/n, 100*stated/n, 100*float64(sure)/n, 100*float64(right)/float64(sure))
	if float64(right) < Settled*float64(sure) {
		t.Errorf("sure of %d, right in %d", sure, right)
	}
	if sure < n/2 {
		t.Errorf("sure of only %d of %d", sure, n)
	}
	if math.Abs(float64(hit)/n-stated/n) > 0.05 {
		t.Errorf("right in %.3f, stated %.3f", float64(hit)/n, stated/n)
	}
}

func BenchmarkPropose(b *testing.B) {
	e := Evidence{Sort: machine.Bore, Unworn: metrology.Estimate{Value: 76.262, U: 0.004}}
	for b.Loop() {
		if _, err := Propose(e); err != nil {
			b.Fatal(err)
		}
	}
}
