package electric

import (
	"errors"
	"math"
	"strings"
	"testing"

	"matchmark/internal/trade/metrology"

	"pgregory.net/rapid"
)

func TestSmallestIsSmallest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Run{Amps: rapid.Float64Range(1, 400).Draw(t, "amps"), OneWay: rapid.Float64Range(0.3, 8).Draw(t, "metres"),
			Frame: rapid.Bool().Draw(t, "frame")}
		most := rapid.Float64Range(0.1, 1).Draw(t, "most")
		mm2, err := r.Smallest(most)
		for _, s := range Sizes() {
			d, e := r.Lost(s, 12)
			if e != nil {
				t.Fatal(e)
			}
			// 50 mm² is the odd one: class 5 keeps falling all the same.
			if ok := d.Volts <= most; ok && (err != nil || s < mm2) || !ok && err == nil && s >= mm2 {
				t.Fatalf("%g mm² loses %g V, the choice was %g, %v", s, d.Volts, mm2, err)
			}
		}
	})
}

// TestFrameIsHalf: through the frame one length counts, and joints come on
// top.
func TestFrameIsHalf(t *testing.T) {
	both, _ := Run{Amps: 100, OneWay: 2}.Lost(25, 12)
	frame, _ := Run{Amps: 100, OneWay: 2, Frame: true}.Lost(25, 12)
	rusty, _ := Run{Amps: 100, OneWay: 2, Frame: true, Joint: 0.001}.Lost(25, 12)
	hot := 80.0
	warm, _ := Run{Amps: 100, OneWay: 2, Celsius: &hot}.Lost(25, 12)
	if math.Abs(both.Volts-2*frame.Volts) > 1e-12 || math.Abs(rusty.Volts-frame.Volts-0.1) > 1e-12 || math.Abs(warm.Volts/both.Volts-1.2358) > 1e-9 {
		t.Errorf("both %g, frame %g, rusty %g, warm %g", both.Volts, frame.Volts, rusty.Volts, warm.Volts)
	}
}

// TestFuseIsNeverAboveItsWire over all loads and wires.
func TestFuseIsNeverAboveItsWire(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := rapid.Float64Range(0.1, 60).Draw(t, "load")
		wire := rapid.Float64Range(0.1, 80).Draw(t, "wire")
		b, err := Fuse(load, wire)
		if err == nil && (b.Amps > wire || b.Amps*continuous < load-1e-6) {
			t.Fatalf("load %g, wire %g: fuse %g", load, wire, b.Amps)
		}
		if err != nil && b.Amps != 0 {
			t.Fatalf("a refused fuse of %g A", b.Amps)
		}
	})
}

func TestStateScalesWithCells(t *testing.T) {
	for _, v := range []float64{11.5, 12, 12.2, 12.5, 12.7} {
		a, err := StateOf(v, 12)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range []float64{6, 24} {
			if b, err := StateOf(v*s/12, s); err != nil || math.Abs(a.Low-b.Low)+math.Abs(a.High-b.High) > 1e-9 {
				t.Errorf("%g V of 12 is %+v, of %g V %+v, %v", v, a, s, b, err)
			}
		}
	}
	for v := 11.0; v < 12.9; v += 0.01 {
		a, _ := StateOf(v, 12)
		b, err := StateOf(v+0.01, 12)
		if err != nil || b.Low < a.Low || b.High < a.High-1e-9 || a.Low > a.High {
			t.Fatalf("at %.2f V %+v, a little more %+v, %v", v, a, b, err)
		}
	}
}

func TestJudgeCranking(t *testing.T) {
	good := Cranking{System: 12, Battery: 10.4, Starter: 9.9, PlusDrop: 0.35, EarthDrop: 0.15, Rpm: 230, Amps: 220}
	for what, c := range map[string]struct {
		change func(*Cranking)
		points string // "" is all good
	}{
		"all well":    {func(*Cranking) {}, ""},
		"bad earth":   {func(c *Cranking) { c.Starter, c.EarthDrop = 9.65, 0.4 }, "earth strap"},
		"bad plus":    {func(c *Cranking) { c.Battery, c.Starter, c.PlusDrop = 10.8, 9.8, 0.8 }, "plus cable"},
		"bad battery": {func(c *Cranking) { c.Battery, c.Starter = 9, 8.5 }, "battery low"},
		"tight":       {func(c *Cranking) { c.Rpm, c.Amps = 120, 420 }, "tight engine"},
		"brushes":     {func(c *Cranking) { c.Rpm, c.Amps = 120, 120 }, "brushes"},
		"no ammeter":  {func(c *Cranking) { c.Rpm, c.Amps = 120, 0 }, "read the current"},
	} {
		in := good
		c.change(&in)
		found, err := JudgeCranking(in)
		if err != nil {
			t.Errorf("%s: %v", what, err)
			continue
		}
		said := ""
		for _, f := range found {
			if !f.Good {
				said += f.Points
			}
			if f.Source() != "common practice, no source" {
				t.Errorf("a limit claims %q", f.Source())
			}
		}
		if (c.points == "") != (said == "") || !strings.Contains(said, c.points) {
			t.Errorf("%s: said %q, want %q", what, said, c.points)
		}
	}
	bad := good
	bad.EarthDrop = 1.5
	if _, err := JudgeCranking(bad); !errors.As(err, new(ContradictionError)) {
		t.Errorf("drops that do not add up: %v", err)
	}
	six := Cranking{System: 6, Starter: 4.8}
	if f, err := JudgeCranking(six); err != nil || len(f) != 1 || !f[0].Good {
		t.Errorf("six volts: %+v, %v", f, err)
	}
}

