package metrology

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"matchmark/internal/reftest"

	"pgregory.net/rapid"
)

const draws = 200000

// within reports whether a simulated mean agrees to four of its own standard
// errors.
func within(got, want, deviation float64, n int) bool {
	return math.Abs(got-want) <= 4*deviation/math.Sqrt(float64(n))
}

// Second route to conformity: count draws.
func TestConformBySimulation(t *testing.T) {
	source := rand.New(rand.NewPCG(1, 2))
	for _, c := range []askConform{{13.6, 1.8, 12.5, 16.3}, {82.048, 0.005, 82, 82.05}, {0.112, 0.01, -1, 0.1}} {
		hits := 0
		for range draws {
			if x := c.Y + c.U*source.NormFloat64(); x >= c.Lo && x <= c.Hi {
				hits++
			}
		}
		p := reftest.Must[float64](t)(ConformProbability(c.Y, c.U, c.Lo, c.Hi))
		share := float64(hits) / draws
		if !within(share, p, math.Sqrt(p*(1-p)), draws) {
			t.Errorf("%+v: simulated %g, computed %g", c, share, p)
		}
	}
}

// Second route to clearance: a bore gauge set by the micrometer that measures
// the journal carries the micrometer's error into both; it must cancel.
func TestDifferenceBySimulation(t *testing.T) {
	source := rand.New(rand.NewPCG(3, 4))
	const ua, ub, shared = 0.005, 0.004, 0.003
	for sign, f := range map[float64]func(a, b Estimate, s float64) (Estimate, error){-1: Difference, 1: Sum} {
		sum := 0.0
		for range draws {
			s := shared * source.NormFloat64()
			a := s + without(ua, shared)*source.NormFloat64()
			b := s + without(ub, shared)*source.NormFloat64()
			sum += (a + sign*b) * (a + sign*b)
		}
		e := reftest.Must[Estimate](t)(f(Estimate{50.05, ua, 0}, Estimate{49.99, ub, 0}, shared))
		if got := math.Sqrt(sum / draws); !within(got, e.U, e.U/math.Sqrt2, draws) {
			t.Errorf("sign %g: simulated %g, computed %g", sign, got, e.U)
		}
	}
	if _, err := Difference(Estimate{1, 0.001, 0}, Estimate{1, 0.002, 0}, 0.0015); err == nil {
		t.Error("a shared error larger than the whole was taken")
	}
}

// Second route to Combine: readings drawn with a known fixed error, hand and
// step must lie about the true size as u says, and ±U (95 %) must cover.
func TestCombineBySimulation(t *testing.T) {
	source := rand.New(rand.NewPCG(5, 6))
	in, _ := InstrumentByID("dial")
	const size, n, trials = 12.3456, 4, 20000
	squares, claimed, covered := 0.0, 0.0, 0
	for range trials {
		fixed := in.HalfWidth * (2*source.Float64() - 1)
		offset := in.Step * (source.Float64() - 0.5) // where the lines stand, the same for all repeats
		readings := make([]float64, n)
		for i := range readings {
			readings[i] = size + fixed + offset + in.Repeat*source.NormFloat64()
		}
		r := reftest.Must[Result](t)(Combine(readings, in))
		squares += (r.Value - size) * (r.Value - size)
		claimed += r.U * r.U
		if u := reftest.Must[float64](t)(r.Expanded(0.95)); math.Abs(r.Value-size) <= u {
			covered++
		}
	}
	if ratio := math.Sqrt(squares / claimed); math.Abs(ratio-1) > 0.02 {
		t.Errorf("true scatter over claimed uncertainty is %g", ratio)
	}
	// Two rectangles make the tails short: the cover may only be above 95 %.
	if share := float64(covered) / trials; share < 0.95 || share > 0.99 {
		t.Errorf("±U (95 %%) covered %g", share)
	}
}

// d2 to three decimals, control chart constants of ISO 7870-2 (ASTM E2587),
// values from memory; simulation is the second route.
func TestD2(t *testing.T) {
	source := rand.New(rand.NewPCG(7, 8))
	for n, want := range map[int]float64{2: 1.128, 3: 1.693, 4: 2.059, 5: 2.326, 6: 2.534, 7: 2.704, 8: 2.847,
		9: 2.970, 10: 3.078, 15: 3.472, 20: 3.735, 25: 3.931} {
		got := reftest.Must[float64](t)(D2(n))
		if math.Abs(got-want) > 0.0005 {
			t.Errorf("D2(%d) = %.5f, table from memory %.3f", n, got, want)
		}
		sum, squares := 0.0, 0.0
		const trials = 20000
		for range trials {
			r := noisyRange(source, make([]float64, n), 1)
			sum, squares = sum+r, squares+r*r
		}
		mean := sum / trials
		if sd := math.Sqrt(squares/trials - mean*mean); !within(mean, got, sd, trials) {
			t.Errorf("D2(%d) = %.5f, simulated %.5f", n, got, mean)
		}
	}
	if got := reftest.Must[float64](t)(D2(2)); math.Abs(got-2/math.Sqrt(math.Pi)) > 1e-9 {
		t.Errorf("D2(2) = %.12f, 2/√π by hand", got)
	}
	if got := reftest.Must[float64](t)(D2(3)); math.Abs(got-3/math.Sqrt(math.Pi)) > 1e-9 {
		t.Errorf("D2(3) = %.12f, 3/√π by hand", got)
	}
}

