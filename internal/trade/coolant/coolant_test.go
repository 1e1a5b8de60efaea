package coolant

import (
	"errors"
	"math"
	"testing"

	"matchmark/internal/trade/metrology"

	"pgregory.net/rapid"
)

func TestFreezeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom([]Glycol{Ethylene, Propylene}).Draw(t, "glycol")
		p := rapid.Float64Range(0, 57).Draw(t, "percent")
		a, err := Freeze(g, p)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Freeze(g, p+0.5)
		if err != nil || b.WarmC >= a.WarmC || a.ColdC > a.WarmC {
			t.Fatalf("%g %%: %+v, half a per cent more: %+v, %v", p, a, b, err)
		}
		// Whoever fills by Strength is safe by every table.
		s, err := Strength(g, a.WarmC)
		if err != nil {
			t.Fatal(err)
		}
		if f, err := Freeze(g, min(s, 57.8)); err != nil || f.WarmC > a.WarmC+1e-6 {
			t.Fatalf("%g %% was to freeze at %g and freezes at %+v, %v", s, a.WarmC, f, err)
		}
	})
}

func TestSteamTurnsRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(274, 640).Draw(t, "kelvin")
		p, err := Saturation(k)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := Boiling(p); err != nil || math.Abs(back-k) > 1e-6 {
			t.Fatalf("%g K came back as %g, %v", k, back, err)
		}
	})
}

func TestChangeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(2, 30).Draw(t, "litres")
		now := float64(rapid.IntRange(0, 100).Draw(t, "now"))
		want := float64(rapid.IntRange(0, 100).Draw(t, "want"))
		refill := float64(rapid.IntRange(0, 100).Draw(t, "refill"))
		x, err := Change(Fill{v, now}, want, refill)
		between := want == now || (now <= want && want <= refill) || (refill <= want && want <= now)
		if (err == nil) != between {
			t.Fatalf("from %g to %g by %g: %g, %v", now, want, refill, x, err)
		}
		if err == nil && (x < 0 || x > v) {
			t.Fatalf("%g litres of %g", x, v)
		}
	})
}

// TestCyclesEnds: one whole drain is the refill, none is what was.
func TestCyclesEnds(t *testing.T) {
	if c, err := Cycles(Fill{12, 40}, 12, 50, 1); err != nil || c != 50 {
		t.Errorf("all drained: %g, %v", c, err)
	}
	if c, err := Cycles(Fill{12, 40}, 3, 50, 0); err != nil || c != 40 {
		t.Errorf("nothing done: %g, %v", c, err)
	}
}

func TestBadInputNamesItself(t *testing.T) {
	for what, f := range map[string]func() error{
		"past the table": func() error { _, err := Freeze(Ethylene, 70); return err },
		"warm strength":  func() error { _, err := Strength(Ethylene, 5); return err },
		"too cold":       func() error { _, err := Strength(Ethylene, -60); return err },
		"cap absolute":   func() error { _, err := UnderCap(150, 1.013); return err },
		"air in mbar":    func() error { _, err := UnderCap(0.5, 1013); return err },
		"not a number":   func() error { _, err := Freeze(Propylene, math.NaN()); return err },
		"no system":      func() error { _, err := Change(Fill{0, 10}, 20, 100); return err },
		"over full":      func() error { _, err := Cycles(Fill{10, 10}, 11, 0, 1); return err },
		"block too full": func() error { _, _, err := AfterFlush(12, 7, 50, 100); return err },
		"denser hot":     func() error { _, err := Expansion(12, 960, 998); return err },
		"on the moon":    func() error { _, err := Atmosphere(20000); return err },
		"nothing mixed":  func() error { _, err := Mix(); return err },
		"barely drains":  func() error { _, _, err := Fills(12, 1e-9, 0.05); return err },
	} {
		var r metrology.RangeError
		if err := f(); !errors.As(err, &r) || r.Field == "" || r.Want == "" {
			t.Errorf("%s: got %v, want a RangeError that names the input", what, err)
		}
	}
	if _, err := Freeze("vodka", 10); !errors.As(err, new(GlycolError)) {
		t.Errorf("vodka: %v", err)
	}
	if _, err := MetalNamed("unobtainium"); !errors.As(err, new(MetalError)) {
		t.Errorf("unobtainium: %v", err)
	}
}
