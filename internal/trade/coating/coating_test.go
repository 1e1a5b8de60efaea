package coating

import (
	"errors"
	"math"
	"strings"
	"testing"

	"matchmark/internal/trade/metrology"

	"pgregory.net/rapid"
)

func TestWetAndDryTurnRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dry := rapid.Float64Range(5, 500).Draw(t, "dry")
		vs := rapid.Float64Range(20, 100).Draw(t, "solids")
		th := rapid.Float64Range(0, 50).Draw(t, "thinner")
		wet, err := Wet(dry, vs, th)
		if err != nil || wet < dry*0.999999 {
			t.Fatalf("wet %g, %v", wet, err)
		}
		if back, err := Dry(wet, vs, th); err != nil || math.Abs(back-dry) > 1e-9*dry {
			t.Fatalf("%g came back as %g, %v", dry, back, err)
		}
		// Second route to the litres: area × wet film is paint and thinner.
		j := Job{Area: 3, Dry: dry, SolidsPercent: vs, Coats: 1}
		litres, err := j.Litres()
		if poured := 3 * wet / 1000; err != nil || math.Abs(litres*(1+th/100)-poured) > 1e-9*poured {
			t.Fatalf("%g litres of paint, %g poured, %v", litres, poured, err)
		}
	})
}

func TestDewProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-20, 50).Draw(t, "air")
		rh := rapid.Float64Range(5, 100).Draw(t, "humidity")
		dew, err := DewPoint(c, rh)
		if err != nil || dew > c+1e-9 {
			t.Fatalf("dew %g, %v", dew, err)
		}
		if dew > -45 {
			if e, err := Vapour(dew); err != nil || math.Abs(e-vapour(c)*rh/100) > 1e-9*e {
				t.Fatalf("vapour at the dew point %g, %v", e, err)
			}
		}
		w, err := MayPaint(c, rh, c)
		most, err2 := DampestAir(c)
		if err != nil || err2 != nil || most >= MostHumidity && c < 37 ||
			c > 0 && w.May != (rh <= min(most, MostHumidity)) && math.Abs(rh-most) > 1e-6 {
			t.Fatalf("%g °C, %g %%: %+v, at most %g %%", c, rh, w, most)
		}
		if w.May == (w.Why != "") {
			t.Fatalf("%+v", w)
		}
	})
}

func TestDampAirStopsWarmSteel(t *testing.T) {
	w, err := MayPaint(20, 90, 30)
	if err != nil || w.May || !strings.Contains(w.Why, "common practice") {
		t.Errorf("%+v, %v", w, err)
	}
}

func TestPaintTimes(t *testing.T) {
	for _, p := range Paints() {
		if !(p.DustFree.High <= p.Handle.High && p.Handle.High <= p.Fit.High) || p.RecoatTo != 0 && p.RecoatTo <= p.RecoatFrom.High {
			t.Errorf("%s: hours out of order", p.Kind)
		}
		same, byRule, err := p.At(20)
		if err != nil || byRule || same != p {
			t.Errorf("%s at 20 °C: %+v, %v, %v", p.Kind, same, byRule, err)
		}
		cold, byRule, err := p.At(10)
		if err != nil || !byRule || math.Abs(cold.Handle.High-2*p.Handle.High) > 1e-9 {
			t.Errorf("%s at 10 °C: %+v, marked %v, %v", p.Kind, cold, byRule, err)
		}
		if _, _, err := p.At(p.LeastC - 1); !errors.As(err, new(metrology.RangeError)) {
			t.Errorf("%s dries at %g °C: %v", p.Kind, p.LeastC-1, err)
		}
		if !strings.Contains(p.Source(), "no source") {
			t.Errorf("%s claims %q", p.Kind, p.Source())
		}
	}
}

func TestRecoat(t *testing.T) {
	p, err := PaintOf("two-pack epoxy primer")
	if err != nil {
		t.Fatal(err)
	}
	for hours, want := range map[float64]Window{1: TooSoon, 5: Perhaps, 13: Now, 71: Now, 73: TooLate} {
		if got, err := p.Recoat(hours, 20); err != nil || got != want {
			t.Errorf("after %g h: %q, %v", hours, got, err)
		}
	}
	if got, _ := p.Recoat(3, 10); got != TooSoon {
		t.Errorf("three hours at 10 °C: %q", got)
	}
	h, byRule, err := p.Cure(3, 20)
	if err != nil || byRule || h != (Hours{2*2 + 6, 2*12 + 12}) {
		t.Errorf("three coats take %+v, %v, %v", h, byRule, err)
	}
}

func TestBadInputNamesItself(t *testing.T) {
	p := Paints()[0]
	for what, f := range map[string]func() error{
		"solids as share": func() error { _, err := Wet(50, 0.5, 0); return err },
		"no film":         func() error { _, err := Dry(0, 50, 0); return err },
		"all lost":        func() error { _, err := Job{1, 50, 50, 1, 1}.Litres(); return err },
		"no coat":         func() error { _, err := Job{1, 50, 50, 0, 0}.Litres(); return err },
		"humidity 120":    func() error { _, err := DewPoint(20, 120); return err },
		"wet over dry":    func() error { _, err := FromWetBulb(15, 20, 1013); return err },
		"dry as bone":     func() error { _, err := FromWetBulb(40, 1, 1013); return err },
		"kelvin":          func() error { _, err := MayPaint(20, 50, 293); return err },
		"hole over disc":  func() error { _, err := Disc(100, 200); return err },
		"flat box":        func() error { _, err := Box(1, 0, 1); return err },
		"one part":        func() error { _, err := Parts(100, 4); return err },
		"no readings":     func() error { _, err := ByNominal(nil, 100); return err },
		"range turned":    func() error { _, err := BySpots([][3]float64{{1, 1, 1}}, 120, 100); return err },
		"oven":            func() error { _, _, err := p.At(80); return err },
		"not a number":    func() error { _, err := p.Recoat(math.NaN(), 20); return err },
		"no coats":        func() error { _, _, err := p.Cure(0, 20); return err },
	} {
		var r metrology.RangeError
		if err := f(); !errors.As(err, &r) || r.Field == "" || r.Want == "" {
			t.Errorf("%s: got %v, want a RangeError that names the input", what, err)
		}
	}
	if _, err := PaintOf("limewash"); !errors.As(err, new(PaintError)) {
		t.Errorf("limewash: %v", err)
	}
}
