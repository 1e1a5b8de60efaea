package sequence

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// scene draws a small machine with a bench history. tidy keeps reach and
// stated order going one way, so that no contradiction can arise from them.
func scene(t *rapid.T, joints, checks int, tidy bool) *book {
	b := new(book)
	nj := rapid.IntRange(2, joints).Draw(t, "joints")
	name := func(i int) string { return fmt.Sprintf("j%d", i) }
	nparts := rapid.IntRange(1, 3).Draw(t, "parts")
	for i := range nparts {
		b.write(&machine.PartAdded{ID: machine.PartID(fmt.Sprintf("p%d", i)), Name: fmt.Sprintf("Part %d", i), Qty: 1,
			Assembly: machine.AssemblyID(fmt.Sprintf("a%d", i%2))})
	}
	some := func(label string, most, below int) []string {
		var out []string
		for range rapid.IntRange(0, most).Draw(t, label) {
			if below > 0 {
				out = append(out, name(rapid.IntRange(0, below-1).Draw(t, label+" which")))
			}
		}
		slices.Sort(out)
		return slices.Compact(out)
	}
	for i := range nj {
		below := nj
		if tidy {
			below = i
		}
		var alts []string
		for range rapid.IntRange(0, 3).Draw(t, "ways") {
			if set := slices.DeleteFunc(some("way", 2, below), func(s string) bool { return s == name(i) }); len(set) > 0 {
				alts = append(alts, strings.Join(set, " "))
			}
		}
		b.write(joint(name(i), strings.Join(alts, " | "), func(j *machine.JointAdded) {
			j.Dry = rapid.IntRange(0, 4).Draw(t, "dry") == 0
			j.OneWay = rapid.IntRange(0, 5).Draw(t, "one way") == 0
			j.Life = rapid.IntRange(0, 5).Draw(t, "life") == 0
			j.Parts = []machine.PartID{machine.PartID(fmt.Sprintf("p%d", rapid.IntRange(0, nparts-1).Draw(t, "part")))}
			j.Assembly = machine.AssemblyID(fmt.Sprintf("a%d", i%2))
		}))
	}
	for i := range rapid.IntRange(0, checks).Draw(t, "checks") {
		when := rapid.SampledFrom([]string{machine.Apart, machine.Apart, machine.Made, machine.Made, machine.Running}).Draw(t, "when")
		own := some("own", 2, nj)
		hid := some("hidden", 2, nj)
		if tidy { // hidden only by what closes later
			hid = slices.DeleteFunc(hid, func(h string) bool { return len(own) > 0 && h >= slices.Min(own) })
		}
		b.write(check(fmt.Sprintf("c%d", i), when, strings.Join(own, " "), strings.Join(hid, " "), func(c *machine.CheckAdded) {
			c.Dry = when == machine.Made && rapid.Bool().Draw(t, "read dry")
			c.Assembly = "a0"
			if rapid.Bool().Draw(t, "of a part") {
				c.Parts = []machine.PartID{"p0"}
			}
			c.Remedies = []machine.Remedy{{Key: "renew", Name: "Renew", Renews: []machine.PartID{"p0"}}}
		}))
	}
	if !tidy {
		for range rapid.IntRange(0, 3).Draw(t, "stated") {
			x, y := rapid.IntRange(0, nj-1).Draw(t, "first"), rapid.IntRange(0, nj-1).Draw(t, "then")
			if x != y {
				b.write(stated(name(x), name(y)))
			}
		}
	}
	for range rapid.IntRange(0, 8).Draw(t, "history") {
		history(t, b)
	}
	return b
}

// history does one thing that happens at a bench: mostly what is free, at
// times something else.
func history(t *rapid.T, b *book) {
	p := b.plan()
	m := b.fold()
	anyJoint := func() machine.JointID {
		return m.Joints[rapid.IntRange(0, len(m.Joints)-1).Draw(t, "joint")].ID
	}
	switch rapid.IntRange(0, 9).Draw(t, "what") {
	case 0:
		b.write(&machine.JointOpened{Joint: anyJoint(), Tray: "2"})
	case 1:
		b.write(&machine.JointClosed{Joint: anyJoint(), As: rapid.SampledFrom([]string{machine.Trial, machine.Final}).Draw(t, "as")})
	case 2:
		b.write(&machine.JointLeft{Joint: anyJoint(), Why: "sound"})
	case 3:
		if len(m.Checks) > 0 {
			c := m.Checks[rapid.IntRange(0, len(m.Checks)-1).Draw(t, "check")]
			b.write(look(string(c.ID), false), &machine.RemedyChosen{Check: c.ID, Key: "renew"})
		}
	case 4:
		if len(m.Checks) > 0 {
			c := m.Checks[rapid.IntRange(0, len(m.Checks)-1).Draw(t, "check")]
			b.write(&machine.HoldPassed{Joint: anyJoint(), Check: c.ID, Initials: "AB", Why: "seen before"})
		}
	default:
		if len(p.Free) > 0 {
			b.do(p.Free[rapid.IntRange(0, len(p.Free)-1).Draw(t, "free")])
		}
	}
}

