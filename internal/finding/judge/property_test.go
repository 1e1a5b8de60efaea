package judge

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
	"pgregory.net/rapid"
)

// kinds of check worked out from the bore and the journal.
var kinds = []string{machine.ByClearance, machine.BySize, machine.ByOval, machine.ByTaper, machine.ByWear}

func checkOf(by string, limits ...machine.Limit) *machine.CheckAdded {
	if by == machine.ByClearance {
		return clearanceCheck(limits...)
	}
	return formCheck(by, limits...)
}

func idOf(by string) machine.CheckID {
	if by == machine.ByClearance {
		return "clear"
	}
	return "form"
}

// drawReadings reads all points once or twice near 50 mm.
func drawReadings(t *rapid.T) []machine.Body {
	var out []machine.Body
	for range rapid.IntRange(1, 2).Draw(t, "rounds") {
		for _, p := range []struct{ level, axis string }{{"top", "along"}, {"top", "across"}, {"middle", "along"}, {"middle", "across"}, {"low", "along"}, {"low", "across"}} {
			um := rapid.IntRange(0, 120).Draw(t, "bore µm")
			out = append(out, size(bore, p.level, p.axis, 50+float64(um)/1000))
		}
		for _, axis := range []string{"along", "across"} {
			um := rapid.IntRange(0, 60).Draw(t, "journal µm")
			out = append(out, size(journal, "", axis, 50-float64(um)/1000))
		}
	}
	return out
}

func plain(mm float64) string { return strconv.FormatFloat(mm, 'f', 4, 64) }

func TestTighterLimitNeverMakesSound(t *testing.T) {
	rank := map[Verdict]int{Sound: 0, Doubtful: 1, Worn: 2}
	rapid.Check(t, func(rt *rapid.T) {
		by := rapid.SampledFrom(kinds).Draw(rt, "by")
		readings := drawReadings(rt)
		high := float64(rapid.IntRange(10, 200).Draw(rt, "high")) / 1000
		low := float64(rapid.IntRange(-50, 9).Draw(rt, "low")) / 1000
		if by == machine.BySize {
			high, low = high+50, low+50
		}
		cutHigh := float64(rapid.IntRange(0, 20).Draw(rt, "cut high")) / 4000
		cutLow := float64(rapid.IntRange(0, 20).Draw(rt, "cut low")) / 4000
		if low+cutLow > high-cutHigh {
			return
		}
		judge := func(lo, hi float64) *Finding {
			l := fit(checkOf(by, common(machine.Limit{Low: plain(lo), High: plain(hi)}))).add(made(bore, 50)).add(readings...)
			return l.one(t, idOf(by))
		}
		wide, tight := judge(low, high), judge(low+cutLow, high-cutHigh)
		if rank[tight.Verdict] < rank[wide.Verdict] || tight.P > wide.P+1e-12 {
			rt.Fatalf("%s: [%g, %g] is %s (%.6f), tighter [%g, %g] is %s (%.6f)", by, low, high, wide.Verdict, wide.P,
				low+cutLow, high-cutHigh, tight.Verdict, tight.P)
		}
	})
}

func TestOrderOfReadingsChangesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		by := rapid.SampledFrom(kinds).Draw(rt, "by")
		readings := drawReadings(rt)
		for _, b := range readings {
			r := b.(*machine.ReadingTaken)
			r.Tool = rapid.SampledFrom([]string{"", "vernier", "bore-gauge-micrometer"}).Draw(rt, "tool")
			r.Setting = rapid.SampledFrom([]string{"", "ring"}).Draw(rt, "setting")
			if rapid.Bool().Draw(rt, "warm") {
				warm := float64(rapid.IntRange(0, 35).Draw(rt, "temp"))
				r.TempC = &warm
			}
		}
		turned := rapid.Permutation(readings).Draw(rt, "order")
		judge := func(list []machine.Body) *Finding {
			f := fit(checkOf(by, common(machine.Limit{High: "0.100", NewHigh: "0.02*d"}))).add(made(bore, 50)).add(list...).one(t, idOf(by))
			f.Check = nil
			return f
		}
		if diff := cmp.Diff(judge(readings), judge(turned)); diff != "" {
			rt.Fatalf("by %s: %s", by, diff)
		}
	})
}

