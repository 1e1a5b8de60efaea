package judge

import (
	"math"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/reftest"
	"matchmark/internal/trade/metrology"
	"pgregory.net/rapid"
)

// deck is a block, a shaft, a rod and a piston: the stack of a bump clearance.
func deck(limits ...machine.Limit) *log {
	l := &log{}
	check := &machine.CheckAdded{ID: "bump", Name: "Piston below deck", When: machine.Apart, By: machine.ByStack, Unit: "mm", Limits: limits}
	for _, p := range []struct {
		part  machine.PartID
		name  string
		times float64
		tool  string
	}{{"block", "deck height", 1, "vernier"}, {"shaft", "stroke", -0.5, "vernier"}, {"rod", "length", -1, "vernier"}, {"piston", "crown height", -1, "micrometer"}} {
		feature := strings.ReplaceAll(p.name, " ", "-")
		l.add(&machine.PartAdded{ID: p.part, Name: string(p.part), Qty: 1}, &machine.FeatureAdded{Part: p.part, Feature: feature, Name: p.name, Sort: machine.Length, Tool: p.tool})
		check.Terms = append(check.Terms, machine.Term{Feature: machine.FeatureOf(p.part, feature), Times: p.times})
	}
	return l.add(check)
}

// By hand: 240.10 − 96.00/2 − 150.02 − 41.52 = 0.56; the three calliper
// readings share its scale, the micrometer does not.
func TestStack(t *testing.T) {
	l := deck(common(machine.Limit{Low: "0.20", High: "0.90"})).add(
		size("block/deck-height", "", "", 240.10), size("shaft/stroke", "", "", 96.00),
		size("rod/length", "", "", 150.02), size("piston/crown-height", "", "", 41.52))
	f := l.one(t, "bump")
	vernier, _ := metrology.InstrumentByID("vernier")
	mic, _ := metrology.InstrumentByID("micrometer")
	scale := vernier.HalfWidth / math.Sqrt(3) * (1 - 0.5 - 1) // the same error in all three
	alone := math.Hypot(vernier.Repeat, vernier.Step/math.Sqrt(12)) * math.Sqrt(1+0.25+1)
	want := metrology.SumSquares(scale, alone, mic.Single(41.52).U)
	if !reftest.Near(f.Value, 0.56, 1e-9) || !reftest.Near(f.U, want, 1e-9) || f.Verdict != Sound || f.Read != 4 {
		t.Errorf("%g ± %g (want %g) %s, %d read", f.Value, f.U, want, f.Verdict, f.Read)
	}
	if !contains(f.Working, "most sum 0.560 mm") || contains(f.Working, "least sum") {
		t.Errorf("%q", f.Working)
	}
	two := l.add(size("rod/length", "end", "", 150.40)).one(t, "bump")
	if !reftest.Near(two.Value, 0.18, 1e-9) || two.Verdict == Sound || !contains(two.Working, "least sum 0.180 mm") {
		t.Errorf("the longest rod is not held against the low: %g %s %q", two.Value, two.Verdict, two.At)
	}
}

func TestStackNotWhole(t *testing.T) {
	part := deck(common(machine.Limit{Low: "0.20"})).add(size("block/deck-height", "", "", 240.10))
	if f := part.one(t, "bump"); f.Verdict != NotRead || f.Read != 1 || f.Points != 4 || !strings.Contains(f.Settle, "length of rod") {
		t.Errorf("%s %d of %d %q", f.Verdict, f.Read, f.Points, f.Settle)
	}
	l := deck()
	l.bodies[len(l.bodies)-1].(*machine.CheckAdded).Terms = nil
	if f := l.one(t, "bump"); f.Verdict != NotRead || !strings.Contains(f.Settle, "correct the check") {
		t.Errorf("%s %q", f.Verdict, f.Settle)
	}
}

