package oilfilm

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"matchmark/internal/trade/metrology"
)

// crank is a main journal of a small diesel; the figures are invented.
var (
	crank = Journal{50, 25, 0.05}
	rated = Duty{RPM: 2400, LoadN: 3000, ViscosityMPaS: 12}
	idle  = Duty{RPM: 800, LoadN: 1200, ViscosityMPaS: 9}
)

// TestClearanceCosts: 0.02 mm more on a journal of 50 mm, at rated load and at
// idle. By hand: S goes with the inverse square, (0.05/0.07)² = 0.5102; 0.2000
// becomes 0.1020; the leak grows by 1.4³ = 2.744.
func TestClearanceCosts(t *testing.T) {
	for _, c := range []struct {
		name string
		duty Duty
	}{{"rated", rated}, {"idle", idle}} {
		got, err := Cost(crank, c.duty, 0.02)
		if err != nil {
			t.Fatal(err)
		}
		t.Log(c.name, got.Say)
		if math.Abs(got.After.S/got.Before.S-25./49) > 1e-12 || math.Abs(got.LeakTimes-2.744) > 1e-9 {
			t.Errorf("%s: S %g to %g, leak %g", c.name, got.Before.S, got.After.S, got.LeakTimes)
		}
		if got.LostUM <= 0 || math.Abs(got.LostUM-(got.Before.LeastUM-got.After.LeastUM)) > 1e-12 {
			t.Errorf("%s: lost %g µm of %g", c.name, got.LostUM, got.Before.LeastUM)
		}
	}
}

// TestCostAgainstReynolds takes the second route round the whole question: the
// eccentricity before and after is found by solving Reynolds' equation.
func TestCostAgainstReynolds(t *testing.T) {
	found := func(s float64) float64 {
		lo, hi := 0.3, 0.9
		for range 14 {
			if mid := (lo + hi) / 2; solve(120, 16, mid, 0.5).point().S > s {
				lo = mid
			} else {
				hi = mid
			}
		}
		return (lo + hi) / 2
	}
	got, err := Cost(crank, rated, 0.02)
	if err != nil {
		t.Fatal(err)
	}
	lost := 25*(1-found(got.Before.S)) - 35*(1-found(got.After.S))
	if math.Abs(lost-got.LostUM) > 0.15 {
		t.Errorf("table: %.2f µm lost, Reynolds: %.2f", got.LostUM, lost)
	}
	t.Logf("0.02 mm costs %.2f µm by the table, %.2f µm by Reynolds' equation", got.LostUM, lost)
}

func TestFilmProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(20, 90).Draw(t, "d")
		j := Journal{d, d * rapid.Float64Range(0.25, 1).Draw(t, "l/d"), d * rapid.Float64Range(0.0005, 0.003).Draw(t, "c/d")}
		duty := Duty{rapid.Float64Range(300, 3000).Draw(t, "rpm"), rapid.Float64Range(100, 20000).Draw(t, "load"), rapid.Float64Range(4, 100).Draw(t, "mu")}
		a, err := j.Film(duty)
		if err != nil {
			var beyond BeyondError
			if !errors.As(err, &beyond) {
				t.Fatalf("%+v %+v: %v", j, duty, err)
			}
			return
		}
		more := duty
		more.LoadN *= 1.05
		if b, err := j.Film(more); err == nil && (b.LeastUM >= a.LeastUM || b.Friction >= a.Friction) {
			t.Fatalf("more load, thicker film or more friction: %+v then %+v", a, b)
		}
		// µN/P is all that counts: twice the speed with half the viscosity is the same film.
		twin := Duty{duty.RPM * 2, duty.LoadN, duty.ViscosityMPaS / 2}
		if b, err := j.Film(twin); err != nil || math.Abs(b.LeastUM-a.LeastUM) > 1e-9*a.LeastUM {
			t.Fatalf("same µN, other film: %v, %v, %v", a.LeastUM, b.LeastUM, err)
		}
		// a model of the bearing, all lengths by k and load by k², has film k times.
		const k = 1.7
		big := Journal{j.DiameterMM * k, j.LengthMM * k, j.ClearanceMM * k}
		if b, err := big.Film(Duty{duty.RPM, duty.LoadN * k * k, duty.ViscosityMPaS}); err != nil || math.Abs(b.LeastUM-k*a.LeastUM) > 1e-6*a.LeastUM {
			t.Fatalf("scaled by %g: %v then %v, %v", k, a.LeastUM, b.LeastUM, err)
		}
		floor, err := j.Petroff(duty)
		if err != nil || a.Friction <= floor || a.PeakMPa <= a.MeanMPa || a.SideMM3S >= a.FlowMM3S {
			t.Fatalf("friction %g over Petroff %g, peak %g over mean %g, side %g of %g: %v", a.Friction, floor, a.PeakMPa, a.MeanMPa, a.SideMM3S, a.FlowMM3S, err)
		}
	})
}

