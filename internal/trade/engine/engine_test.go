package engine

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"matchmark/internal/trade/metrology"
)

func est(v, u float64) metrology.Estimate { return metrology.Estimate{Value: v, U: u} }

// TestRatioBySimulation draws the inputs at random and reckons each time: the
// second route to the uncertainty of a compression ratio.
func TestRatioBySimulation(t *testing.T) {
	parts := []Volume{{"chamber", est(10.2, 0.1)}, {"prechamber", est(4.1, 0.15)}, {"crown", est(-0.8, 0.1)}}
	gasket, err := GasketVolume(est(76, 0.2), est(0.75, 0.03))
	if err != nil {
		t.Fatal(err)
	}
	c, err := ByFluid(est(75.02, 0.01), est(70, 0.03), append(parts, gasket))
	if err != nil {
		t.Fatal(err)
	}
	rnd, n := rand.New(rand.NewPCG(7, 1)), 200000
	sum, square := 0.0, 0.0
	g := func(v, u float64) float64 { return v + u*rnd.NormFloat64() }
	for range n {
		b, s := g(75.02, 0.01), g(70, 0.03)
		gb, gt := g(76, 0.2), g(0.75, 0.03)
		vc := g(10.2, 0.1) + g(4.1, 0.15) + g(-0.8, 0.1) + math.Pi/4*gb*gb*gt/1000
		r := (math.Pi/4*b*b*s/1000 + vc) / vc
		sum, square = sum+r, square+r*r
	}
	mean := sum / float64(n)
	sd := math.Sqrt(square/float64(n) - mean*mean)
	if math.Abs(c.Ratio.Value-mean) > 0.02 || math.Abs(c.Ratio.U-sd) > 0.02*sd {
		t.Errorf("ratio %.3f ± %.3f, simulation %.3f ± %.3f", c.Ratio.Value, c.Ratio.U, mean, sd)
	}
	t.Logf("ratio %.2f ± %.2f; one cm³ moves it by %.2f", c.Ratio.Value, c.Ratio.U, c.PerCM3)
}

// TestGaskets by hand: protrusions 0.32, 0.35, 0.41; gaskets 1.1, 1.2, 1.3
// leave 0.69 to 0.78, 0.79 to 0.88 and 0.89 to 0.98. A window of 0.75 to 0.95
// is met by the middle one alone; 0.60 to 0.70 by none.
func TestGaskets(t *testing.T) {
	gaskets := []Gasket{{"3 notches", est(1.3, 0.01)}, {"1 notch", est(1.1, 0.01)}, {"2 notches", est(1.2, 0.01)}}
	pistons := []metrology.Estimate{est(0.32, 0.01), est(0.35, 0.01), est(0.41, 0.01)}
	c, err := ChooseGasket(gaskets, pistons, Range{0.75, 0.95})
	if err != nil || c.Best != 1 || c.Options[1].Gasket.Name != "2 notches" || math.Abs(c.Options[1].LeastMM-0.79) > 1e-9 || math.Abs(c.Options[1].MostMM-0.88) > 1e-9 {
		t.Errorf("%+v, %v", c, err)
	}
	if c.Options[0].Gasket.Name != "1 notch" || c.Options[0].Fits || c.Options[2].Fits {
		t.Errorf("order or fit: %+v", c.Options)
	}
	if c, err = ChooseGasket(gaskets, pistons, Range{0.60, 0.70}); err != nil || c.Best != -1 || !strings.Contains(c.Say, "no gasket") {
		t.Errorf("%+v, %v", c, err)
	}
	w, err := ByWire([]float64{0.82, 0.88, 0.80, 0.86})
	if err != nil {
		t.Fatal(err)
	}
	for reckoned, want := range map[float64]bool{0.90: true, 0.76: true, 0.93: false, 0.75: false} {
		if ok, err := w.Agrees(reckoned); err != nil || ok != want {
			t.Errorf("wire 0.84 against %g: %t, %v", reckoned, ok, err)
		}
	}
}