// Passing over points changes nothing: the verdict is that of every point with
// every point.
func TestEndsAreEnough(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		readings := drawReadings(rt)
		for _, b := range readings {
			r := b.(*machine.ReadingTaken)
			r.Tool = rapid.SampledFrom([]string{"", "", "vernier", "bore-gauge-micrometer"}).Draw(rt, "tool")
			r.Setting = rapid.SampledFrom([]string{"", "", "ring"}).Draw(rt, "setting")
		}
		m := fit(clearanceCheck(common(machine.Limit{Low: "0.01", High: "0.1"}))).add(readings...).fold(t)
		b, c := newBench(m), m.Check("clear")
		s := b.scaleOf("mm")
		got := b.byClearance(c, s, s)
		var all []candidate
		for _, outer := range b.surface(c.Outer, "", s).spots {
			for _, inner := range b.surface(c.Inner, "", s).spots {
				e, err := less(outer, inner)
				if err != nil {
					rt.Fatal(err)
				}
				all = append(all, s.candidate("", e, term{1, outer, ""}, term{-1, inner, ""}))
			}
		}
		for _, limit := range [][2]float64{{0.01, 0.1}, {math.Inf(-1), 0.05}, {0.06, math.Inf(1)}} {
			few, err1 := hold(got.list, limit[0], limit[1])
			every, err2 := hold(all, limit[0], limit[1])
			if err1 != nil || err2 != nil || few.p != every.p || got.list[few.worst].est != all[every.worst].est {
				rt.Fatalf("limit %v: %d points give %g, all %d give %g", limit, len(got.list), few.p, len(all), every.p)
			}
		}
	})
}

// The budget of every kind of check adds up to its uncertainty.
func TestBudgetAddsUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		by := rapid.SampledFrom(kinds).Draw(rt, "by")
		readings := drawReadings(rt)
		for _, b := range readings {
			r := b.(*machine.ReadingTaken)
			r.Tool = rapid.SampledFrom([]string{"", "vernier"}).Draw(rt, "tool")
			r.Setting = rapid.SampledFrom([]string{"", "ring"}).Draw(rt, "setting")
			if warm := 35.0; rapid.Bool().Draw(rt, "warm") {
				r.TempC = &warm
			}
		}
		l := fit(checkOf(by, common(machine.Limit{High: "0.1"}))).add(made(bore, 50), setting("vernier", "ring", 50, 50.01)).add(readings...)
		m := l.fold(t)
		b, c := newBench(m), m.Check(idOf(by))
		for _, k := range b.measure(c, b.scaleOf("mm")).list {
			sum := 0.0
			for _, line := range k.budget() {
				sum += line.u * line.u
			}
			if math.Abs(math.Sqrt(sum)-k.est.U) > 1e-9 {
				rt.Fatalf("by %s: the lines give %g, u is %g: %+v", by, math.Sqrt(sum), k.est.U, k.budget())
			}
		}
	})
}

// Every verdict shows readings, budget, limit with provenance, and probability.
func TestWorkingIsWhole(t *testing.T) {
	for _, by := range kinds {
		high := "0.100"
		if by == machine.BySize {
			high = "50.100"
		}
		f := worked(fit(checkOf(by, machine.Limit{High: high, From: machine.Handbook, Source: "page 7"})).add(made(bore, 50))).one(t, idOf(by))
		for _, want := range []string{"top, along: 50.060 mm, u 0.0030 (bore gauge set in a ring)", "u from repeats", "u from limit of error", "u in all: ", "U (95 %)",
			"limit, handbook (page 7): high " + high + " mm", "probability of being within the limit"} {
			if !slices.ContainsFunc(f.Working, func(l string) bool { return strings.Contains(l, want) }) {
				t.Errorf("by %s: no %q in\n%s", by, want, strings.Join(f.Working, "\n"))
			}
		}
	}
}

func TestProfileIsNamed(t *testing.T) {
	for want, mm := range map[string][]float64{
		"along: largest less smallest 0.040 mm, u 0.0035; a barrel, larger in the middle": {50, 50, 50.04, 50, 50.001, 50},
		"; a cone, larger at low":                   {50, 50, 50.02, 50, 50.04, 50},
		"; bell-mouthed at top":                     {50.04, 50, 50.001, 50, 50, 50},
		"; narrow only at low":                      {50.04, 50, 50.041, 50, 50, 50},
		"; bell-mouthed at both ends":               {50.04, 50, 50, 50, 50.03, 50},
		"; straight within its uncertainty":         {50.004, 50, 50, 50, 50.002, 50},
		"sizes 50.000 to 50.004 mm, mean 50.001 mm": {50.004, 50, 50, 50, 50.002, 50},
	} {
		f := fit(formCheck(machine.ByTaper, common(machine.Limit{High: "0.1"}))).add(bores(mm...)...).one(t, "form")
		if !contains(f.Working, want) {
			t.Errorf("no %q in\n%s", want, strings.Join(f.Working, "\n"))
		}
	}
}
