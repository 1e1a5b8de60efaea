package judge

import (
	"math"
	"strings"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/reftest"
)

// exact gives a reading whose standard uncertainty is u: a figure in a unit
// that is no unit of measure has only the step's, step/√12.
func exact(value, u float64) *machine.ReadingTaken { return read(value, u*math.Sqrt(12), "") }

func TestConformity(t *testing.T) {
	type in struct {
		y, u      float64
		low, high string
	}
	rows := []reftest.Row[in]{
		{ID: "breakdown volts", In: in{-5.47, 0.05, "", "-5.40"}, Want: 0.92, Tol: 0.005, Kind: reftest.Memory,
			Source: "JCGM 106:2012 clause 7, breakdown of a diode, from memory"},
		{ID: "strength", In: in{509.7, 8.6, "490", ""}, Want: 0.99, Tol: 0.005, Kind: reftest.Memory,
			Source: "JCGM 106:2012 clause 7, strength of a container, from memory"},
		{ID: "oil", In: in{13.6, 1.8, "12.5", "16.3"}, Want: 0.66, Tol: 0.005, Kind: reftest.Memory,
			Source: "JCGM 106:2012 clause 7, grade of an oil, from memory"},
		{ID: "on the limit", In: in{82.05, 0.005, "82.0", "82.05"}, Want: 0.5, Tol: 1e-9, Kind: reftest.ByHand,
			Source: "Φ(0) − Φ(−10) = 0.5"},
		{ID: "bore over", In: in{82.055, 0.005, "82.0", "82.05"}, Want: 0.15865525, Tol: 1e-8, Kind: reftest.ByHand,
			Source: "Φ(−1) = 0.158655"},
	}
	reftest.Run(t, rows, func(i in) (float64, error) {
		f := direct("of a word", "", common(machine.Limit{Low: i.low, High: i.high})).add(exact(i.y, i.u)).one(t, "gap")
		return f.P, nil
	})
}

// Rows C3a and C3b of the shared method checks, through judge end to end.
func TestMethodChecks(t *testing.T) {
	path := reftest.Shared(t, "reference/method-checks.csv")
	rows := methodRows(t, path)
	a := rows["C3a"]
	if a == "" || rows["C3b"] == "" {
		t.Fatal("rows C3a and C3b are not in the file")
	}
	want := number(t, strings.TrimPrefix(a, "p_conform="))
	oil := direct("of a word", "", common(machine.Limit{Low: "12.5", High: "16.3"})).add(exact(13.6, 1.8)).one(t, "gap")
	if !reftest.Near(oil.P, want, 0.0005) || oil.Verdict != Doubtful {
		t.Errorf("C3a: P %.5f %s, want %.4f ± 0.0005 and doubtful", oil.P, oil.Verdict, want)
	}
	limit := number(t, strings.TrimPrefix(rows["C3b"], "acceptance limit "))
	low, high := 0.0, 0.1
	for range 60 {
		mid := (low + high) / 2
		f := direct("of a word", "", common(machine.Limit{High: "0.100"})).add(exact(mid, 0.010)).one(t, "gap")
		if f.Verdict == Sound {
			low = mid
		} else {
			high = mid
		}
	}
	if !reftest.Near(low, limit, 1e-5) {
		t.Errorf("C3b: sound up to %.6f, want %.5f ± 1e-5", low, limit)
	}
}

