package gear

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"matchmark/internal/trade/metrology"
)

// TestInverseInvolute goes there and back over the whole range.
func TestInverseInvolute(t *testing.T) {
	for a := 0.1; a < 89.9; a += 0.1 {
		y, err := Involute(a)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := InverseInvolute(y); err != nil || math.Abs(back-a) > 1e-9*a {
			t.Fatalf("%g° has involute %g, which comes back as %.12g, %v", a, y, back, err)
		}
	}
	if a, err := InverseInvolute(0); a != 0 || err != nil {
		t.Errorf("involute 0: %g, %v", a, err)
	}
}

// drawn is any plausible gear.
func drawn(t *rapid.T) Gear {
	r := Rack{rapid.Float64Range(1, 8).Draw(t, "m"), rapid.SampledFrom([]float64{14.5, 17.5, 20, 25}).Draw(t, "alpha"), 1, 1.25}
	return Gear{r, rapid.IntRange(14, 90).Draw(t, "z"), rapid.Float64Range(-0.3, 0.6).Draw(t, "x")}
}

// flank is a side of a tooth, drawn point by point as a string comes
// off the base circle: a second route that uses neither span nor pin formula.
func flank(g Gear, r float64) (x, y float64) {
	s := g.sizes()
	phi := math.Acos(s.BaseMM / 2 / r)
	half := s.ThicknessMM/s.PitchMM + inv(rad(g.AngleDeg)) - inv(phi) // half the tooth at this radius
	return r * math.Sin(half), r * math.Cos(half)
}

// TestSpanByDrawing lays two parallel anvils against drawn flanks k − 1 teeth
// apart and looks for the widest place along the common normal: the flanks'
// largest extent square to the line of symmetry is the span.
func TestSpanByDrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawn(t)
		k := g.SpanTeeth()
		w, err := g.SpanOver(k)
		if err != nil {
			return
		}
		s := g.sizes()
		turn, widest := float64(k-1)*math.Pi/float64(g.Teeth), 0.0
		for r := s.BaseMM/2 + 1e-9; r < s.TipMM/2; r += s.TipMM * 1e-5 {
			x, y := flank(g, r)
			widest = max(widest, x*math.Cos(turn)+y*math.Sin(turn))
		}
		if math.Abs(2*widest-w) > 1e-6*s.TipMM {
			t.Fatalf("%+v over %d teeth: formula %.6f, drawing %.6f", g, k, w, 2*widest)
		}
	})
}

// TestPinsByDrawing rolls a pin into a drawn gap: the pin's centre lies where
// its distance from the drawn flank is its radius.
func TestPinsByDrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawn(t)
		pin := g.ModuleMM * rapid.Float64Range(1.65, 1.9).Draw(t, "pin")
		m, err := g.OverPins(pin)
		if err != nil {
			return
		}
		s, gap := g.sizes(), math.Pi/float64(g.Teeth)
		nearest := func(at float64) float64 { // from a centre in the middle of the gap to the flank
			cx, cy, least := at*math.Sin(gap), at*math.Cos(gap), math.Inf(1)
			for r := s.BaseMM/2 + 1e-9; r < s.TipMM/2; r += s.TipMM * 1e-4 {
				x, y := flank(g, r)
				least = min(least, math.Hypot(x-cx, y-cy))
			}
			return least
		}
		// The pin is lowered from outside until it first touches: below the
		// base circle a drawn flank ends, and the pin would be free again.
		step := pin / 40
		hi := s.TipMM/2 + pin
		for nearest(hi-step) > pin/2 {
			hi -= step
		}
		lo := hi - step
		for range 30 {
			if mid := (lo + hi) / 2; nearest(mid) < pin/2 {
				lo = mid
			} else {
				hi = mid
			}
		}
		want := 2 * lo
		if g.Teeth%2 == 1 {
			want *= math.Cos(gap / 2)
		}
		if math.Abs(want+pin-m) > 1e-4*g.ModuleMM {
			t.Fatalf("%+v pin %g: formula %.5f, drawing %.5f", g, pin, m, want+pin)
		}
	})
}

func TestGearProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawn(t)
		k := g.SpanTeeth()
		w := Span(g.ModuleMM, g.AngleDeg, g.Teeth, k, g.Shift)
		if x, err := g.ShiftFromSpan(k, w); err != nil || math.Abs(x-g.Shift) > 1e-9 {
			t.Fatalf("shift %g comes back from span as %g, %v", g.Shift, x, err)
		}
		if x, err := g.ShiftFromTip(g.sizes().TipMM); err != nil || math.Abs(x-g.Shift) > 1e-9 {
			t.Fatalf("shift %g comes back from tip as %g, %v", g.Shift, x, err)
		}
		if step := Span(g.ModuleMM, g.AngleDeg, g.Teeth, k+1, g.Shift) - w; math.Abs(step-BasePitch(g.ModuleMM, g.AngleDeg)) > 1e-9 {
			t.Fatalf("spans differ by %g", step)
		}
		big := g
		big.ModuleMM *= 2
		a, errA := g.Chordal()
		b, errB := big.Chordal()
		if errA != nil || errB != nil || math.Abs(b.ThicknessMM-2*a.ThicknessMM) > 1e-9*b.ThicknessMM || math.Abs(b.HeightMM-2*a.HeightMM) > 1e-9*b.HeightMM {
			t.Fatalf("twice the gear: %+v %v, %+v %v", a, errA, b, errB)
		}
	})
}

