package bearing

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/metrology"
)

// TestOrdersByRolling turns a bearing in small steps and counts: the second
// route to the orders. The ring's surface, the ball's centre and its spin
// follow from rolling without slip on both races.
func TestOrdersByRolling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Inside{Elements: rapid.IntRange(6, 20).Draw(t, "n"), PitchMM: 40, AngleDeg: rapid.Float64Range(0, 40).Draw(t, "angle")}
		b.BallMM = 40 * math.Sin(math.Pi/float64(b.Elements)) * rapid.Float64Range(0.5, 0.99).Draw(t, "fill")
		turning := rapid.SampledFrom([]Ring{Inner, Outer}).Draw(t, "turning")
		o, err := b.Orders(turning)
		if err != nil {
			t.Fatal(err)
		}
		// Contact circles of the ball's touching points, mm.
		c := b.BallMM * math.Cos(b.AngleDeg*math.Pi/180) / 2
		in, out := b.PitchMM/2-c, b.PitchMM/2+c
		// Speeds in turns: surface speeds in·wi and out·wo; the ball's centre
		// moves at their mean, its skin at half their difference.
		wi, wo := 1.0, 0.0
		if turning == Outer {
			wi, wo = 0, 1
		}
		cage := (in*wi + out*wo) / 2 / (b.PitchMM / 2)
		// Seen from the cage the ball rolls on both races; its own axis lies
		// along the bearing's turned by the contact angle.
		spin := (wi - cage) * in / (b.BallMM / 2)
		spinOut := (cage - wo) * out / (b.BallMM / 2)
		if math.Abs(spin-spinOut) > 1e-9 {
			t.Fatalf("slips: %g on the inner, %g on the outer", spin, spinOut)
		}
		n := float64(b.Elements)
		for _, v := range []struct {
			what      string
			got, want float64
		}{{"cage", o.Cage, cage}, {"inner", o.Inner, n * math.Abs(wi-cage)}, {"outer", o.Outer, n * math.Abs(wo-cage)}, {"spin", o.Spin, math.Abs(spin)}} {
			if math.Abs(v.got-v.want) > 1e-9 {
				t.Fatalf("%+v, %s turning, %s: %g, rolling says %g", b, turning, v.what, v.got, v.want)
			}
		}
	})
}

func TestLifeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom([]Kind{Ball, Roller}).Draw(t, "kind")
		c := rapid.Float64Range(5, 100).Draw(t, "C")
		p := c * rapid.Float64Range(0.02, 0.9).Draw(t, "P/C")
		n := rapid.Float64Range(50, 3000).Draw(t, "n")
		l, err := BasicLife(k, c, p, n)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := RatingFor(k, p, l.Hours, n); err != nil || math.Abs(back-c) > 1e-9*c {
			t.Fatalf("rating %g comes back as %g, %v", c, back, err)
		}
		if m, err := BasicLife(k, 1000*c, 1000*p, n); err != nil || math.Abs(m.Hours-l.Hours) > 1e-9*l.Hours {
			t.Fatalf("kN and N give %g and %g h", l.Hours, m.Hours)
		}
		if m, err := BasicLife(k, c, p*1.05, n); err == nil && m.Hours >= l.Hours {
			t.Fatal("more load lasts longer")
		}
		if l.Heavy != (p > c/2) {
			t.Fatalf("heavy is %t at P/C %g", l.Heavy, p/c)
		}
	})
	if p, err := Equivalent(500, 100, Factors{0.285, 0.56, 1.527}); err != nil || p != 500 {
		t.Errorf("below e: %g, %v", p, err)
	}
	if p, err := Equivalent(500, 200, Factors{0.285, 0.4, 1}); err != nil || p != 500 {
		t.Errorf("never below the radial load: %g, %v", p, err)
	}
}

