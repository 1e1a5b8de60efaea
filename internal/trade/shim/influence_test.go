package shim

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"matchmark/internal/trade/metrology"
)

func read(v, u float64) metrology.Estimate { return metrology.Estimate{Value: v, U: u} }

// By hand: backlash 0.30 as it stood; left +0.10 gives 0.37, right +0.10 gives
// 0.23: +0.7 and −0.7 for each mm.
func TestLearnFromTwoTrials(t *testing.T) {
	f, err := LearnInfluence("backlash", []Build{
		{[]float64{.8, .8}, read(.30, .01)}, {[]float64{.9, .8}, read(.37, .01)}, {[]float64{.8, .9}, read(.23, .01)}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(f.PerMM[0]-.7) > 1e-9 || math.Abs(f.PerMM[1]+.7) > 1e-9 || math.Abs(f.Base-.3) > 1e-9 || f.Spare != 0 || f.Crooked {
		t.Errorf("%+v", f)
	}
	// a slope from two readings with u 0.01 over 0.1 mm has u = √2·0.01/0.1
	if u := math.Sqrt(f.Cov[1][1]); math.Abs(u-math.Sqrt2*.1) > 1e-9 {
		t.Errorf("slope has u %g", u)
	}
	if e := f.At([]float64{.8, .8}); math.Abs(e.Value-.3) > 1e-12 || math.Abs(e.U-.01) > 1e-9 {
		t.Errorf("as it stood: %+v", e)
	}
}

// A known slope leaves one trial to be made.
func TestLearnWithKnown(t *testing.T) {
	f, err := LearnInfluence("float", []Build{{[]float64{.8, .8}, read(.1, .01)}, {[]float64{.8, 1}, read(.28, .01)}}, []Known{{0, 1}})
	if err != nil || math.Abs(f.PerMM[1]-.9) > 1e-9 || f.PerMM[0] != 1 || f.Cov[1][1] != 0 {
		t.Errorf("%+v, %v", f, err)
	}
}

func TestNotToldApart(t *testing.T) {
	_, err := LearnInfluence("backlash", []Build{{[]float64{.8, .8, .5}, read(.3, .01)}, {[]float64{.9, .9, .5}, read(.3, .01)},
		{[]float64{.7, .7, .6}, read(.3, .01)}}, nil)
	var e UnlearnedError
	if !errors.As(err, &e) || len(e.Positions) != 2 || e.Positions[0] != 0 || e.Positions[1] != 1 {
		t.Errorf("left and right always changed alike: %v", err)
	}
	for what, builds := range map[string][]Build{
		"none": nil, "one": {{[]float64{1}, read(1, .1)}}, "lengths": {{[]float64{1}, read(1, .1)}, {[]float64{1, 2}, read(1, .1)}},
		"mixed u": {{[]float64{1}, read(1, .1)}, {[]float64{2}, read(1, 0)}}, "nan": {{[]float64{1}, read(math.NaN(), .1)}, {[]float64{2}, read(1, .1)}},
		"pack": {{[]float64{1}, read(1, .1)}, {[]float64{-2}, read(1, .1)}},
	} {
		if f, err := LearnInfluence("x", builds, nil); err == nil {
			t.Errorf("%s was learned: %+v", what, f)
		}
	}
	if _, err := LearnInfluence("x", []Build{{[]float64{1}, read(1, .1)}}, []Known{{3, 1}}); err == nil {
		t.Error("a known position that is not there was taken")
	}
}

// A bent answer shows once there is a build to spare.
func TestCrooked(t *testing.T) {
	var builds []Build
	for _, s := range []float64{.2, .6, 1, 1.4} {
		builds = append(builds, Build{[]float64{s}, read(s*s, .01)})
	}
	if f, err := LearnInfluence("x", builds, nil); err != nil || !f.Crooked {
		t.Errorf("parabola: %+v, %v", f, err)
	}
}

// Second route: draws of the readings scatter the learned answer as its
// covariance says.
func TestLearnedSpreadAgainstDraws(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	at := []float64{1.1, .6}
	packs := [][]float64{{.8, .8}, {.95, .8}, {.8, .9}, {1, 1}}
	var e metrology.Estimate
	sum, sq, n := 0.0, 0.0, 20000
	for range n {
		var builds []Build
		for i, p := range packs {
			u := .005 * float64(1+i)
			builds = append(builds, Build{p, read(.3+.7*(p[0]-.8)-.4*(p[1]-.8)+u*rng.NormFloat64(), u)})
		}
		f, err := LearnInfluence("y", builds, nil)
		if err != nil {
			t.Fatal(err)
		}
		e = f.At(at)
		sum, sq = sum+e.Value, sq+e.Value*e.Value
	}
	mean := sum / float64(n)
	if dev := math.Sqrt(sq/float64(n) - mean*mean); math.Abs(dev-e.U) > .03*e.U || math.Abs(mean-.3-.7*.3-.4*.2) > 4*e.U/math.Sqrt(float64(n)) {
		t.Errorf("draws: mean %g, spread %g; stated u %g", mean, dev, e.U)
	}
}