func TestSentences(t *testing.T) {
	feeler := func(high string) *log {
		return direct("mm", "feeler", machine.Limit{NewHigh: "0.30", High: high, From: machine.CommonPractice})
	}
	for _, c := range []struct {
		name string
		f    *Finding
		want string
		v    Verdict
	}{
		{"worn", feeler("0.50").add(read(0.62, 0.01, "mm")).one(t, "gap"), "Ring gap: 0.62 mm. Limit 0.50, common practice. Worn.", Worn},
		{"sound", feeler("0.50").add(read(0.25, 0.01, "mm")).one(t, "gap"), "Ring gap: 0.25 mm. Limit 0.50, common practice. Sound.", Sound},
		{"past new", feeler("0.50").add(read(0.40, 0.01, "mm")).one(t, "gap"), "Ring gap: 0.40 mm. Limit 0.50, common practice. Sound: reusable, past new.", Sound},
		{"on the limit", feeler("0.50").add(read(0.50, 0.01, "mm")).one(t, "gap"), "Ring gap: 0.50 mm. Limit 0.50, common practice. Doubtful: 50 % sure to be within.", Doubtful},
		{"word", direct("of the best", "", common(machine.Limit{Low: "0.85"})).add(read(0.78, 0.01, "")).one(t, "gap"),
			"Ring gap: 0.78 of the best. Least 0.85, common practice. Worn.", Worn},
		{"two sides", direct("V", "multimeter-volt", common(machine.Limit{Low: "13.8", High: "14.6"})).add(read(14.2, 0.01, "V")).one(t, "gap"),
			"Ring gap: 14.20 V. Limits 13.8 to 14.6, common practice. Sound.", Sound},
		{"bar", direct("bar", "oil-gauge", machine.Limit{Low: "2.0", From: machine.Paperwork}).add(read(0.31, 0.01, "MPa")).one(t, "gap"),
			"Ring gap: 3.1 bar. Least 2.0, paperwork. Sound.", Sound},
		{"count", direct("drops", "", common(machine.Limit{High: "0"})).add(read(0, 1, "")).one(t, "gap"),
			"Ring gap: 0 drops. Limit 0, common practice. Sound.", Sound},
		{"one drop", direct("drops", "", common(machine.Limit{High: "0"})).add(read(1, 1, "")).one(t, "gap"),
			"Ring gap: 1 drops. Limit 0, common practice. Worn.", Worn},
		{"not read", feeler("0.50").one(t, "gap"), "Ring gap: not read.", NotRead},
		{"no limit", direct("mm", "feeler", machine.Limit{Find: "measure a new ring"}).add(read(0.3, 0.01, "mm")).one(t, "gap"),
			"Ring gap: 0.30 mm. No limit to judge it by.", NoLimit},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.f.Sentence != c.want || c.f.Verdict != c.v {
				t.Errorf("got %q (%s)\nwant %q (%s)\nworking:\n%s", c.f.Sentence, c.f.Verdict, c.want, c.v, strings.Join(c.f.Working, "\n"))
			}
		})
	}
}

// The figure shown for pressure is in the check's unit, with its uncertainty:
// 1 bar is 0.1 MPa exactly (SI brochure).
func TestBarWhileInsideIsMPa(t *testing.T) {
	f := direct("bar", "oil-gauge", common(machine.Limit{Low: "2.0", High: "4.5"})).add(read(0.31, 0.01, "MPa")).one(t, "gap")
	inside := direct("MPa", "oil-gauge", common(machine.Limit{Low: "0.20", High: "0.45"})).add(read(0.31, 0.01, "MPa")).one(t, "gap")
	if !reftest.Near(f.Value, 3.1, 1e-12) || !reftest.Near(f.U, 10*inside.U, 1e-12) || !reftest.Near(f.P, inside.P, 1e-9) {
		t.Errorf("bar: %g ± %g, P %g; MPa: %g ± %g, P %g", f.Value, f.U, f.P, inside.Value, inside.U, inside.P)
	}
}