// TestSeats: the words of the shop and the classes that answer them.
func TestSeats(t *testing.T) {
	for _, c := range []struct {
		s     Seating
		class string
	}{
		{Seating{Ring: Inner, Kind: Ball, Load: Rotating, Weight: Normal, SizeMM: 15}, "js6"},
		{Seating{Ring: Inner, Kind: Ball, Load: Rotating, Weight: Normal, SizeMM: 35}, "k6"},
		{Seating{Ring: Inner, Kind: Ball, Load: Uncertain, Weight: Normal, SizeMM: 110}, "m6"},
		{Seating{Ring: Inner, Kind: Ball, Load: Rotating, Weight: Light, SizeMM: 15}, "js5"},
		{Seating{Ring: Inner, Kind: Ball, Load: Rotating, Weight: Light, SizeMM: 110}, "k6"},
		{Seating{Ring: Inner, Kind: Roller, Load: Rotating, Weight: Normal, SizeMM: 35}, "k6"},
		{Seating{Ring: Inner, Kind: Roller, Load: Rotating, Weight: Normal, SizeMM: 45}, "m6"},
		{Seating{Ring: Inner, Kind: Roller, Load: Rotating, Weight: Heavy, SizeMM: 60}, "n6"},
		{Seating{Ring: Inner, Kind: Ball, Load: Stationary, SizeMM: 35}, "h6"},
		{Seating{Ring: Inner, Kind: Ball, Load: Stationary, Slides: true, SizeMM: 35}, "g6"},
		{Seating{Ring: Outer, Load: Stationary, Weight: Normal, SizeMM: 72}, "H7"},
		{Seating{Ring: Outer, Load: Stationary, Weight: Normal, SizeMM: 72, Split: true}, "H7"},
		{Seating{Ring: Outer, Load: Rotating, Weight: Normal, SizeMM: 72}, "N7"},
		{Seating{Ring: Outer, Load: Rotating, Weight: Light, SizeMM: 72}, "M7"},
		{Seating{Ring: Outer, Load: Rotating, Weight: Heavy, SizeMM: 72}, "P7"},
		{Seating{Ring: Outer, Load: Uncertain, Weight: Normal, SizeMM: 72}, "K7"},
		{Seating{Ring: Outer, Load: Uncertain, Weight: Light, SizeMM: 72, Split: true}, "J7"},
	} {
		a, err := Advise(c.s)
		if err != nil || a.Class != c.class || a.MostTightUM <= a.LeastTightUM || a.Source == "" || a.Why == "" {
			t.Errorf("%+v: %+v, %v; want %s", c.s, a, err, c.class)
		}
	}
	// by hand: 72 N7 is −9 to −39, outside 0 to −13: from 4 clear to 39 tight.
	a, err := Advise(Seating{Ring: Outer, Load: Rotating, Weight: Normal, SizeMM: 72})
	if err != nil || a.LeastTightUM != -4 || a.MostTightUM != 39 {
		t.Errorf("72 N7: %+v, %v", a, err)
	}
}

// TestPlayLeft by hand: ball, bore 35, CN 6 to 20; k6 on the shaft +18 to +2
// and bore 0 to −12: 2 to 30 tight. 10 K: 11.5e-6·10·(4·72+35)/5·1000 = 7.429.
// Least 6 − 0.9·30 − 7.429 = −28.429; most 20 − 0.7·2 − 7.429 = 11.171.
func TestPlayLeft(t *testing.T) {
	m := Mounted{Kind: Ball, BoreMM: 35, OutsideMM: 72, InnerTightUM: fit.Band{Lo: 2, Hi: 30}, OuterTightUM: fit.Band{Lo: -43, Hi: 0}, HotterK: 10}
	left, err := m.Left(CN)
	if err != nil || math.Abs(left.Lo+28.429) > 1e-3 || math.Abs(left.Hi-11.171) > 1e-3 {
		t.Errorf("left %+v, %v", left, err)
	}
	c, err := m.Choose()
	if err != nil || c.Group != C4 || c.Enough {
		t.Errorf("%+v, %v; by hand C4 has −6.4 at the worst", c, err)
	}
	m.InnerTightUM.Hi, m.HotterK = 12, 5
	if c, err = m.Choose(); err != nil || c.Group != C3 || !c.Enough {
		t.Errorf("%+v, %v; by hand C3 has 15 − 10.8 − 3.7 = 0.5", c, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		a := Mounted{Kind: Ball, BoreMM: 40, OutsideMM: 80, InnerTightUM: fit.Band{Hi: rapid.Float64Range(0, 40).Draw(t, "tight")}, HotterK: rapid.Float64Range(0, 40).Draw(t, "hot")}
		b := a
		b.InnerTightUM.Hi += 1
		x, err1 := a.Left(CN)
		y, err2 := b.Left(CN)
		z, err3 := a.Left(C3)
		if err1 != nil || err2 != nil || err3 != nil || y.Lo >= x.Lo || z.Lo <= x.Lo {
			t.Fatalf("%v %v %v, %v %v %v", x, y, z, err1, err2, err3)
		}
	})
}