// TestRings: π by a drawn circle, a ring of many short chords; and areas scale.
func TestRings(t *testing.T) {
	around := func(d float64) float64 {
		sum, n := 0.0, 100000
		for range n {
			sum += d * math.Sin(math.Pi/float64(n))
		}
		return sum
	}
	open, err := GapChange(0.1)
	if err != nil || math.Abs(open-(around(85.1)-around(85))) > 1e-6 {
		t.Errorf("gap opens by %g, %v; by chords %g", open, err, around(85.1)-around(85))
	}
	if taper, err := Taper(0.4+open, 0.4); err != nil || math.Abs(taper-0.1) > 1e-9 {
		t.Errorf("taper comes back as %g, %v", taper, err)
	}
	r, err := UsualGap(85, true)
	if err != nil || math.Abs(r.Lo-0.255) > 1e-9 || math.Abs(r.Hi-0.3825) > 1e-9 {
		t.Errorf("usual gap %+v, %v", r, err)
	}
	if a, err := GapArea(0.4, 0.25); err != nil || math.Abs(a-0.1) > 1e-12 {
		t.Errorf("area %g, %v", a, err)
	}
	m, err := MatchMass([]float64{412.5, 409, 415})
	if err != nil || m.Lightest != 1 || m.SpreadG != 6 || m.OffG[0] != 3.5 || m.OffG[1] != 0 {
		t.Errorf("%+v, %v", m, err)
	}
}

// TestValveTiming runs a dial over a lobe of known shape, lift 8·cos²: it
// passes 1 mm where cos² = 1/8, 69.295° of cam-angle either side of its centre.
func TestValveTiming(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		centre := rapid.Float64Range(80, 130).Draw(t, "centre")
		step := rapid.Float64Range(1, 3).Draw(t, "step")
		var readings []Reading
		for a := centre - 120; a <= centre+120; a += step {
			lift := 0.0
			if d := (a - centre) * 0.75; math.Abs(d) < 90 {
				lift = 8 * math.Pow(math.Cos(d*math.Pi/180), 2)
			}
			readings = append(readings, Reading{a, lift})
		}
		got, err := AtLift(readings, 1)
		half := math.Acos(math.Sqrt(1./8)) * 180 / math.Pi / 0.75
		if err != nil || math.Abs(got.CentreDeg-centre) > 0.05 || math.Abs(got.DurationDeg-2*half) > 0.1 {
			t.Fatalf("%+v, %v; want centre %g, duration %g", got, err, centre, 2*half)
		}
	})
	// 24 teeth: 15° each. 17° late is one tooth and 2°.
	m, err := TeethOut(127, 110, 24)
	if err != nil || m.Teeth != 1 || math.Abs(m.RestDeg-2) > 1e-9 || m.Tooth != 15 {
		t.Errorf("%+v, %v", m, err)
	}
	if top, err := TopByStop(-23.5, 25.5); err != nil || top != 1 {
		t.Errorf("top %g, %v", top, err)
	}
	if o := OverlapDeg(Timing{OpensDeg: -12}, Timing{ClosesDeg: 8}); o != 20 {
		t.Errorf("overlap %g", o)
	}
}

// TestLash: the trade's worked figure: exhaust stem 100 mm, 17e-6, 300 K grows
// 0.51 mm, less train and head gives about 0.2 to 0.3 (common practice, no
// source).
func TestLash(t *testing.T) {
	stem := Growing{"stem", 100, Range{17e-6, 17e-6}, Range{300, 300}, false}
	if r, err := LashGrowth([]Growing{stem}); err != nil || math.Abs(r.Lo-0.51) > 1e-9 || r.Lo != r.Hi {
		t.Errorf("stem alone: %+v, %v", r, err)
	}
	r, err := LashGrowth([]Growing{stem,
		{"pushrod", 180, Range{11.5e-6, 11.5e-6}, Range{60, 70}, false},
		{"block and head", 260, Range{10.5e-6, 10.5e-6}, Range{65, 80}, true},
		{"head over the seat", 90, Range{10.5e-6, 10.5e-6}, Range{170, 200}, true}})
	if err != nil || r.Lo > 0.3 || r.Hi < 0.2 || r.Lo < 0 {
		t.Errorf("whole train: %+v, %v; want it about 0.2 to 0.3", r, err)
	}
	t.Logf("whole train closes by %.2f to %.2f mm", r.Lo, r.Hi)
}

