package lubricant

import (
	"errors"
	"math"
	"testing"

	"matchmark/internal/trade/metrology"

	"pgregory.net/rapid"
)

// TestThinningProperties: the line goes through its points, thins with heat,
// and turns round.
func TestThinningProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kv100 := rapid.Float64Range(3, 40).Draw(t, "kv100")
		kv40 := kv100 * rapid.Float64Range(3, 14).Draw(t, "times")
		th, err := Pair(kv40, kv100)
		if err != nil {
			t.Fatal(err)
		}
		for c, want := range map[float64]float64{40: kv40, 100: kv100} {
			if v, err := th.At(c); err != nil || math.Abs(v.MM2S-want) > 1e-9*want || v.Marked() {
				t.Fatalf("at %g: %+v, %v, want %g", c, v, err, want)
			}
		}
		a := rapid.Float64Range(0, 109).Draw(t, "a")
		va, err := th.At(a)
		if err != nil {
			return // thinner than the short form allows
		}
		if vb, err := th.At(a + 1); err == nil && vb.MM2S >= va.MM2S {
			t.Fatalf("it thickens from %g °C on", a)
		}
		if back, err := th.Temperature(va.MM2S); err != nil || math.Abs(back-a) > 1e-6 {
			t.Fatalf("%g °C came back as %g, %v", a, back, err)
		}
	})
}

// TestGradeIsNeverTwo: from SAE 20's upper bound on, and among gear oils, a
// viscosity has at most one grade, and neighbours meet.
func TestGradeIsNeverTwo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(1, 60).Draw(t, "v")
		for _, ed := range []Edition{J306Of2019, J306Of2005, J306Of1998} {
			if g, err := GearGrades(v, ed); err != nil || len(g) > 1 {
				t.Fatalf("%s: %g mm²/s is %v, %v", ed, v, g, err)
			}
		}
		g, err := EngineGrades(v, J300Since2013)
		if err != nil || v >= 8.2 && len(g) > 1 || v >= 4 && v < 26.1 && len(g) == 0 {
			t.Fatalf("%g mm²/s is %v, %v", v, g, err)
		}
	})
}

func TestSumpProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(20, 600).Draw(t, name) }
		s := Sump{f("a"), f("b"), f("c"), f("d"), f("h")}
		full, err := s.Litres(s.Height)
		if err != nil {
			t.Fatal(err)
		}
		want := full * rapid.Float64Range(0, 1).Draw(t, "share")
		depth, err := s.Depth(want)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := s.Litres(depth); err != nil || math.Abs(got-want) > 1e-6 {
			t.Fatalf("%g litres stand at %g mm, which holds %g, %v", want, depth, got, err)
		}
		// Second route: a thousand slices.
		sum := 0.0
		for i := range 1000 {
			sum += s.plan((float64(i)+0.5)*s.Height/1000) * s.Height / 1000
		}
		if math.Abs(sum/1e6-full) > 1e-5*full {
			t.Fatalf("slices give %g, the rule %g", sum/1e6, full)
		}
	})
}

func TestChoices(t *testing.T) {
	for _, c := range []struct {
		cold, hot float64
		want      string
	}{{-18, 30, "15W-40"}, {-20, 38, "15W-40"}, {-20.5, 38, "10W-40"}, {-15, 25, "20W-30"}, {-30, 45, "5W-50"}, {5, 40, "25W-40"}} {
		got, err := ChooseEngine(c.cold, c.hot)
		if err != nil || got.Grade != c.want {
			t.Errorf("%g to %g °C: %+v, %v, want %s", c.cold, c.hot, got, err, c.want)
		}
		if got.Hot != "common practice, no source" {
			t.Errorf("the hot half claims %q", got.Hot)
		}
	}
	for _, c := range []struct {
		cold, hot float64
		want      string
	}{{-20, 35, "80W-90"}, {-10, 35, "85W-90"}, {-30, 35, "75W-90"}, {-12, 45, "85W-140"}} {
		if got, err := ChooseGear(c.cold, c.hot); err != nil || got.Grade != c.want {
			t.Errorf("%g to %g °C: %+v, %v, want %s", c.cold, c.hot, got, err, c.want)
		}
	}
}

func TestBadInputNamesItself(t *testing.T) {
	th, err := Pair(100, 11.1)
	if err != nil {
		t.Fatal(err)
	}
	for what, f := range map[string]func() error{
		"too cold":          func() error { _, err := th.At(-60); return err },
		"too hot":           func() error { _, err := th.At(250); return err },
		"not a number":      func() error { _, err := th.At(math.NaN()); return err },
		"thickens":          func() error { _, err := Pair(10, 12); return err },
		"same temperature":  func() error { _, err := Through(40, 100, 42, 90); return err },
		"thinner than two":  func() error { _, err := Pair(5, 1.5); return err },
		"no density":        func() error { _, err := Dynamic(10, 880); return err },
		"hot below cold":    func() error { _, err := ChooseEngine(10, 0); return err },
		"colder than grade": func() error { _, err := ChooseEngine(-40, 0); return err },
		"runs over":         func() error { _, err := (Sump{10, 10, 10, 10, 10}).Depth(1); return err },
		"no floor":          func() error { _, err := (Sump{0, 10, 10, 10, 10}).Litres(1); return err },
		"grease":            func() error { _, err := GreaseGrade(-1); return err },
		"no viscosity":      func() error { _, err := EngineGrades(0, J300Since2013); return err },
		"index upside down": func() error { _, err := ViscosityIndex(5, 10); return err },
		"density at 400 °C": func() error { _, err := Density(0.88, 400); return err },
	} {
		var r metrology.RangeError
		if err := f(); !errors.As(err, &r) || r.Field == "" || r.Want == "" {
			t.Errorf("%s: got %v, want a RangeError that names the input", what, err)
		}
	}
	if _, err := EngineGrades(10, J306Of2019); !errors.As(err, new(EditionError)) {
		t.Errorf("wrong edition: %v", err)
	}
	if _, err := HighShear("45", ""); !errors.As(err, new(GradeError)) {
		t.Errorf("no such grade: %v", err)
	}
}

// TestDensity: 0.88 at 15 °C is 0.825 at 100 °C by the petroleum measurement
// tables (value from memory, within a hundredth).
func TestDensity(t *testing.T) {
	if d, err := Density(0.88, 100); err != nil || math.Abs(d-0.825) > 0.01 {
		t.Errorf("got %g, %v", d, err)
	}
}