// Sizes typed in inches to ten-thousandths of a mm give the verdict of the
// same sizes in mm: both are finer than the gauges show.
func TestInchesOrMillimetres(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		by := rapid.SampledFrom(kinds).Draw(rt, "by")
		readings := drawReadings(rt)
		var inches []machine.Body
		for _, b := range readings {
			r := *b.(*machine.ReadingTaken)
			text := strconv.FormatFloat(math.Round(r.Amount.Value*1000)/25400, 'f', 9, 64) + " in"
			q, err := quantity.Parse(text, quantity.Length, "mm")
			if err != nil {
				rt.Fatal(err)
			}
			r.Amount = machine.Amount{Value: q.Value, Unit: quantity.Inside(quantity.Length), Typed: text, Step: q.Step}
			inches = append(inches, &r)
		}
		judge := func(list []machine.Body) *Finding {
			return fit(checkOf(by, common(machine.Limit{High: "0.0777"}))).add(made(bore, 50)).add(list...).one(t, idOf(by))
		}
		a, b := judge(readings), judge(inches)
		if a.Verdict != b.Verdict && math.Abs(a.P-0.95) > 1e-5 && math.Abs(a.P-0.05) > 1e-5 || math.Abs(a.P-b.P) > 1e-4 {
			rt.Fatalf("by %s: mm %s %.9f, inches %s %.9f", by, a.Verdict, a.P, b.Verdict, b.P)
		}
	})
}

// No log makes judging panic, and no figure that is not finite leaves it.
func TestAnyMachine(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.SampledFrom([]string{"", "0.1", "0", "-1", "0.001*d", "d/0", "x", "1e300*d", "0,5", "1e9"})
		unit := rapid.SampledFrom([]string{"", "mm", "bar", "°F", "V", "of the best", "in", "°C"})
		limit := func() machine.Limit {
			return machine.Limit{NewLow: text.Draw(rt, "newLow"), NewHigh: text.Draw(rt, "newHigh"), Low: text.Draw(rt, "low"),
				High: text.Draw(rt, "high"), From: rapid.SampledFrom(machine.Provenances()).Draw(rt, "from")}
		}
		c := &machine.CheckAdded{ID: "x", Name: "X", When: machine.Apart, Unit: unit.Draw(rt, "unit"),
			By:     rapid.SampledFrom(append(slices.Clone(kinds), machine.ByReading, machine.ByEye, machine.ByPassage, "smell")).Draw(rt, "by"),
			Limits: []machine.Limit{limit(), limit()}, Size: &machine.SizeSource{Symbol: "d", Feature: journal}}
		c.Outer = rapid.SampledFrom([]machine.FeatureID{"", bore}).Draw(rt, "outer")
		c.Inner = rapid.SampledFrom([]machine.FeatureID{"", journal}).Draw(rt, "inner")
		l := fit().add(c)
		for i := range rapid.IntRange(0, 12).Draw(rt, "readings") {
			r := &machine.ReadingTaken{Level: rapid.SampledFrom([]string{"", "top", "low", "odd"}).Draw(rt, "level"),
				Axis: rapid.SampledFrom([]string{"", "along", "across"}).Draw(rt, "axis"), Unworn: i%5 == 4,
				Amount: machine.Amount{Value: rapid.SampledFrom([]float64{0, -1, 50, 50.01, 1e-300, 1e300, -1e308}).Draw(rt, "value"),
					Unit: rapid.SampledFrom([]string{"", "mm", "MPa", "V", "°C", "junk"}).Draw(rt, "unit"),
					Step: rapid.SampledFrom([]float64{0, 0.001, 1, -1, 1e300, math.Inf(1), math.NaN()}).Draw(rt, "step")}}
			switch rapid.IntRange(0, 2).Draw(rt, "of") {
			case 0:
				r.Check = "x"
			case 1:
				r.Feature = bore
			default:
				r.Feature = journal
			}
			if rapid.Bool().Draw(rt, "warm") {
				temp := rapid.SampledFrom([]float64{-400, 20, 35, math.NaN(), 1e9}).Draw(rt, "temp")
				r.TempC = &temp
			}
			l.add(r)
		}
		entries := make([]machine.Entry, len(l.bodies))
		for i, b := range l.bodies {
			entries[i] = machine.Entry{ID: machine.EntryID(fmt.Sprint("e", i)), Body: b}
		}
		m := machine.Fold(entries)
		for _, f := range All(m).List {
			for _, v := range []float64{f.Value, f.U, f.P} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					rt.Fatalf("%g left the package: %+v", v, f)
				}
			}
			if f.P < 0 || f.P > 1 || f.Sentence == "" || f.Verdict != Sound && f.Verdict != Worn && f.Settle == "" {
				rt.Fatalf("%+v", f)
			}
		}
	})
}