// TestHeat by hand: bore 50, 30 µm tight, 10 µm to drop on, 11.5e-6: 40/0.575 =
// 69.6 K, so 89.6 °C from 20.
func TestHeat(t *testing.T) {
	h, err := Mount{BoreMM: 50, TightUM: 30, RoomC: 20}.Heat()
	if err != nil || !h.Enough || math.Abs(h.Celsius-89.565) > 0.001 || h.Ceiling.Celsius != 110 {
		t.Errorf("%+v, %v", h, err)
	}
	h, err = Mount{BoreMM: 50, TightUM: 30, RoomC: 20, Sealed: true}.Heat()
	if err != nil || h.Enough || !strings.Contains(h.Advice, "press") {
		t.Errorf("sealed: %+v, %v", h, err)
	}
	h, err = Mount{BoreMM: 20, TightUM: 30, RoomC: 20}.Heat()
	if err != nil || h.Enough || h.ShaftK <= 0 || !strings.Contains(h.Advice, "heat to 110 °C and cool the shaft") {
		t.Errorf("small bore: %+v, %v; want it held at 110 °C", h, err)
	}
}

func TestBearingRefuses(t *testing.T) {
	in := func(err error, want string) {
		t.Helper()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q in it", err, want)
		}
	}
	_, err := Inside{2, 8, 39, 0}.Orders(Inner)
	in(err, "balls or rollers in a row is 2; 3 to 200 was wanted")
	_, err = Inside{9, 15, 39, 0}.Orders(Inner)
	in(err, "pitch diameter, mm is 39; a circle on which 9 of 15 mm have room")
	_, err = Inside{9, 8, 39, 90}.Orders(Inner)
	in(err, "contact angle, degrees is 90")
	_, err = Inside{9, 8, 39, 0}.Orders("both")
	in(err, `turning ring is "both"`)
	_, err = Orders{}.Hz(0)
	in(err, "speed, rev/min is 0")
	_, err = BasicLife(Ball, 14, 15, 1000)
	in(err, "equivalent load is 15; the rating, 14, at most")
	_, err = BasicLife("plain", 14, 2, 1000)
	in(err, `kind of bearing is "plain"`)
	_, err = BasicLife(Ball, 14, 2, math.NaN())
	in(err, "speed, rev/min is NaN")
	_, err = Equivalent(0, 0, Factors{})
	in(err, "radial and axial load is 0; one of them above zero")
	_, err = Equivalent(-1, 0, Factors{})
	in(err, "radial load is -1")
	_, err = Reliability(92, ISO281of2007)
	in(err, "reliability, % is 92; 90, 95, 96, 97, 98 or 99")
	_, err = Reliability(95, 1975)
	in(err, "edition of ISO 281 is 1975")
	_, err = Play(Ball, 2, CN)
	in(err, "bore, mm is 2; above 2.5 to 120")
	_, err = Play(Ball, 30, "C9")
	in(err, `clearance group is "C9"`)
	_, err = Advise(Seating{Ring: Outer, Load: Rotating, Weight: Normal, SizeMM: 72, Split: true})
	in(err, "housing in halves")
	_, err = Advise(Seating{Ring: Inner, Kind: Ball, Load: Rotating, Weight: Heavy, SizeMM: 30})
	in(err, "bore under a heavy load, mm is 30")
	_, err = Advise(Seating{Ring: Inner, Kind: Ball, Load: "sideways", SizeMM: 30})
	in(err, `load on the ring is "sideways"`)
	_, err = Advise(Seating{Ring: Inner, Kind: Ball, Load: Rotating, Weight: "some", SizeMM: 30})
	in(err, `weight of the load is "some"`)
	_, err = Advise(Seating{Ring: Outer, Load: Stationary, SizeMM: 300})
	in(err, "outside diameter, mm is 300")
	_, err = Mount{BoreMM: 0, TightUM: 10, RoomC: 20}.Heat()
	in(err, "bearing of 0 mm bore: diameter, mm is 0")
	_, err = Mount{BoreMM: 30, TightUM: 10, RoomC: 200}.Heat()
	in(err, "room temperature, °C is 200")
	_, err = Mounted{Kind: Ball, BoreMM: 30, OutsideMM: 20}.Left(CN)
	var bad metrology.RangeError
	if !errors.As(err, &bad) || bad.Field != "outside diameter, mm" {
		t.Errorf("upside down: %v", err)
	}
}