func TestReadingTraps(t *testing.T) {
	limit := common(machine.Limit{High: "0.50"})
	t.Run("wrong dimension", func(t *testing.T) {
		f := direct("mm", "feeler", limit).add(read(0.4, 0.01, "V")).one(t, "gap")
		if f.Verdict != NotRead || !contains(f.Working, "not used") || !contains(f.Working, "V") {
			t.Errorf("%s, %q, %q", f.Verdict, f.Sentence, f.Working)
		}
	})
	t.Run("wrong dimension beside a good one", func(t *testing.T) {
		f := direct("mm", "feeler", limit).add(read(0.4, 0.01, "V"), read(0.62, 0.01, "mm")).one(t, "gap")
		if f.Verdict != Worn || !contains(f.Working, "not used") {
			t.Errorf("%s, %q", f.Verdict, f.Working)
		}
	})
	t.Run("no unit", func(t *testing.T) {
		if f := direct("mm", "feeler", limit).add(read(0.4, 0.01, "")).one(t, "gap"); f.Verdict != NotRead {
			t.Errorf("%s, %q", f.Verdict, f.Working)
		}
	})
	t.Run("instrument not named", func(t *testing.T) {
		f := direct("mm", "", limit).add(read(0.40, 0.01, "mm")).one(t, "gap")
		if !reftest.Near(f.U, 0.010, 1e-9) || !contains(f.Working, "no instrument named; ±0.02 mm is assumed") {
			t.Errorf("u %g, %q", f.U, f.Working)
		}
	})
	t.Run("instrument of another kind", func(t *testing.T) {
		r := read(0.40, 0.01, "mm")
		r.Tool = "multimeter-volt"
		f := direct("mm", "", limit).add(r).one(t, "gap")
		if !contains(f.Working, "is not known for this; ±0.02 mm is assumed") {
			t.Errorf("%q", f.Working)
		}
	})
	t.Run("usual instrument", func(t *testing.T) {
		f := direct("mm", "feeler", limit).add(read(0.40, 0.01, "mm")).one(t, "gap")
		if !contains(f.Working, "feeler") || contains(f.Working, "assumed") {
			t.Errorf("%q", f.Working)
		}
	})
	t.Run("typed coarsely", func(t *testing.T) {
		f := direct("mm", "vernier", common(machine.Limit{High: "82.16"})).add(read(82, 1, "mm")).one(t, "gap")
		if f.Verdict != Doubtful || !strings.Contains(f.Settle, "Type all figures") {
			t.Errorf("%s, %q", f.Verdict, f.Settle)
		}
	})
	t.Run("low above high", func(t *testing.T) {
		f := direct("mm", "feeler", machine.Limit{Low: "0.5", High: "0.3", From: machine.Paperwork}, limit).add(read(0.40, 0.01, "mm")).one(t, "gap")
		if f.Verdict != NoLimit || !strings.Contains(f.Settle, "low, 0.5, is above its high, 0.3") {
			t.Errorf("%s, %q", f.Verdict, f.Settle)
		}
	})
	t.Run("unreadable formula passes to the next", func(t *testing.T) {
		f := direct("mm", "feeler", machine.Limit{High: "0,5", From: machine.Paperwork}, limit).add(read(0.40, 0.01, "mm")).one(t, "gap")
		if f.Verdict != Sound || len(f.Others) != 1 || !strings.Contains(f.Others[0].Missing, "comma") {
			t.Errorf("%s, %+v", f.Verdict, f.Others)
		}
	})
	t.Run("zero of a new magnitude is no bound", func(t *testing.T) {
		f := direct("mm", "dial", common(machine.Limit{NewLow: "0", NewHigh: "0.10"})).add(read(0, 0.01, "mm")).one(t, "gap")
		if f.Verdict != Sound {
			t.Errorf("%s %q", f.Verdict, f.Sentence)
		}
		f = direct("mm", "dial", common(machine.Limit{Low: "0"})).add(read(0, 0.01, "mm")).one(t, "gap")
		if f.Verdict != Doubtful {
			t.Errorf("a wear limit of zero must stand: %s %q", f.Verdict, f.Sentence)
		}
	})
	t.Run("zero of a new magnitude after a rebuild", func(t *testing.T) {
		c := &machine.CheckAdded{ID: "gap", Name: "Run-out", When: machine.Made, By: machine.ByReading, Unit: "mm", Says: "TIR", Tool: "dial",
			Limits:   []machine.Limit{common(machine.Limit{NewLow: "0", NewHigh: "0.03", High: "0.06"})},
			Remedies: []machine.Remedy{{Key: "straighten", Name: "Straighten"}}}
		f := (&log{}).add(c, &machine.RemedyDone{Check: "gap", Key: "straighten"}, read(0.01, 0.01, "mm")).one(t, "gap")
		if f.Sentence != "Run-out: 0.01 mm TIR. Limit 0.06, common practice. Sound." {
			t.Errorf("%q", f.Sentence)
		}
	})
	t.Run("two instruments that disagree", func(t *testing.T) {
		a, b := read(20.00, 0.01, "mm"), read(20.30, 0.01, "mm")
		a.Tool, b.Tool = "micrometer", "vernier"
		f := direct("mm", "", common(machine.Limit{High: "20.05"})).add(a, b).one(t, "gap")
		if f.Verdict != Doubtful || !contains(f.Working, "they disagree") {
			t.Errorf("%s %g ± %g %q", f.Verdict, f.Value, f.U, f.Working)
		}
	})
	t.Run("a rough rule does not spoil a micrometer", func(t *testing.T) {
		a, b := read(20.000, 0.001, "mm"), read(20.2, 0.1, "mm")
		a.Tool, b.Tool = "micrometer", "rule"
		f := direct("mm", "", common(machine.Limit{High: "20.05"})).add(a, b).one(t, "gap")
		if f.Verdict != Sound || !reftest.Near(f.Value, 20, 1e-3) {
			t.Errorf("%s %g ± %g", f.Verdict, f.Value, f.U)
		}
	})
	t.Run("a repeat that stands apart is named where it leaves a doubt", func(t *testing.T) {
		l := direct("mm", "micrometer", common(machine.Limit{High: "82.06"}))
		for _, v := range []float64{82.03, 82.04, 82.03, 82.05, 82.04, 82.14} {
			l.add(read(v, 0.01, "mm"))
		}
		f := l.one(t, "gap")
		if f.Verdict != Doubtful || !strings.Contains(f.Settle, "82.14 mm stands apart from its repeats: measure again, and withdraw it if it was a slip.") {
			t.Errorf("%s %q", f.Verdict, f.Settle)
		}
	})
	t.Run("a repeat that stands apart is named and used", func(t *testing.T) {
		l := direct("mm", "micrometer", common(machine.Limit{High: "82.2"}))
		for _, v := range []float64{82.03, 82.04, 82.03, 82.05, 82.04, 82.14} { // Grubbs G = 2.009 over 1.887, n = 6 at 5 %
			l.add(read(v, 0.01, "mm"))
		}
		f := l.one(t, "gap")
		if !contains(f.Working, "82.14 mm stands apart") || !contains(f.Working, "dirt, or the hand") || !reftest.Near(f.Value, 82.055, 1e-9) {
			t.Errorf("%g %q", f.Value, f.Working)
		}
		if f.Sentence[:len("Ring gap: 82.055 mm.")] != "Ring gap: 82.055 mm." {
			t.Errorf("%q", f.Sentence)
		}
	})
	t.Run("worst of several points", func(t *testing.T) {
		a, b := read(0.62, 0.01, "mm"), read(0.40, 0.01, "mm")
		a.Level, b.Level = "top", "low"
		f := direct("mm", "feeler", limit).add(b, a).one(t, "gap")
		if f.At != "top" || f.Sentence != "Ring gap, top: 0.62 mm. Limit 0.50, common practice. Worn." || f.Read != 2 {
			t.Errorf("%q at %q, read %d", f.Sentence, f.At, f.Read)
		}
	})
}