// TestRim goes from degrees to mm and back, tape and rule; and the rule lies
// below the tape.
func TestRim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, d := rapid.Float64Range(0.5, 90).Draw(t, "angle"), rapid.Float64Range(100, 500).Draw(t, "rim")
		arc, err1 := RimMM(a, d, Tape)
		chord, err2 := RimMM(a, d, Rule)
		if err1 != nil || err2 != nil || chord >= arc {
			t.Fatalf("arc %g, chord %g, %v, %v", arc, chord, err1, err2)
		}
		for how, mm := range map[Laid]float64{Tape: arc, Rule: chord} {
			back, err := RimDeg(est(mm, 0.5), est(d, 1), how)
			if err != nil || math.Abs(back.Value-a) > 1e-9 {
				t.Fatalf("%g° comes back as %g by %s, %v", a, back.Value, how, err)
			}
			up, _ := RimDeg(est(mm+0.001, 0), est(d, 0), how) // the slope by difference
			wide, _ := RimDeg(est(mm, 0), est(d+0.001, 0), how)
			if u := math.Hypot(0.5*(up.Value-back.Value), 1*(wide.Value-back.Value)) / 0.001; math.Abs(u-back.U) > 0.01*u {
				t.Fatalf("%s: u %g, by difference %g", how, back.U, u)
			}
		}
	})
	// by hand: rim 300 mm, 1° is 2.618 mm; spills at 45.0, 46.0, 45.5 mm: 17.38°.
	s, err := BySpill([]float64{45, 46, 45.5}, est(300, 0.5), 0.3, Tape)
	if err != nil || math.Abs(s.BeforeTopDeg.Value-17.380) > 0.001 || math.Abs(s.SpreadDeg-0.38197) > 1e-4 || s.BeforeTopDeg.U < 0.3 {
		t.Errorf("%+v, %v", s, err)
	}
	// by hand: 0.6 mm gives 15°, 0.4 mm gives 17°: −10 °/mm; 18° wants 0.3 mm.
	pack, rate, err := Retime(Trial{0.6, 15}, Trial{0.4, 17}, 18)
	if err != nil || math.Abs(pack-0.3) > 1e-9 || math.Abs(rate+10) > 1e-9 {
		t.Errorf("pack %g at %g °/mm, %v", pack, rate, err)
	}
}

// TestUnknownSpill: the trade's worked figure is 2600 rev/min, 0.40 m, 0.9 ms,
// fire at 1°: about 17.5° (common practice, no source); usual band 15 to 24.
func TestUnknownSpill(t *testing.T) {
	if got := spillAt(2600, 0.40, 1400, 0.0009, 1); math.Abs(got-17.5) > 0.05 {
		t.Errorf("spill %g, want about 17.5", got)
	}
	r, err := UnknownSpill(2600, 0.4)
	if err != nil || r.Lo >= 17.5 || r.Hi <= 17.5 || r.Lo < 10 || r.Hi > 24 {
		t.Errorf("%+v, %v", r, err)
	}
}

// TestAir: standard atmosphere at 1000 m is 898.75 and at 2000 m 794.95 hPa
// (ISO 2533, from memory).
func TestAir(t *testing.T) {
	for h, want := range map[float64]float64{0: 1.01325, 1000: 0.89875, 2000: 0.79495} {
		if p, err := AirPressure(h); err != nil || math.Abs(p-want) > 2e-5 {
			t.Errorf("%g m: %g, %v; want %g", h, p, err, want)
		}
	}
}

// TestStrokeLeft by turning a crank with a drawn rod.
func TestStrokeLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, rod := rapid.Float64Range(0, 90).Draw(t, "after bottom"), rapid.Float64Range(1.2, 3).Draw(t, "rod")
		// crank pin at radius 1/2 below, pin of the piston straight above it at
		// a distance of the rod; height from the crank's centre.
		x, y := math.Sin(a*math.Pi/180)/2, -math.Cos(a*math.Pi/180)/2
		height := y + math.Sqrt(rod*rod-x*x)
		want := (0.5 + rod) - height
		if got, err := StrokeLeft(a, rod); err != nil || math.Abs(got-want) > 1e-12 {
			t.Fatalf("%g° after bottom, rod %g: %g, %v; by drawing %g", a, rod, got, err, want)
		}
	})
}