func TestSeenAtBus(t *testing.T) {
	for _, c := range []struct {
		bus, plug float64
		n         int
		want      Seen
	}{{0.2, 0.8, 4, Seen{Parallel, 4}}, {0.27, 0.8, 4, Seen{Parallel, 3}}, {0.8, 0.8, 4, Seen{Parallel, 1}},
		{0.17, 0.0425, 4, Seen{Series, 4}}, {0.4, 1.2, 3, Seen{Parallel, 3}}} {
		if got, err := SeenAtBus(c.bus, c.plug, c.n); err != nil || got != c.want {
			t.Errorf("%+v: got %+v, %v", c, got, err)
		}
	}
	for _, bus := range []float64{math.Inf(1), 0.05, 1.5} {
		if _, err := SeenAtBus(bus, 0.8, 3); !errors.As(err, new(BusError)) {
			t.Errorf("bus %g Ω: %v", bus, err)
		}
	}
}

func TestPlugsNeverGetMore(t *testing.T) {
	for _, c := range []struct {
		marked, system float64
		w              Wiring
		n              int
		ok             bool
	}{{12, 12, Parallel, 3, true}, {6, 12, Parallel, 2, false}, {6, 12, Series, 2, true}, {10.5, 12, Parallel, 3, false},
		{11, 12, Parallel, 3, true}, {1.7, 12, Series, 4, false}} {
		err := MayTake(c.marked, c.system, c.w, c.n)
		if (err == nil) != c.ok || err != nil && !errors.As(err, new(BurnError)) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

func TestChargingAndSpread(t *testing.T) {
	for _, c := range []struct {
		volts, system float64
		good          bool
	}{{14.2, 12, true}, {13.5, 12, false}, {15, 12, false}, {27.5, 24, true}, {7.1, 6, true}} {
		if f, err := Charging(c.volts, c.system); err != nil || f.Good != c.good || f.Good != (f.Points == "") {
			t.Errorf("%+v: %+v, %v", c, f, err)
		}
	}
	if f, err := Spread([]float64{12, 12.5, 11.5}); err != nil || !f.Good {
		t.Errorf("even plugs: %+v, %v", f, err)
	}
	if f, err := Spread([]float64{12, 12.5, 3}); err != nil || f.Good {
		t.Errorf("a dying plug: %+v, %v", f, err)
	}
}

// TestCarries: a thicker wire carries more.
func TestCarries(t *testing.T) {
	last := 0.0
	for _, mm2 := range Sizes() {
		a, err := Carries(mm2)
		if err != nil || a <= last {
			t.Errorf("%g mm² carries %g A, the size below %g, %v", mm2, a, last, err)
		}
		last = a
	}
}

func TestBadInputNamesItself(t *testing.T) {
	for what, f := range map[string]func() error{
		"no current":     func() error { _, err := Run{OneWay: 1}.Lost(1, 12); return err },
		"drop too small": func() error { _, err := Run{Amps: 400, OneWay: 10}.Smallest(0.01); return err },
		"not rested":     func() error { _, err := StateOf(14, 12); return err },
		"dead cell":      func() error { _, err := StateOf(10, 12); return err },
		"volts rise":     func() error { _, err := Inner(12, 12.5, 100); return err },
		"warm sun":       func() error { _, err := Warm(1, 900); return err },
		"pulley of none": func() error { _, err := Driven(1500, 180, 0, 0); return err },
		"belt inside":    func() error { _, _, err := OpenBelt(180, 72, 50); return err },
		"blown share":    func() error { _, err := ChargeHours(60, 1.5, 6, 0.9); return err },
		"too many ohms":  func() error { _, err := SeriesResistor(6, 1.7, 40, 4); return err },
		"one plug":       func() error { _, err := SeenAtBus(0.8, 0.8, 1); return err },
		"load too large": func() error { _, err := Fuse(50, 100); return err },
		"water":          func() error { _, err := OpenVolts(1.0, 6); return err },
		"no engine":      func() error { _, err := CrankSpeed(2000, 9, 0); return err },
		"nan rpm":        func() error { _, err := JudgeCranking(Cranking{System: 12, Rpm: math.NaN()}); return err },
	} {
		var r metrology.RangeError
		if err := f(); !errors.As(err, &r) || r.Field == "" || r.Want == "" {
			t.Errorf("%s: got %v, want a RangeError that names the input", what, err)
		}
	}
	for what, f := range map[string]func() error{
		"size between": func() error { _, err := PerKm(3, Flexible); return err },
		"class":        func() error { _, err := PerKm(4, 6); return err },
		"gauge":        func() error { _, err := AWG(-4); return err },
		"system":       func() error { _, err := StateOf(12, 36); return err },
	} {
		if err := f(); !errors.As(err, new(SizeError)) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if v, err := LampAmps(55, 0); v != 0 || err == nil {
		t.Errorf("a lamp on 0 V takes %g, %v", v, err)
	}
}