// Repeats: mean and type A against GUM 4.2 worked by hand.
func TestRepeats(t *testing.T) {
	l := direct("of a word", "", common(machine.Limit{High: "82.2"}))
	for _, v := range []float64{82.03, 82.04, 82.03, 82.05, 82.04} {
		l.add(read(v, 0.01, ""))
	}
	f := l.one(t, "gap")
	// s = 0.0083666, s/√5 = 0.0037417; step 0.01/√12 = 0.0028868.
	if !reftest.Near(f.Value, 82.038, 1e-9) || !reftest.Near(f.U, math.Hypot(0.0037417, 0.0028868), 1e-6) {
		t.Errorf("mean %g, u %g", f.Value, f.U)
	}
	if f.Read != 1 {
		t.Errorf("repeats at one point count as %d points", f.Read)
	}
}

func TestSettle(t *testing.T) {
	near := direct("mm", "digital-calliper", common(machine.Limit{High: "20.00"})).add(read(19.985, 0.001, "mm")).one(t, "gap")
	if near.Verdict != Doubtful || !strings.Contains(near.Settle, "micrometer 0.01, read to the line would") {
		t.Errorf("%s: %q", near.Verdict, near.Settle)
	}
	repeat := direct("mm", "plastic-strip", common(machine.Limit{High: "0.060"})).add(read(0.0505, 0.001, "mm")).one(t, "gap")
	if repeat.Verdict != Doubtful || !strings.Contains(repeat.Settle, "readings in all would settle it") {
		t.Errorf("%s: %q %g", repeat.Verdict, repeat.Settle, repeat.P)
	}
	on := direct("mm", "micrometer", common(machine.Limit{High: "20.000"})).add(read(20, 0.001, "mm")).one(t, "gap")
	if on.Verdict != Doubtful || !strings.Contains(on.Settle, "No instrument known here settles it") {
		t.Errorf("%s: %q", on.Verdict, on.Settle)
	}
}

func TestLooks(t *testing.T) {
	build := func(by string, looks ...*machine.LookTaken) *Finding {
		l := (&log{}).add(&machine.CheckAdded{ID: "gap", Name: "Oilway, main 1", When: machine.Apart, By: by, How: "rod and lamp",
			Limits: []machine.Limit{common(machine.Limit{NewWords: "full stream", WornWords: "sludge"})}})
		for _, k := range looks {
			k.Check = "gap"
			l.add(k)
		}
		return l.one(t, "gap")
	}
	for _, c := range []struct {
		f    *Finding
		v    Verdict
		want string
	}{
		{build(machine.ByPassage), NotRead, "Oilway, main 1: Not proved yet."},
		{build(machine.ByPassage, &machine.LookTaken{OK: true}), Sound, "Oilway, main 1: proved clear. Sound."},
		{build(machine.ByPassage, &machine.LookTaken{OK: true}, &machine.LookTaken{Words: "plug left in"}), Worn, "Oilway, main 1: not clear, plug left in. Blocked."},
		{build(machine.ByEye, &machine.LookTaken{Words: "crack at fillet."}), Worn, "Oilway, main 1: seen, crack at fillet. Worn."},
		{build(machine.ByEye), NotRead, "Oilway, main 1: Not looked at yet."},
	} {
		if c.f.Verdict != c.v || c.f.Sentence != c.want {
			t.Errorf("got %s %q, want %s %q", c.f.Verdict, c.f.Sentence, c.v, c.want)
		}
	}
	if f := build(machine.ByEye); f.Limit.Words != "sound: full stream; worn: sludge" || f.Settle != "Look: rod and lamp." {
		t.Errorf("words %q, settle %q", f.Limit.Words, f.Settle)
	}
}

func contains(lines []string, part string) bool {
	return strings.Contains(strings.Join(lines, "\n"), part)
}