// overOpen looks, apart from the package's own working, for a check that the
// closing of j would hide while it is open: the state as it would be after the
// closing, read against what the words mean.
func overOpen(m *machine.Machine, v Verdicts, j *machine.Joint) *machine.Check {
	shut := func(k *machine.Joint) bool { return k == j || k.State == machine.Closed }
	passedAt := func(j *machine.Joint, c *machine.Check) bool {
		return !c.Life && !j.Life && slices.ContainsFunc(j.Passed, func(x machine.Passed) bool { return x.Check == c.ID })
	}
	letThrough := func(c *machine.Check) bool { // here, or when its own joints were closed
		own := c.When == machine.Apart || c.Dry
		return passedAt(j, c) || own && len(c.Joints) > 0 && every(c.Joints, func(k *machine.Joint) bool {
			return k.State == machine.AsMade || k.State == machine.Closed && passedAt(k, c)
		})
	}
	for _, c := range m.Checks {
		if c.When == machine.Running || !v.Of(c.ID).Verdict.Open() || letThrough(c) {
			continue
		}
		if slices.Contains(c.Joints, j) && (c.When == machine.Apart || c.Dry) {
			return c
		}
		if c.When == machine.Apart && len(c.Joints)+len(c.HiddenBy) == 0 && slices.ContainsFunc(c.Parts, func(q *machine.Part) bool { return slices.Contains(j.Parts, q) }) {
			return c
		}
		hidden, touches := len(c.HiddenBy) > 0, false
		for _, set := range c.HiddenBy {
			if c.When == machine.Made {
				set = slices.DeleteFunc(slices.Clone(set), func(k *machine.Joint) bool { return slices.Contains(c.Joints, k) && !c.Dry })
			}
			already := slices.ContainsFunc(set, func(k *machine.Joint) bool { return k != j && k.State == machine.Closed })
			hidden = hidden && slices.ContainsFunc(set, shut)
			touches = touches || !already && slices.Contains(set, j)
		}
		if hidden && touches {
			return c
		}
	}
	return nil
}

// However a person chooses among what is offered, no closing is offered over
// an open check, every offered closing may be recorded, and the work comes to
// an end with nothing left over.
func TestAnyWalkIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := scene(t, 6, 5, true)
		for range 200 {
			m := b.fold()
			v := looks{m}
			p := Make(m, v)
			for _, s := range p.Free {
				if s.Act != Close {
					continue
				}
				if c := overOpen(m, v, s.Joint); c != nil {
					t.Fatalf("%s is offered over open check %s\n%s\n%s", s.ID, c.ID, b, dump(p))
				}
				if holds := MayClose(m, v, s.Joint, true); len(holds) > 0 {
					t.Fatalf("%s is offered but held: %s\n%s\n%s", s.ID, holds[0].Why, b, dump(p))
				}
			}
			if p.todo == 0 {
				return
			}
			if len(p.Contradictions) > 0 {
				for _, c := range p.Contradictions {
					for _, s := range c.Steps {
						if slices.Contains(p.Free, s) {
							t.Fatalf("%s is offered within a contradiction", s.ID)
						}
					}
				}
				return
			}
			if len(p.Free) == 0 {
				t.Fatalf("nothing is free; to do: %v", ids(p.Order))
			}
			b.do(p.Free[rapid.IntRange(0, len(p.Free)-1).Draw(t, "choice")])
		}
		t.Fatalf("no end after 200 steps: %v", ids(b.plan().Order))
	})
}

