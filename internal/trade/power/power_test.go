package power

import (
	"errors"
	"math"
	"testing"

	"matchmark/internal/trade/metrology"

	"pgregory.net/rapid"
)

// TestBoundsOfTheEditions: at 40 both editions give 0.3; below they part, and
// each is steady over its own bound to the digits it is printed with.
func TestBoundsOfTheEditions(t *testing.T) {
	for _, c := range []struct {
		qc   float64
		ed   Edition
		want float64
	}{{30, Bounds40, 0.3}, {30, Bounds37, 0.2}, {38, Bounds40, 0.3}, {38, Bounds37, 0.228}, {40, Bounds37, 0.3}, {65, Bounds37, 1.2}, {90, Bounds37, 1.2}} {
		if got, err := EngineFactor(c.qc, c.ed); err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g mg by %q: %g, %v, want %g", c.qc, c.ed, got, err, c.want)
		}
	}
	for ed, bound := range map[Edition]float64{Bounds40: 40, Bounds37: 37.2} {
		below, _ := EngineFactor(bound-1e-9, ed)
		at, _ := EngineFactor(bound, ed)
		if math.Abs(below-at) > 0.001 {
			t.Errorf("%q jumps from %g to %g", ed, below, at)
		}
	}
}

// TestNoSparkFactor: the spark ignition factor of PWR021 (1.05116 at 980 hPa
// and 30 °C) would flatter every diesel: theirs stays below 1.03 there. And a
// carburettor is refused.
func TestNoSparkFactor(t *testing.T) {
	for qc := 20.0; qc <= 90; qc += 5 {
		c, err := Test{KW: 1, DryKPa: 98, Celsius: 30, QC: qc, Intake: Natural, Edition: Bounds40}.Correct()
		if err != nil || c.Factor > 1.03 || c.Factor < 1 {
			t.Errorf("at %g mg: %+v, %v", qc, c, err)
		}
	}
	if _, err := AirFactor(99, 25, "carburettor"); !errors.As(err, new(IntakeError)) {
		t.Errorf("a carburettor was taken: %v", err)
	}
}

func TestCorrectionProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := Test{KW: rapid.Float64Range(5, 60).Draw(t, "kW"), DryKPa: rapid.Float64Range(82, 105).Draw(t, "kPa"),
			Celsius: rapid.Float64Range(10, 40).Draw(t, "air"), QC: rapid.Float64Range(20, 90).Draw(t, "qc"),
			Intake: rapid.SampledFrom([]Intake{Natural, Turbo}).Draw(t, "intake"), Edition: rapid.SampledFrom([]Edition{Bounds40, Bounds37}).Draw(t, "edition")}
		a, err := in.Correct()
		if err != nil {
			t.Fatal(err)
		}
		thin := in
		thin.DryKPa -= 2
		b, err := thin.Correct()
		if err != nil || b.KW <= a.KW {
			t.Fatalf("in thinner air %+v, before %+v, %v", b, a, err)
		}
		if (a.Factor < 0.9 || a.Factor > 1.1) != (a.Says() != "") {
			t.Fatalf("factor %g says %q", a.Factor, a.Says())
		}
	})
	std, err := Test{KW: 20, DryKPa: 99, Celsius: 25, QC: 50, Intake: Natural, Edition: Bounds40}.Correct()
	if err != nil || math.Abs(std.KW-20) > 1e-12 {
		t.Errorf("in the standard atmosphere: %+v, %v", std, err)
	}
}

func TestBrakesTurnRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(3, 40).Draw(t, "kmh")
		d := rapid.Float64Range(0.5, 8).Draw(t, "deceleration")
		s, err := Distance(v, d, 0)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := Deceleration(v, s); err != nil || math.Abs(back-d) > 1e-9 {
			t.Fatalf("%g came back as %g, %v", d, back, err)
		}
		// Second route: the same stop by forces.
		if by, err := Braking(1200, 300*d, 300*d, 300*d, 300*d); err != nil || math.Abs(by-d) > 1e-9 {
			t.Fatalf("by forces %g, %v", by, err)
		}
	})
	if s, err := Distance(36, 5, 1); err != nil || math.Abs(s-20) > 1e-9 { // 10 m rolled, 10 m braked
		t.Errorf("36 km/h at 5 m/s²: %g m, %v", s, err)
	}
}

// TestBrakeArms: the two arms that make a brake easy to read (notes of PWR027
// and PWR029): kW = N·rpm/10000, and PS = kgf·rpm/1000.
func TestBrakeArms(t *testing.T) {
	if kw, err := (Brake{Scale: 250, Arm: 0.9549, Rpm: 2000}).KW(); err != nil || math.Abs(kw-250*2000/10000.0) > 0.01 {
		t.Errorf("%g kW, %v", kw, err)
	}
	kw, err := (Brake{Scale: 30 * gravity, Arm: 0.716, Rpm: 1800}).KW()
	if ps := kw / 0.73549875; err != nil || math.Abs(ps-54) > 0.05 {
		t.Errorf("%g PS, %v", ps, err)
	}
}

func TestShaftOff(t *testing.T) {
	for rpm, want := range map[float64]bool{540: true, 556: true, 557: false, 524: true, 523: false} {
		if off, good, err := ShaftOff(rpm, 540); err != nil || good != want {
			t.Errorf("%g rpm: off by %.2f %%, %v, %v", rpm, off, good, err)
		}
	}
	if _, _, err := ShaftOff(540, 750); !errors.As(err, new(metrology.RangeError)) {
		t.Errorf("nominal 750: %v", err)
	}
}

func TestBadInputNamesItself(t *testing.T) {
	for what, f := range map[string]func() error{
		"no speed":         func() error { _, err := KW(100, 0); return err },
		"tare over scale":  func() error { _, err := Brake{100, 120, 1, 540}.KW(); return err },
		"pressure in hPa":  func() error { _, err := AirFactor(990, 25, Natural); return err },
		"kelvin":           func() error { _, err := AirFactor(99, 298, Natural); return err },
		"humidity 150":     func() error { _, err := Air{100, 20, 150}.Dry(); return err },
		"fuel in grams":    func() error { _, err := EngineFactor(0.05, Bounds40); return err },
		"farther loaded":   func() error { _, err := Slip(56, 50); return err },
		"over the supply":  func() error { _, err := LeakDown(80, 90); return err },
		"one cylinder":     func() error { _, err := SpreadOf([]float64{25}); return err },
		"dead cylinder":    func() error { _, err := SpreadOf([]float64{25, 0}); return err },
		"faster than made": func() error { _, err := LimitOf(40, 30); return err },
		"marks turned":     func() error { _, err := FullyDeveloped(24, 3, 9, 4); return err },
		"speeds turned":    func() error { _, err := FullyDeveloped(3, 24, 4, 9); return err },
		"no brakes":        func() error { _, err := Balance(0, 0); return err },
		"no mass":          func() error { _, err := Braking(0, 100); return err },
		"not a number":     func() error { _, err := Holding(1500, math.NaN()); return err },
		"asleep":           func() error { _, err := Distance(20, 3, 60); return err },
		"space":            func() error { _, err := Thinner(50000); return err },
	} {
		var r metrology.RangeError
		if err := f(); !errors.As(err, &r) || r.Field == "" || r.Want == "" {
			t.Errorf("%s: got %v, want a RangeError that names the input", what, err)
		}
	}
	if _, err := EngineFactor(50, "some book"); !errors.As(err, new(EditionError)) {
		t.Errorf("some book: %v", err)
	}
	if v, err := Torque(10, 0); v != 0 || err == nil {
		t.Errorf("a refused division gave %g, %v", v, err)
	}
}
