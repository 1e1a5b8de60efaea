package hydraulic

import (
	"errors"
	"math"
	"strings"
	"testing"

	"matchmark/internal/trade/metrology"

	"pgregory.net/rapid"
)

// TestPumpTwoRoutes: the first-order displacement against the one from tip
// and shaft distance, for standard gears without shift, where
// r_a² − r_w² = m²(z + 1). From 7 to 16 teeth they agree within 5 %.
func TestPumpTwoRoutes(t *testing.T) {
	for _, m := range []float64{1.5, 2, 2.5, 3, 4} {
		for z := 7; z <= 16; z++ {
			a, err := GearPump(m, z, 20)
			if err != nil {
				t.Fatal(err)
			}
			b, err := GearPumpByTip(m*float64(z+2), m*float64(z), 20, m)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(a.CM3/b.CM3-1) > 0.05 || b.CM3 < a.Low || b.CM3 > a.High {
				t.Errorf("m %g, z %d: %+v and %+v", m, z, a, b)
			}
		}
	}
}

// TestFormulaOfThePapers: 2π·m²·z·b in mm³ and Q = V·n·η/10⁶ as written in
// no-paperwork.md §5, by hand: m 3, z 10, b 20 → 11 310 mm³; at 1500 rpm and
// 0.9 → 15.27 L/min.
func TestFormulaOfThePapers(t *testing.T) {
	d, err := GearPump(3, 10, 20)
	if err != nil || math.Abs(d.CM3-11.3097) > 1e-4 {
		t.Errorf("%+v, %v", d, err)
	}
	if q, err := Flow(d.CM3, 1500, 0.9); err != nil || math.Abs(q-15.268) > 1e-3 {
		t.Errorf("%g, %v", q, err)
	}
}

// TestWorkIsKept: what the piston does arrives at the ball ends, and power in
// the oil is force times speed.
func TestWorkIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bore := rapid.Float64Range(30, 120).Draw(t, "bore")
		bar := rapid.Float64Range(10, 200).Draw(t, "bar")
		flow := rapid.Float64Range(2, 60).Draw(t, "flow")
		force, _ := Force(bore, bar)
		speed, _ := Speed(bore, flow)
		kw, err := Power(bar, flow, 1)
		if err != nil || math.Abs(force*speed/1e6-kw) > 1e-9*kw {
			t.Fatalf("%g kW by the oil, %g by the piston, %v", kw, force*speed/1e6, err)
		}
		travel, ball := rapid.Float64Range(1, 20).Draw(t, "piston"), rapid.Float64Range(1, 200).Draw(t, "ball")
		lift, err := Lift(force, travel, ball)
		if err != nil || math.Abs(lift*ball-force*travel) > 1e-6*force*travel {
			t.Fatalf("work %g in, %g out, %v", force*travel, lift*ball, err)
		}
		wall := bore / rapid.Float64Range(10.01, 40).Draw(t, "wall")
		limit, err := WallBar(bore, wall)
		if s, err2 := Hoop(limit, bore, wall); err != nil || err2 != nil || math.Abs(s-WallStress) > 1e-9 {
			t.Fatalf("at %g bar the wall has %g MPa, %v, %v", limit, s, err, err2)
		}
	})
}

// TestReliefNeverRises over all ratings, and with none.
func TestReliefNeverRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		found := rapid.Float64Range(20, 200).Draw(t, "found")
		var ratings []Rating
		lowest := found
		for range rapid.IntRange(0, 4).Draw(t, "count") {
			r := Rating{"hose", rapid.Float64Range(10, 400).Draw(t, "rating"), "stamped"}
			lowest = min(lowest, r.Bar)
			ratings = append(ratings, r)
		}
		got, err := SetRelief(found, ratings)
		if err != nil || got.Bar != lowest || got.Lower != (lowest < found) {
			t.Fatalf("found %g, ratings %v: %+v, %v", found, ratings, got, err)
		}
		wanted := rapid.Float64Range(10, 400).Draw(t, "wanted")
		if err := Allow(wanted, found, ratings); (err == nil) != (wanted <= lowest) {
			t.Fatalf("wanted %g, lowest %g: %v", wanted, lowest, err)
		}
	})
}

func TestRefusalCarriesNoNumber(t *testing.T) {
	for _, err := range []error{Allow(150, 120, nil), Allow(150, 0, nil), Allow(100, 120, []Rating{{"hose", 80, "stamped"}})} {
		if !errors.As(err, new(UnknownError)) || !strings.Contains(err.Error(), NotRecoverable) || strings.ContainsAny(err.Error(), "0123456789") {
			t.Errorf("refused with %v", err)
		}
	}
}

func TestBadInputNamesItself(t *testing.T) {
	for what, f := range map[string]func() error{
		"no module":        func() error { _, err := GearPump(0, 10, 20); return err },
		"two teeth":        func() error { _, err := GearPump(3, 2, 20); return err },
		"gears apart":      func() error { _, err := GearPumpByTip(36, 40, 20, 3); return err },
		"module too large": func() error { _, err := GearPumpByTip(36, 35, 20, 9); return err },
		"efficiency 92":    func() error { _, err := Flow(8, 1500, 92); return err },
		"flow grows":       func() error { _, err := Volumetric(16, 19); return err },
		"rod over bore":    func() error { _, err := Pull(40, 80, 100); return err },
		"thick wall":       func() error { _, err := Hoop(150, 60, 10); return err },
		"not a number":     func() error { _, err := Force(math.NaN(), 100); return err },
		"endless":          func() error { _, err := Force(80, math.Inf(1)); return err },
		"no travel":        func() error { _, err := Lift(1000, 10, 0); return err },
		"negative found":   func() error { _, err := SetRelief(-5, nil); return err },
		"no rating":        func() error { _, err := SetRelief(100, []Rating{{"hose", 0, ""}}); return err },
	} {
		var r metrology.RangeError
		if err := f(); !errors.As(err, &r) || r.Field == "" || r.Want == "" {
			t.Errorf("%s: got %v, want a RangeError that names the input", what, err)
		}
	}
}