// TestCurveFalls: S falls along the whole curve at every length ratio, or
// halving could find a wrong place.
func TestCurveFalls(t *testing.T) {
	for ratio := 0.25; ratio <= 1; ratio += 0.05 {
		c, last := curveAt(ratio), math.Inf(1)
		for e := 0.1; e <= 0.9; e += 0.005 {
			if s := c.s(e); s >= last {
				t.Fatalf("L/D %g: S rises to %g at e %g", ratio, s, e)
			} else {
				last = s
			}
		}
	}
}

func TestFilmRefuses(t *testing.T) {
	for _, c := range []struct {
		what string
		j    Journal
		d    Duty
		want string
	}{
		{"no clearance", Journal{50, 25, 0}, rated, "clearance, mm is 0; above zero"},
		{"clearance in µm", Journal{50, 25, 50}, rated, "clearance, mm is 50; 0.01 to 0.5 for a journal of 50 mm"},
		{"too short", Journal{50, 10, 0.05}, rated, "length over diameter is 0.2; 0.25 to 1"},
		{"too long", Journal{50, 60, 0.05}, rated, "length over diameter is 1.2"},
		{"not a number", Journal{math.NaN(), 25, 0.05}, rated, "journal diameter, mm is NaN"},
		{"at rest", crank, Duty{0, 3000, 12}, "speed, rev/min is 0"},
		{"load without end", crank, Duty{2400, math.Inf(1), 12}, "load, N is +Inf"},
		{"thin oil", crank, Duty{2400, 3000, -1}, "viscosity, mPa·s is -1"},
		{"overloaded", crank, Duty{2400, 60000, 12}, "thinner than 2.5 µm"},
		{"hardly loaded", crank, Duty{2400, 50, 12}, "thicker than 22.5 µm"},
	} {
		_, err := c.j.Film(c.d)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q in it", c.what, err, c.want)
		}
	}
	if _, err := Cost(crank, rated, -0.05); err == nil || !strings.Contains(err.Error(), "added clearance, mm is -0.05") {
		t.Errorf("taking all clearance away: %v", err)
	}
	if _, err := Cost(crank, rated, 0.2); err == nil || !strings.Contains(err.Error(), "film at 0.250 mm clearance") {
		t.Errorf("worn beyond the table: %v", err)
	}
	if _, _, err := Short(1); err == nil {
		t.Error("eccentricity 1 was accepted")
	}
	if _, err := Trumpler(0); err == nil {
		t.Error("no diameter was accepted")
	}
	if _, err := (Journal{50, 0, 0.05}).Petroff(rated); err == nil {
		t.Error("no length was accepted")
	}
}

// TestLambda by hand: Ra 0.3 and 0.6 µm, √(0.09+0.36)·1.25331 = 0.84075 µm.
func TestLambda(t *testing.T) {
	r := Roughness{0.3, 0.6}
	for _, c := range []struct {
		least, lambda float64
		regime        Regime
	}{{0.5, 0.59471, Touching}, {1.5, 1.78413, Mixed}, {8, 9.51537, Floating}} {
		m, err := r.Over(c.least)
		if err != nil || math.Abs(m.Lambda-c.lambda) > 1e-4 || m.Regime != c.regime {
			t.Errorf("%g µm: %+v, %v; want %g, %s", c.least, m, err, c.lambda, c.regime)
		}
	}
	var bad metrology.RangeError
	if _, err := (Roughness{0, 0.6}).Over(5); !errors.As(err, &bad) || bad.Field != "roughness Ra of the journal, µm" {
		t.Errorf("mirror journal: %v", err)
	}
}

func BenchmarkFilm(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := crank.Film(rated); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCost(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Cost(crank, rated, 0.02); err != nil {
			b.Fatal(err)
		}
	}
}
