package demo_test

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// makeCheck is what is said when a check is made: an answer, or good readings
// at every point. A worn one is decided on, not read; a doubtful one is read
// again from the start.
func (w *walk) makeCheck(c *machine.Check) (out []machine.Body) {
	f := w.view.Judged().Of(c.ID)
	switch {
	case f.Verdict == judge.Worn && pending(c):
		return nil
	case f.Verdict == judge.Doubtful:
		out = w.takeBack(c)
	}
	if c.By == machine.ByEye || c.By == machine.ByPassage {
		return append(out, &machine.LookTaken{Check: c.ID, OK: true, Words: "good"})
	}
	if f.Limit.Missing != "" || f.Verdict == judge.NoLimit || math.IsInf(f.Limit.Low, 0) && math.IsInf(f.Limit.High, 0) {
		if d := w.missing(c); d != nil {
			return append(out, d...)
		}
	}
	if c.By == machine.ByReading {
		return append(out, w.direct(c, f)...)
	}
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil && (!wholly(ft) || f.Verdict == judge.Doubtful) {
			out = append(out, w.surface(ft, w.sizeFor(c, ft, f))...)
			if c.By == machine.ByClearance {
				return out // the other one by what this one reads
			}
		}
	}
	if len(out) == 0 { // read before the joint came apart: it is read once more
		if w.again[c.ID]++; w.again[c.ID] > 2 {
			w.t.Fatalf("%s is read and still open: %s %s", c.ID, f.Sentence, f.Settle)
		}
		for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
			if ft != nil {
				out = append(out, w.surface(ft, mean(ft.Current()))...)
			}
		}
	}
	return out
}

// takeBack withdraws the readings of a doubtful check.
func (w *walk) takeBack(c *machine.Check) (out []machine.Body) {
	all := slices.Clone(c.Current())
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil {
			all = append(all, ft.Current()...)
		}
	}
	for _, r := range all {
		out = append(out, &machine.EntryWithdrawn{Target: r.Entry, Why: "read again with more care"})
	}
	return out
}

// missing gives what a limit's formula still wants: a datum, or the surface the
// size is taken from.
func (w *walk) missing(c *machine.Check) []machine.Body {
	if c.Size == nil {
		return nil
	}
	if ft := w.view.Machine.Feature(c.Size.Feature); ft != nil && !wholly(ft) && ft.Nominal == nil {
		return w.surface(ft, w.base(ft))
	}
	d := w.view.Machine.Datum(c.Size.Datum)
	if d == nil || d.Value != nil {
		return nil
	}
	set, value := *d, 200.0
	switch {
	case strings.Contains(d.ID, "module"):
		value = 2.5
	case d.Unit == "bar":
		value = 150
	}
	set.Value, set.Typed, set.From = &value, fmt.Sprint(value), machine.OwnDecision
	return []machine.Body{&machine.DatumSet{Datum: set}}
}

// direct reads a check midway in its new limits, as often as it asks for.
func (w *walk) direct(c *machine.Check, f *judge.Finding) (out []machine.Body) {
	a, err := bench.Amount(fmt.Sprintf("%.3f", midway(f.Limit)), c.Unit)
	if err != nil {
		w.t.Fatalf("%s: %v", c.ID, err)
	}
	if in, ok := metrology.InstrumentByID(c.Tool); ok {
		a.Step = math.Min(a.Step, in.Step)
	}
	for range max(1, c.Repeats) {
		out = append(out, &machine.ReadingTaken{Check: c.ID, Amount: a, Tool: c.Tool})
	}
	return out
}

// midway is the middle of the new limits, or well within the one there is.
func midway(b judge.Bounds) float64 {
	low, high := b.NewLow, b.NewHigh
	if math.IsInf(low, 0) {
		low = b.Low
	}
	if math.IsInf(high, 0) {
		high = b.High
	}
	switch noLow, noHigh := math.IsInf(low, 0), math.IsInf(high, 0); {
	case noLow && noHigh:
		return 0
	case noLow && high <= 0:
		return high
	case noLow:
		return 0.25 * high
	case noHigh:
		return low + 0.2*math.Abs(low)
	}
	return (low + high) / 2
}

// surface reads one size at every point, and where it is unworn.
func (w *walk) surface(ft *machine.Feature, mm float64) (out []machine.Body) {
	a, err := bench.Amount(fmt.Sprintf("%.3f", mm), "mm")
	if err != nil {
		w.t.Fatalf("%s: %v", ft.ID, err)
	}
	if ft.Unworn != "" {
		out = append(out, &machine.ReadingTaken{Feature: ft.ID, Unworn: true, Amount: a, Tool: "micrometer"})
	}
	for _, p := range ft.Points() {
		out = append(out, &machine.ReadingTaken{Feature: ft.ID, Level: p.Level, Axis: p.Axis, Amount: a, Tool: "micrometer"})
	}
	return out
}

// wholly tells whether a surface is read at every point of its present version.
func wholly(ft *machine.Feature) bool {
	return !slices.ContainsFunc(ft.Points(), func(p machine.Point) bool {
		return !slices.ContainsFunc(ft.Current(), func(r *machine.Reading) bool { return r.Level == p.Level && r.Axis == p.Axis && !r.Unworn })
	})
}

// sizeFor is the size a surface is made or bought to, for a check.
func (w *walk) sizeFor(c *machine.Check, ft *machine.Feature, f *judge.Finding) float64 {
	if c.By == machine.BySize {
		return midway(f.Limit)
	}
	return w.base(ft)
}

// base is a surface's size when made good: its nominal, changed by what it was
// reworked to; else what suits its mate; else what it was; else anything.
func (w *walk) base(ft *machine.Feature) float64 {
	if ft.Nominal != nil {
		return ft.Nominal.MM + w.step(ft)
	}
	for _, c := range w.view.Machine.Checks {
		if c.By != machine.ByClearance {
			continue
		}
		lim := w.view.Judged().Of(c.ID).Limit
		if lim.Missing != "" {
			continue
		}
		switch {
		case c.Outer == ft && wholly(c.Inner):
			return mean(c.Inner.Current()) + midway(lim)
		case c.Inner == ft && wholly(c.Outer):
			return mean(c.Outer.Current()) - midway(lim)
		}
	}
	if len(ft.Readings) > 0 {
		return mean(ft.Readings)
	}
	return 30
}

// step is what the latest rework took off a journal or added to a bore.
func (w *walk) step(ft *machine.Feature) float64 {
	var last *machine.Done
	for _, c := range w.view.Machine.Checks {
		for i, d := range c.Done {
			if slices.Contains(d.Reworked, ft.ID) && (last == nil || d.At.After(last.At)) {
				last = &c.Done[i]
			}
		}
	}
	switch {
	case last == nil:
		return 0
	case ft.Sort == machine.Shaft:
		return -last.Step
	}
	return last.Step
}

func mean(list []*machine.Reading) float64 {
	sum, n := 0.0, 0
	for _, r := range list {
		if !r.Unworn {
			sum, n = sum+r.Amount.Value, n+1
		}
	}
	return sum / float64(max(n, 1))
}