func TestCranking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Cranking{Ratio: rapid.Float64Range(15, 23).Draw(t, "ratio"), HeightM: rapid.Float64Range(0, 2500).Draw(t, "h"), AirC: 15, EngineC: 60}
		e, err := c.Expect()
		if err != nil || e.GaugeBar.Hi <= e.GaugeBar.Lo || e.EndC.Hi <= e.EndC.Lo {
			t.Fatalf("%+v, %v", e, err)
		}
		higher, cold, known := c, c, c
		higher.HeightM += 500
		cold.EngineC = 5
		known.InletClosesDeg, known.RodOverStroke = 45, 1.8
		h, _ := higher.Expect()
		k, _ := cold.Expect()
		n, err := known.Expect()
		if err != nil || h.GaugeBar.Hi >= e.GaugeBar.Hi || k.GaugeBar.Lo >= e.GaugeBar.Lo {
			t.Fatalf("height and cold must take from it: %+v, %+v, %+v, %v", e.GaugeBar, h.GaugeBar, k.GaugeBar, err)
		}
		if n.GaugeBar.Hi-n.GaugeBar.Lo >= e.GaugeBar.Hi-e.GaugeBar.Lo || n.GaugeBar.Lo < e.GaugeBar.Lo || n.GaugeBar.Hi > e.GaugeBar.Hi {
			t.Fatalf("knowing when the inlet closes must narrow it: %+v, %+v", e.GaugeBar, n.GaugeBar)
		}
		// compression step by step, p·Vⁿ kept: the second route to the exponent.
		p, steps := e.AirBar, 20000
		v, dv := e.Effective.Hi, (e.Effective.Hi-1)/float64(steps)
		for range steps {
			p *= 1 + e.Exponent.Hi*dv/(v-dv/2)
			v -= dv
		}
		if want := e.Leak.Hi*p - e.AirBar; math.Abs(want-e.GaugeBar.Hi) > 0.01*want {
			t.Fatalf("upper end %g, step by step %g", e.GaugeBar.Hi, want)
		}
	})
	if r, err := RatedSpeed(90); err != nil || math.Abs(r.Lo-2166.67) > 0.01 || math.Abs(r.Hi-3000) > 1e-9 {
		t.Errorf("rated speed %+v, %v", r, err)
	}
}

func TestSpring(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Spring{WireMM: rapid.Float64Range(1, 6).Draw(t, "d"), Active: rapid.Float64Range(4, 12).Draw(t, "n"), Ground: true, ShearMPa: SteelShear}
		s.MeanMM = s.WireMM * rapid.Float64Range(4, 12).Draw(t, "C")
		s.Total = s.Active + 2
		s.FreeMM = s.Total*s.WireMM + 20
		f, stress, err := s.At(s.FreeMM - 7)
		if err != nil {
			t.Fatal(err)
		}
		// the wire twisted as a straight bar, Castigliano's way: torque F·D/2 over
		// the length π·D·n of a bar with polar moment πd⁴/32 turns it, and the
		// ends come together by D/2 times the turn.
		turn := f * s.MeanMM / 2 * math.Pi * s.MeanMM * s.Active / (s.ShearMPa * math.Pi * math.Pow(s.WireMM, 4) / 32)
		if math.Abs(turn*s.MeanMM/2-7) > 1e-9 {
			t.Fatalf("%+v: %g N closes the bar by %g, want 7", s, f, turn*s.MeanMM/2)
		}
		if back, err := s.ForceAtStress(stress); err != nil || math.Abs(back-f) > 1e-9*f {
			t.Fatalf("stress %g comes back as %g N of %g, %v", stress, back, f, err)
		}
		k, err := s.RateWithin(0.02*s.WireMM, 0, 0)
		if err != nil || math.Abs(k.U/k.Value-0.08) > 1e-9 {
			t.Fatalf("2 %% in the wire give %g, %v", k.U/k.Value, err)
		}
	})
}