// TestBacklash: at its own centre distance a pair has none; thinning and
// opening add to it; and by thicknesses drawn at the working circle, a second
// route, it is what the pitch leaves.
func TestBacklash(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawn(t)
		h := Gear{g.Rack, rapid.IntRange(14, 90).Draw(t, "z2"), rapid.Float64Range(-0.3, 0.6).Draw(t, "x2")}
		p := Pair{g, h}
		d, err := p.Design()
		if err != nil {
			return
		}
		if r, err := p.At(Built{CentreMM: d.CentreMM}); err != nil || math.Abs(r.BacklashMM) > 1e-9*d.CentreMM {
			t.Fatalf("no backlash was wanted at %g: %+v, %v", d.CentreMM, r, err)
		}
		open := d.CentreMM + g.ModuleMM*rapid.Float64Range(0, 0.2).Draw(t, "open")
		thin := g.ModuleMM * rapid.Float64Range(0, 0.1).Draw(t, "thin")
		r, err := p.At(Built{CentreMM: open, ThinningMM: [2]float64{thin, 0}})
		if err != nil {
			t.Fatal(err)
		}
		left := 2 * math.Pi * open / float64(g.Teeth+h.Teeth)
		for i, q := range []Gear{g, h} {
			rw := open * float64(q.Teeth) / float64(g.Teeth+h.Teeth)
			x, y := flank(q, rw)
			left -= 2 * rw * math.Atan2(x, y)
			if i == 0 {
				left += thin * rw / (q.sizes().PitchMM / 2)
			}
		}
		if math.Abs(left-r.BacklashMM) > 1e-7*open {
			t.Fatalf("backlash %g, by drawing %g", r.BacklashMM, left)
		}
	})
}

// TestContactRatio: two racks of 20° without end have 4/(π·sin 2α) = 1.9809
// pairs in touch (textbook limit); gears run up to it.
func TestContactRatio(t *testing.T) {
	d, err := Pair{of(2, 1000, 0), of(2, 1000, 0)}.Design()
	limit := 4 / (math.Pi * math.Sin(rad(40)))
	if err != nil || d.ContactRatio >= limit || d.ContactRatio < limit-0.02 {
		t.Errorf("contact ratio %g, limit %g, %v", d.ContactRatio, limit, err)
	}
	small, err := Pair{of(2, 8, 0), of(2, 60, 0)}.At(Built{CentreMM: 68})
	if err != nil || !small.DigsIn {
		t.Errorf("8 teeth without shift: %+v, %v; want it to dig in", small, err)
	}
}

func TestGearRefuses(t *testing.T) {
	in := func(err error, want string) {
		t.Helper()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q in it", err, want)
		}
	}
	_, err := of(2, 4, 0).Sizes()
	in(err, "number of teeth is 4; 5 to 1000 was wanted")
	_, err = of(0, 20, 0).Sizes()
	in(err, "module, mm is 0")
	_, err = of(math.NaN(), 20, 0).Sizes()
	in(err, "module, mm is NaN")
	_, err = of(2, 20, 0).SpanOver(7)
	in(err, "teeth within the span is 7; a count whose flanks the anvils touch, such as 3")
	_, err = of(2, 20, 0).SpanOver(0)
	in(err, "teeth within the span is 0")
	_, err = of(2, 20, 0).ShiftFromSpan(3, 25.4)
	in(err, "needs a profile shift of")
	_, err = of(2, 20, 0).ShiftFromTip(-1)
	in(err, "tip diameter, mm is -1; above zero")
	_, err = of(2, 20, 0).OverPins(1)
	in(err, "pin diameter, mm is 1; a pin that sits on the flanks, about 3.46")
	_, err = of(2, 20, 0).OverPins(8)
	in(err, "touches beyond the tip")
	_, err = Pair{of(2, 20, 0), of(2.5, 20, 0)}.Design()
	in(err, "gears of two racks: module 2 at 20° and 2.5 at 20°")
	_, err = Pair{of(2, 20, 0), of(2, 40, 0)}.At(Built{CentreMM: 50})
	in(err, "centre distance, mm is 50; above 56.38")
	_, err = Pair{of(2, 20, 0), of(2, 40, 0)}.At(Built{CentreMM: 60, TipMM: [2]float64{30, 0}})
	in(err, "tip diameter of the gear of 20 teeth, mm is 30; above its base circle, 37.59")
	_, err = InverseInvolute(-0.1)
	in(err, "involute is -0.1")
	_, err = Involute(90)
	in(err, "pressure angle, degrees is 90")
	_, err = Undercut(20, 1.2)
	in(err, "profile shift in modules is 1.2")
	_, _, err = UsualBacklash(8)
	in(err, "module, mm is 8; 2 to 5, where there is a rule")
	_, err = ModuleOf(0)
	var bad metrology.RangeError
	if !errors.As(err, &bad) || bad.Field != "diametral pitch, 1/in" {
		t.Errorf("pitch 0: %v", err)
	}
}