// A muddled record changes nothing about it: what is offered is over no open
// check, is held by nothing, and belongs to no contradiction.
func TestMuddledRecordIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := scene(t, 6, 6, false)
		m := b.fold()
		p := Make(m, looks{m})
		for _, s := range p.Free {
			if s.Act != Close {
				continue
			}
			if c := overOpen(m, looks{m}, s.Joint); c != nil {
				t.Fatalf("%s is offered over open check %s\n%s\n%s", s.ID, c.ID, b, dump(p))
			}
			if holds := MayClose(m, looks{m}, s.Joint, true); len(holds) > 0 {
				t.Fatalf("%s is offered but held: %s\n%s\n%s", s.ID, holds[0].Why, b, dump(p))
			}
			for _, c := range p.Contradictions {
				if slices.Contains(c.Steps, s) {
					t.Fatalf("%s is offered within a contradiction\n%s", s.ID, c.Words)
				}
			}
		}
	})
}

// Against counting by sets: a contradiction is told exactly where no complete
// order exists, and what is offered is exactly what some complete order begins
// with, less the closings that are held as things stand.
func TestFreeIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := scene(t, 4, 3, rapid.Bool().Draw(t, "tidy")).fold()
		p := Make(m, looks{m})
		if p.todo == 0 || p.todo > 15 {
			t.Skip("too many steps to count, or none")
		}
		want := firsts(p)
		if (len(want) == 0) != (len(p.Contradictions) > 0) {
			t.Fatalf("orders exist: %v, contradictions: %d\n%s", len(want) > 0, len(p.Contradictions), dump(p))
		}
		if len(p.Contradictions) > 0 {
			return
		}
		var wanted []string
		for id := range want {
			if s, _ := p.Step(id); s.Act != Close || len(MayClose(m, looks{m}, s.Joint, true)) == 0 {
				wanted = append(wanted, string(id))
			}
		}
		slices.Sort(wanted)
		if got := sortedIDs(p.Free); !slices.Equal(got, wanted) {
			t.Fatalf("free %v\nwant %v\n%s", got, wanted, dump(p))
		}
	})
}

// An independent reading of the rules: the order holds every step that is not
// stuck, once, and obeys every rule that is not within a contradiction.
func TestOrderObeysEveryRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := scene(t, 7, 6, rapid.Bool().Draw(t, "tidy")).plan()
		at := map[StepID]int{}
		for i, s := range p.Order {
			at[s.ID] = i
		}
		if len(at) != len(p.Order) || len(p.Order)+len(p.Stuck) != p.todo {
			t.Fatalf("%d ordered, %d stuck, %d to do", len(p.Order), len(p.Stuck), p.todo)
		}
		if len(p.Contradictions) == 0 && len(p.Stuck) > 0 {
			t.Fatalf("stuck without a contradiction: %v", ids(p.Stuck))
		}
		for _, r := range p.Rules() {
			if err := obeys(at, r); err != "" && len(p.Contradictions) == 0 {
				t.Fatalf("%s\n%s", err, dump(p))
			}
		}
	})
}

func obeys(at map[StepID]int, r Rule) string {
	me, in := at[r.Step]
	if !in {
		return ""
	}
	for _, alt := range r.Any {
		if every(alt, func(id StepID) bool {
			other, in := at[id]
			return in && (r.Dir == After && other < me || r.Dir == Before && other > me)
		}) {
			return ""
		}
	}
	return fmt.Sprintf("%s at %d breaks: %s", r.Step, me, r.Words)
}

// A contradiction is irreducible: its rules alone leave no order, and without
// any one of them there is one. Counted by sets, apart from the chaining.
func TestContradictionIsIrreducible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := scene(t, 4, 3, false).plan()
		if p.todo > 15 {
			t.Skip("too many steps to count")
		}
		for _, c := range p.Contradictions {
			var rules []Rule
			for _, claim := range c.Claims {
				rules = append(rules, claim.Rule)
			}
			if feasible(p, rules) {
				t.Fatalf("no contradiction: %s", c.Words)
			}
			for i, r := range rules {
				if !feasible(p, slices.Delete(slices.Clone(rules), i, i+1)) {
					t.Fatalf("without %q it still is one: %s", r.Words, c.Words)
				}
			}
		}
	})
}

// Between two benches there is no rule, told from the exported rules.
func TestBenchesAreApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := scene(t, 7, 5, true).plan()
		if len(p.Contradictions) > 0 {
			t.Skip("contradiction")
		}
		at := map[StepID]string{}
		for _, b := range p.Benches {
			for _, s := range b.Steps {
				at[s.ID] = b.Label
			}
		}
		for _, s := range p.Steps {
			for _, before := range p.Waits(s.ID) {
				if at[s.ID] != "" && at[before] != at[s.ID] {
					t.Fatalf("%s at bench %s waits for %s at %q", s.ID, at[s.ID], before, at[before])
				}
			}
		}
	})
}