// noisyRange is the range of sizes read with noise u.
func noisyRange(source *rand.Rand, sizes []float64, u float64) float64 {
	read := noisy(source, sizes, u)
	return slices.Max(read) - slices.Min(read)
}

func noisy(source *rand.Rand, sizes []float64, u float64) []float64 {
	read := make([]float64, len(sizes))
	for i, s := range sizes {
		read[i] = s + u*source.NormFloat64()
	}
	return read
}

// The estimate of a range must be less biased than the plain range where
// noise makes the range, nearly free of bias where the range is large, and
// its U must tell the true error. The figures are printed: what bias is left
// is stated in the comment of RangeEstimate.
func TestRangeEstimateBias(t *testing.T) {
	source := rand.New(rand.NewPCG(9, 10))
	const u, trials = 0.003, 120
	for _, c := range []struct {
		name  string
		sizes []float64
	}{
		{"two, equal", []float64{0, 0}}, {"four, equal", []float64{0, 0, 0, 0}}, {"six, equal", make([]float64, 6)},
		{"two, 2u apart", []float64{0, 2 * u}}, {"four, 3u", []float64{0, 3 * u, 0, 3 * u}},
		{"six, 6u", []float64{0, 2 * u, 6 * u, 5 * u, 3 * u, u}}, {"two, 10u apart", []float64{0, 10 * u}},
	} {
		truth := slices.Max(c.sizes) - slices.Min(c.sizes)
		plain, better, squares, claimed := 0.0, 0.0, 0.0, 0.0
		for i := range trials {
			read := noisy(source, c.sizes, u)
			plain += (slices.Max(read) - slices.Min(read) - truth) / trials
			e := reftest.Must[Estimate](t)(RangeEstimate(read, u, uint64(i)))
			better += (e.Value - truth) / trials
			squares += (e.Value - truth) * (e.Value - truth) / trials
			claimed += e.U * e.U / trials
			if e.Value < 0 || !(e.U > 0) {
				t.Fatalf("%s: %+v", c.name, e)
			}
		}
		failure := math.Sqrt(squares)
		t.Logf("%-15s bias of the plain range %+.2f u, of the estimate %+.2f u; error %.2f u, claimed %.2f u", c.name,
			plain/u, better/u, failure/u, math.Sqrt(claimed)/u)
		if truth == 0 && better > 0.7*plain {
			t.Errorf("%s: bias %.2f u is not much below the plain %.2f u", c.name, better/u, plain/u)
		}
		if truth >= 6*u && math.Abs(better) > 0.3*u {
			t.Errorf("%s: bias %.2f u", c.name, better/u)
		}
		if ratio := failure / math.Sqrt(claimed); ratio < 0.8 || ratio > 1.2 {
			t.Errorf("%s: true error over claimed is %.2f", c.name, ratio)
		}
	}
}

func TestRangeEstimateEdges(t *testing.T) {
	if e := reftest.Must[Estimate](t)(RangeEstimate([]float64{1, 1.5, 1.25}, 0, 1)); e != (Estimate{Value: 0.5}) {
		t.Errorf("no noise: %+v", e)
	}
	flat := reftest.Must[Estimate](t)(RangeEstimate([]float64{1, 1, 1}, 0.01, 1))
	if flat.Value != 0 || flat.U > 0.03 {
		t.Errorf("alike: %+v", flat)
	}
	wide := reftest.Must[Estimate](t)(RangeEstimate([]float64{0, 1}, 0.001, 1))
	if math.Abs(wide.Value-1) > 1e-4 || math.Abs(wide.U-0.001*math.Sqrt2) > 1e-4 {
		t.Errorf("far apart: %+v; the difference of two has u·√2", wide)
	}
	again := reftest.Must[Estimate](t)(RangeEstimate([]float64{0, 1}, 0.001, 1))
	if again != wide {
		t.Error("the same seed gave another answer")
	}
	for _, bad := range [][]float64{nil, {1}, {1, math.NaN()}} {
		if _, err := RangeEstimate(bad, 1, 1); err == nil {
			t.Errorf("%v was taken", bad)
		}
	}
}

func TestRangeEstimateNeverAbovePlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-1, 1), 2, 6).Draw(t, "values")
		u := rapid.Float64Range(0.01, 1).Draw(t, "u")
		e, err := RangeEstimate(values, u, 1)
		plain := slices.Max(values) - slices.Min(values)
		if err != nil || e.Value < 0 || e.Value > plain+0.1*u || notFinite(e.U) {
			t.Errorf("%v, u %v: %+v, %v", values, u, e, err)
		}
	})
}
