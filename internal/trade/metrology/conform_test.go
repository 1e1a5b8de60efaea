package metrology

import (
	"math"
	"testing"

	"matchmark/internal/reftest"

	"pgregory.net/rapid"
)

// askConform is one question about conformity.
type askConform struct{ Y, U, Lo, Hi float64 }

// Worked by hand from tables of the normal distribution and its tail series;
// the three examples of JCGM 106:2012 clause 7 are from memory.
func TestConformRows(t *testing.T) {
	open := math.Inf(1)
	// Tail of the normal distribution by its asymptotic series,
	// φ(z)/z·(1 − 1/z² + 3/z⁴ − 15/z⁶ + 105/z⁸), DLMF 7.12.1, at z = 20.
	z := 20.0
	tail := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / z * (1 - 1/(z*z) + 3/math.Pow(z, 4) - 15/math.Pow(z, 6) + 105/math.Pow(z, 8))
	reftest.Run(t, []reftest.Row[askConform]{
		{ID: "zener diode", In: askConform{-5.47, 0.05, -open, -5.40}, Want: 0.92, Tol: 0.005, Source: "JCGM 106:2012 clause 7 example", Kind: reftest.Memory},
		{ID: "container", In: askConform{509.7, 8.6, 490, open}, Want: 0.99, Tol: 0.005, Source: "JCGM 106:2012 clause 7 example", Kind: reftest.Memory},
		{ID: "oil", In: askConform{13.6, 1.8, 12.5, 16.3}, Want: 0.66, Tol: 0.005, Source: "JCGM 106:2012 clause 7 example", Kind: reftest.Memory},
		{ID: "one sigma both sides", In: askConform{0, 1, -1, 1}, Want: 0.682689492137, Tol: 5e-13, Source: "erf(1/√2), by hand from DLMF 7.6.1 series", Kind: reftest.ByHand},
		{ID: "far above, in units of the tail", In: askConform{0, 1, 20, open}, Want: tail, Tol: 1e-7 * tail, Source: "DLMF 7.12.1 series, five terms", Kind: reftest.ByHand},
		{ID: "far below", In: askConform{0, 1, -open, -20}, Want: tail, Tol: 1e-7 * tail, Source: "DLMF 7.12.1 series, five terms", Kind: reftest.ByHand},
		{ID: "no uncertainty, on the limit", In: askConform{5, 0, 1, 5}, Want: 1, Source: "definition: a limit belongs to the zone", Kind: reftest.ByHand},
		{ID: "no uncertainty, outside", In: askConform{5.0001, 0, 1, 5}, Want: 0, Source: "definition", Kind: reftest.ByHand},
		{ID: "narrow zone, found below 0 once", In: askConform{-1.0000000082654878, 1.03125, -4.000006198883057, -4.000006198883055}, Want: 0, Tol: 1e-16, Source: "the zone is 2e-15 wide where the density is 0.006", Kind: reftest.ByHand},
		{ID: "no limits", In: askConform{5, 1, -open, open}, Want: 1, Source: "definition", Kind: reftest.ByHand},
	}, func(in askConform) (float64, error) { return ConformProbability(in.Y, in.U, in.Lo, in.Hi) })
}

// With one degree of freedom t is the Cauchy distribution, with two it has a
// closed form: both by hand.
func TestConformFewDegrees(t *testing.T) {
	for _, x := range []float64{0.1, 1, 3, 50, 1e4} {
		for dof, upper := range map[float64]float64{
			1: math.Atan2(1, x) / math.Pi,
			2: 1 / (math.Sqrt(2+x*x) * (math.Sqrt(2+x*x) + x)), // ½(1 − x/√(2+x²)) without loss
		} {
			got, err := Conform(Estimate{0, 1, dof}, x, math.Inf(1))
			if err != nil || math.Abs(got-upper) > 1e-12*upper {
				t.Errorf("dof %g, t %g: got %.15g, want %.15g, %v", dof, x, got, upper, err)
			}
		}
	}
	p, err := Conform(Estimate{0, 1, 16.9}, -2.9207816, 2.9207816)
	if err != nil || math.Abs(p-0.99) > 1e-7 { // GUM table G.2 to more digits: row MET017
		t.Errorf("16 degrees: %g, %v", p, err)
	}
}

func TestConformProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.Float64Range(-10, 10).Draw(t, "y")
		u := rapid.Float64Range(0, 5).Draw(t, "u")
		lo := rapid.Float64Range(-10, 10).Draw(t, "lo")
		hi := lo + rapid.Float64Range(0, 10).Draw(t, "span")
		tight := max(lo, hi-rapid.Float64Range(0, 1).Draw(t, "share")*(hi-lo))
		dof := float64(rapid.IntRange(0, 30).Draw(t, "dof"))
		e := Estimate{y, u, dof}
		wide, err1 := Conform(e, lo, hi)
		less, err2 := Conform(e, lo, tight)
		if err1 != nil || err2 != nil || !(less >= 0 && wide <= 1) || less > wide+1e-12 {
			t.Fatalf("%+v in [%v, %v]: %v; in [%v, %v]: %v; %v %v", e, lo, hi, wide, lo, tight, less, err1, err2)
		}
		if Decide(wide, DefaultAccept, DefaultReject) == Worn && Decide(less, DefaultAccept, DefaultReject) == Sound {
			t.Error("tightening a limit turned worn into sound")
		}
		moved, _ := Conform(Estimate{y + 3, u, dof}, lo+3, hi+3)
		if u > 1e-3 && math.Abs(moved-wide) > 1e-9 {
			t.Errorf("moved by 3: %v, %v", moved, wide)
		}
	})
}

func TestDecideAndErrors(t *testing.T) {
	for p, want := range map[float64]Verdict{0.95: Sound, 0.949: Doubtful, 0.051: Doubtful, 0.05: Worn, 0: Worn, 1: Sound, 1.1: Doubtful, -1: Doubtful} {
		if got := Decide(p, DefaultAccept, DefaultReject); got != want {
			t.Errorf("Decide(%g) = %s, want %s", p, got, want)
		}
	}
	nan := math.NaN()
	if Decide(nan, 0.95, 0.05) != Doubtful || Decide(0.5, 0.4, 0.6) != Doubtful {
		t.Error("nonsense was decided")
	}
	for _, in := range []askConform{{nan, 1, 0, 1}, {0, nan, 0, 1}, {0, -1, 0, 1}, {0, 1, nan, 1}, {0, 1, 0, nan},
		{0, 1, 2, 1}, {math.Inf(1), 1, 0, 1}, {0, math.Inf(1), 0, 1}, {0, 1, math.Inf(1), math.Inf(1)}} {
		if p, err := ConformProbability(in.Y, in.U, in.Lo, in.Hi); err == nil {
			t.Errorf("%+v: got %g, want an error", in, p)
		}
	}
}

// The number of repeats is checked by trying every smaller number by hand:
// one limit, so the verdict turns where (hi − y) = 1.644854·u(n).
func TestRepeatsToSettle(t *testing.T) {
	open := math.Inf(1)
	for _, c := range []struct {
		y, uRandom, uFixed, hi float64
		want                   int
		why                    string
	}{
		{0.090, 0.010, 0, 0.100, 3, "(1.644854·0.010/0.010)² = 2.706, next whole 3"},
		{0.110, 0.010, 0, 0.100, 3, "the same on the worn side"},
		{0.080, 0.010, 0, 0.100, 1, "already 2 u inside"},
		{0.095, 0.010, 0.004, 0.100, 0, "1.644854·0.004 = 0.0066 > 0.005: the fixed part alone is too large"},
		{0.095, 0.010, 0.002, 0.100, 20, "0.0001/((0.005/1.644854)² − 0.002²) = 19.09, next whole 20"},
		{0.099, 0.010, 0, 0.100, 0, "would need 271"},
		{0.100, 0.010, 0, 0.100, 0, "on the limit p stays ½"},
		{0.100, 0, 0, 0.100, 1, "no uncertainty: a plain comparison"},
	} {
		got, err := RepeatsToSettle(c.y, c.uRandom, c.uFixed, -open, c.hi)
		if err != nil || got != c.want {
			t.Errorf("%+v: got %d, %v", c, got, err)
		}
	}
	if _, err := RepeatsToSettle(0, -1, 0, 0, 1); err == nil {
		t.Error("a negative uncertainty was taken")
	}
}

func TestAcceptanceLimits(t *testing.T) {
	for _, bad := range [][4]float64{{0, 1, -1, 1}, {0, 1, 1, -1}, {1, 0, 0, 0}, {math.NaN(), 1, 0, 0}} {
		if _, err := AcceptanceLimits(bad[0], bad[1], bad[2], bad[3]); err == nil {
			t.Errorf("%v was taken", bad)
		}
	}
	// A reading on the limit so guarded conforms with 95 %, one side alone.
	zone := reftest.Must[Zone](t)(AcceptanceLimits(math.Inf(-1), 0.1, 0.01, DefaultGuard))
	p, _ := ConformProbability(zone.High, 0.01, math.Inf(-1), 0.1)
	if math.Abs(p-0.95) > 1e-12 {
		t.Errorf("on the guarded limit p = %.15g", p)
	}
}
