package demo_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/demo"
	"matchmark/internal/finding/balance"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// TestBuiltToTheEnd does all the work that is left on the demo machine, as the
// plan offers it, until nothing is left. After every closing it is asked anew,
// without the planner, whether something open was hidden.
func TestBuiltToTheEnd(t *testing.T) {
	w := newWalk(t)
	w.settle()
	for w.rounds = 1; w.round(); w.rounds++ {
		if w.rounds > 200 {
			t.Fatalf("the work comes to no end; still free: %v", w.free())
		}
	}
	t.Logf("%d rounds, %d facts, %d closings asserted", w.rounds, w.facts, w.closings)
	w.finished()
}

// walk is a person who does whatever is free.
type walk struct {
	t      *testing.T
	bench  *bench.Bench
	view   *bench.View
	rounds int

	facts, closings int
	decided         map[machine.CheckID]int // how often a remedy was chosen
	again           map[machine.CheckID]int // how often it was read once more
}

func newWalk(t *testing.T) *walk {
	t.Helper()
	log := store.OpenMemory()
	load(t, log)
	now := time.Date(2026, time.November, 25, 8, 0, 0, 0, time.UTC)
	shop := bench.NewShop(log, func() time.Time { now = now.Add(time.Minute); return now })
	b, err := shop.Bench(context.Background(), demo.ID)
	if err != nil {
		t.Fatal(err)
	}
	v, err := b.View(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return &walk{t: t, bench: b, view: v, decided: map[machine.CheckID]int{}, again: map[machine.CheckID]int{}}
}

// record says facts; the bench must never have to refuse.
func (w *walk) record(bodies ...machine.Body) {
	w.t.Helper()
	v, err := w.bench.Record(context.Background(), bench.Who{By: "Per", Device: "Per's phone"}, bodies...)
	if err != nil {
		w.t.Fatalf("round %d: the bench refused what the plan offered: %v", w.rounds, err)
	}
	w.view, w.facts = v, w.facts+len(bodies)
}

// settle answers what the log left open: the contradiction by withdrawing its
// weakest claim, the collar, and the clip that was short.
func (w *walk) settle() {
	w.t.Helper()
	c := w.view.Plan().Contradictions
	if len(c) != 1 {
		w.t.Fatalf("%d contradictions to settle, want one", len(c))
	}
	weakest := c[0].Claims[len(c[0].Claims)-1]
	var bodies []machine.Body
	if weakest.Withdraw != "" {
		bodies = append(bodies, &machine.EntryWithdrawn{Target: weakest.Withdraw, Why: "tried it: there is room enough"})
	}
	for _, d := range weakest.Deny {
		bodies = append(bodies, &d)
	}
	for _, q := range w.view.Machine.Questions {
		bodies = append(bodies, &machine.EntryWithdrawn{Target: q.Entry, Why: "belongs to the neighbour's machine"})
	}
	w.record(append(bodies, &machine.PartCounted{Part: "hose-clip", Found: 6, Words: "one bought"})...)
	if n := len(w.view.Plan().Contradictions); n != 0 {
		w.t.Fatalf("%d contradictions are left after the weakest claim was withdrawn", n)
	}
	if n := len(w.view.Machine.Questions); n != 0 {
		w.t.Fatalf("%d questions are left", n)
	}
}

func (w *walk) free() (ids []sequence.StepID) {
	for _, s := range w.view.Plan().Free {
		ids = append(ids, s.ID)
	}
	return ids
}

// of lists the free steps of some acts.
func (w *walk) of(acts ...sequence.Act) (out []*sequence.Step) {
	for _, s := range w.view.Plan().Free {
		if slices.Contains(acts, s.Act) {
			out = append(out, s)
		}
	}
	return out
}

// round does the free steps of one kind, those that let others go on first. It
// tells whether there were any. A dry build is finished before any of it is
// undone: both may be free, and to undo first would go round and round.
func (w *walk) round() bool {
	if w.decide() {
		return true
	}
	for _, acts := range [][]sequence.Act{{sequence.Check}, {sequence.Open, sequence.Clean, sequence.Collect}, {sequence.Rework},
		{sequence.Trial}, {sequence.Undo}, {sequence.Close}, {sequence.Test}} {
		steps := w.of(acts...)
		if len(steps) == 0 {
			continue
		}
		if acts[0] == sequence.Close {
			w.closeSome(steps)
			return true
		}
		var bodies []machine.Body
		for _, s := range steps {
			bodies = append(bodies, w.do(s)...)
		}
		if len(bodies) == 0 {
			continue
		}
		w.record(bodies...)
		return true
	}
	return false
}

// do is what is said when a step has been done.
func (w *walk) do(s *sequence.Step) []machine.Body {
	switch s.Act {
	case sequence.Open:
		return []machine.Body{&machine.JointOpened{Joint: s.Joint.ID, Tray: "99", Off: firstOn(s.Joint),
			Fasteners: []machine.Fastener{{Size: "M8x1.25x25", Count: 4}}}}
	case sequence.Undo:
		return []machine.Body{&machine.JointOpened{Joint: s.Joint.ID, Note: "after the dry build"}}
	case sequence.Clean:
		return []machine.Body{&machine.PartCleaned{Part: s.Part.ID, Method: "paraffin and brush"}}
	case sequence.Collect:
		return []machine.Body{&machine.Received{Order: s.Order.Order}}
	case sequence.Rework:
		r := s.Remedy
		return []machine.Body{&machine.RemedyDone{Check: s.Check.ID, Key: r.Key, Step: s.Check.Chosen.Step, Renewed: r.Renews, Reworked: r.Reworks, Opens: r.Opens}}
	case sequence.Trial:
		return []machine.Body{&machine.JointClosed{Joint: s.Joint.ID, As: machine.Trial}}
	case sequence.Test:
		return []machine.Body{&machine.TestRun{Test: s.Test.ID, Passed: true}}
	case sequence.Check:
		return w.makeCheck(s.Check)
	}
	w.t.Fatalf("no way to do %s", s.ID)
	return nil
}

// firstOn is the first part of a joint that is not off yet.
func firstOn(j *machine.Joint) []machine.PartID {
	for _, p := range j.Parts {
		if p.Tray == "" {
			return []machine.PartID{p.ID}
		}
	}
	return nil
}

// decide chooses the jobs of the cheapest plan as soon as a worn check can be
// decided on. It tells whether anything was chosen.
func (w *walk) decide() bool {
	due := slices.ContainsFunc(w.of(sequence.Check), func(s *sequence.Step) bool {
		f := w.view.Judged().Of(s.Check.ID)
		return f.Verdict == judge.Worn && !pending(s.Check)
	})
	if !due {
		return false
	}
	plan := w.view.Choices(remedy.Cheapest)
	for _, c := range plan.Infeasible {
		w.t.Fatalf("cannot be made good: %s", c.Says)
	}
	var bodies []machine.Body
	for _, j := range plan.Jobs {
		c := w.view.Machine.Check(append(slices.Clone(j.Serves), j.For...)[0])
		for _, id := range append(slices.Clone(j.Serves), j.For...) {
			if k := w.view.Machine.Check(id); k.Remedy(j.Remedy) != nil && slices.Contains(j.For, id) {
				c = k
				break
			}
		}
		if pending(c) {
			continue
		}
		if w.decided[c.ID]++; w.decided[c.ID] > 2 {
			w.t.Fatalf("%s was decided on twice and is not good: %s", c.ID, w.view.Judged().Of(c.ID).Sentence)
		}
		bodies = append(bodies, &machine.RemedyChosen{Check: c.ID, Key: j.Remedy, Step: j.Step})
	}
	if len(bodies) == 0 {
		return false
	}
	w.record(bodies...)
	return true
}

// pending tells whether a remedy was chosen and not yet carried out.
func pending(c *machine.Check) bool {
	return c.Chosen != nil && !slices.ContainsFunc(c.Done, func(d machine.Done) bool { return d.At.After(c.Chosen.At) })
}

// finished holds the end to account.
func (w *walk) finished() {
	w.t.Helper()
	plan, m := w.view.Plan(), w.view.Machine
	for _, s := range plan.Steps {
		if !s.Done {
			w.t.Errorf("left undone: %s (%s)", s.ID, plan.Blocked(s.ID).Words)
		}
	}
	for _, j := range m.Joints {
		if j.State != machine.Closed && !(j.State == machine.AsMade && j.Left != "") {
			w.t.Errorf("%s ends %s", j.Name, j.State)
		}
	}
	for _, b := range plan.Breaches {
		w.t.Errorf("breach: %s", b.Why)
	}
	if len(plan.Passed) != 1 || plan.Passed[0].Check.ID != "gen-comm" {
		w.t.Errorf("holds passed by hand at the end: %d, want the one of the dynamo", len(plan.Passed))
	}
	if sheet := balance.Of(m); !sheet.Even {
		w.t.Errorf("the balance is not even: %v", sheet.Words)
	}
	for _, q := range m.Questions {
		w.t.Errorf("question at the end: %s", q.Text)
	}
	if t := fmt.Sprint(w.free()); t != "[]" {
		w.t.Errorf("still free at the end: %s", t)
	}
}