// Entries in any order, the same plan.
func TestOrderOfEntriesChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := scene(t, 6, 5, rapid.Bool().Draw(t, "tidy"))
		want := dump(b.plan())
		mixed := &book{entries: slices.Clone(b.entries)}
		rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed"))).Shuffle(len(mixed.entries), func(i, k int) {
			mixed.entries[i], mixed.entries[k] = mixed.entries[k], mixed.entries[i]
		})
		if got := dump(mixed.plan()); got != want {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
	})
}

// What blocks an opening, against a search through all sets of joints.
func TestBlockedIsShortest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := new(book)
		n := rapid.IntRange(2, 8).Draw(t, "joints")
		for i := range n {
			var alts []string
			for range rapid.IntRange(0, 3).Draw(t, "ways") {
				var set []string
				for range rapid.IntRange(1, 2).Draw(t, "way") {
					if k := rapid.IntRange(0, n-1).Draw(t, "joint"); k != i {
						set = append(set, fmt.Sprintf("j%d", k))
					}
				}
				if len(set) > 0 {
					alts = append(alts, strings.Join(set, " "))
				}
			}
			b.write(joint(fmt.Sprintf("j%d", i), strings.Join(alts, " | ")))
		}
		p := b.plan()
		for i := range n {
			id := OpenID(machine.JointID(fmt.Sprintf("j%d", i)))
			got := p.Blocked(id)
			want := fewestBefore(p, id)
			if want < 0 != got.Never || want >= 0 && (!got.Exact || len(got.Needs) != want) {
				t.Fatalf("%s: %d needs, never %v, exact %v; want %d\n%s", id, len(got.Needs), got.Never, got.Exact, want, dump(p))
			}
		}
	})
}

// fewestBefore walks all sets of opened joints by size; -1 where the step can
// never be done.
func fewestBefore(p *Plan, id StepID) int {
	d := dpOf(p, Open)
	target := slices.Index(d.ids, id)
	reached := make([]bool, 1<<d.n)
	reached[0] = true
	best := -1
	for done := range reached {
		if !reached[done] {
			continue
		}
		for s := range d.n {
			if done&(1<<s) != 0 || !d.may(done, s) {
				continue
			}
			reached[done|1<<s] = true
			if size := len(bitsOf(done)); s == target && (best < 0 || size < best) {
				best = size
			}
		}
	}
	return best
}

func bitsOf(set int) []int {
	var out []int
	for i := 0; set>>i > 0; i++ {
		if set>>i&1 == 1 {
			out = append(out, i)
		}
	}
	return out
}

// dump writes a plan as text.
func dump(p *Plan) string {
	var s strings.Builder
	fmt.Fprintf(&s, "free %v\norder %v\nstuck %v\n", ids(p.Free), ids(p.Order), ids(p.Stuck))
	for _, h := range slices.Concat(p.Held, p.Passed) {
		fmt.Fprintf(&s, "hold %s %.1f %v %s\n", h.Step, h.Hours, h.Due, h.Why)
	}
	for _, br := range p.Breaches {
		fmt.Fprintf(&s, "breach %s\n", br.Why)
	}
	for _, k := range p.Left {
		fmt.Fprintf(&s, "left %s %s\n", k.Joint.ID, k.Why)
	}
	for _, c := range p.Contradictions {
		fmt.Fprintf(&s, "contradiction %s %s %v\n", c.Words, c.Ask, ids(c.Steps))
	}
	for _, b := range p.Benches {
		fmt.Fprintf(&s, "bench %s %s %v\n", b.Label, b.Assembly, ids(b.Steps))
	}
	for _, r := range p.Rules() {
		fmt.Fprintf(&s, "rule %s %s %v %s %s\n", r.Step, r.Dir, r.Any, r.Certainty, r.Words)
	}
	for _, st := range p.Steps {
		fmt.Fprintf(&s, "step %s %v %q %s %.2f\n", st.ID, st.Done, st.Name, st.Bench, st.Hours)
	}
	return s.String()
}

// verdicts by hand.
type verdicts map[machine.CheckID]judge.Verdict

func (v verdicts) Of(id machine.CheckID) *judge.Finding {
	if w, ok := v[id]; ok {
		return &judge.Finding{Verdict: w}
	}
	return nil
}
