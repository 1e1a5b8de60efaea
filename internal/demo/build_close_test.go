package demo_test

import (
	"slices"
	"strings"
	"testing"

	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

// closeSome records as many of the free closings as do not bear on one another,
// and asserts each in its turn.
func (w *walk) closeSome(steps []*sequence.Step) {
	w.t.Helper()
	b := newBuild(w.view.Machine, w.view.Judged())
	taken := map[any]bool{}
	var bodies []machine.Body
	for _, s := range steps {
		bears := b.bearsOn(s.Joint)
		if slices.ContainsFunc(bears, func(x any) bool { return taken[x] }) {
			continue
		}
		for _, x := range bears {
			taken[x] = true
		}
		for _, fault := range b.shut(s.Joint) {
			w.t.Errorf("round %d: %s", w.rounds, fault)
		}
		w.closings++
		bodies = append(bodies, closing(s.Joint))
	}
	w.record(bodies...)
}

// TestTheAssertionBites: the demo as it lies has closings that would hide
// something open, and the assertion says so.
func TestTheAssertionBites(t *testing.T) {
	m := machine.Fold(entries(t))
	for id, want := range map[machine.JointID]string{"head-gasket-joint": "Head face flatness", "piston-bore.2": "Bore wear, cylinder 2",
		"gb-top-fit": "First and second fork on its rail, which is open"} {
		b := newBuild(m, judge.All(m))
		if faults := strings.Join(b.shut(m.Joint(id)), "; "); !strings.Contains(faults, want) {
			t.Errorf("closing %s: %q, want it to name %q", id, faults, want)
		}
	}
}

// closing puts back what came out: a broken or missing piece as a new one.
func closing(j *machine.Joint) machine.Body {
	b := &machine.JointClosed{Joint: j.ID, As: machine.Final}
	for _, r := range slices.Backward(j.Removals) {
		if b.Fasteners == nil {
			for _, f := range r.Fasteners {
				f.State = ""
				b.Fasteners = append(b.Fasteners, f)
			}
		}
		if b.Shims == nil {
			b.Shims = r.Shims
		}
	}
	return b
}

// build is the machine as it goes together, kept here by the plain words of the
// model and without the planner: which joints are shut, and which checks are
// open.
type build struct {
	m      *machine.Machine
	v      judge.Findings
	isShut map[*machine.Joint]bool
	waits  map[*machine.Joint][]*machine.Joint // whose way in it is
}

func newBuild(m *machine.Machine, v judge.Findings) *build {
	b := &build{m: m, v: v, isShut: map[*machine.Joint]bool{}, waits: map[*machine.Joint][]*machine.Joint{}}
	for _, j := range m.Joints {
		b.isShut[j] = j.State == machine.Closed || j.State == machine.AsMade
		for _, r := range j.Reach {
			for _, set := range r.Any {
				for _, id := range set {
					b.waits[m.Joint(id)] = append(b.waits[m.Joint(id)], j)
				}
			}
		}
	}
	return b
}

// bearsOn lists the checks that a closing helps to hide and the joints whose
// way in it is.
func (b *build) bearsOn(j *machine.Joint) (out []any) {
	for _, c := range b.m.Checks {
		if b.hides(c, j) {
			out = append(out, c)
		}
	}
	for _, k := range b.waits[j] {
		if !b.isShut[k] {
			out = append(out, k)
		}
	}
	return append(out, j)
}

// hides tells whether a joint has a part in hiding a check.
func (b *build) hides(c *machine.Check, j *machine.Joint) bool {
	if c.When == machine.Apart && slices.Contains(c.Joints, j) {
		return true
	}
	return slices.ContainsFunc(c.HiddenBy, func(set []*machine.Joint) bool { return slices.Contains(set, j) })
}

// hidden tells whether a check can no longer be made: of one made apart, a
// joint of its own is shut, or everything that hides it; of another, everything
// that hides it.
func (b *build) hidden(c *machine.Check) bool {
	shutIn := func(set []*machine.Joint) bool {
		return slices.ContainsFunc(set, func(j *machine.Joint) bool { return b.isShut[j] })
	}
	if c.When == machine.Apart && shutIn(c.Joints) {
		return true
	}
	if c.When == machine.Running || len(c.HiddenBy) == 0 {
		return false
	}
	for _, set := range c.HiddenBy {
		if !shutIn(set) {
			return false
		}
	}
	return true
}

// shut closes a joint and says what was wrong with that: a check that it hid
// and that is open, or a joint beneath that can no longer be come at.
func (b *build) shut(j *machine.Joint) (faults []string) {
	var before []*machine.Check
	for _, c := range b.m.Checks {
		if b.hides(c, j) && !b.hidden(c) {
			before = append(before, c)
		}
	}
	b.isShut[j] = true
	for _, c := range before {
		f := b.v.Of(c.ID)
		passed := slices.ContainsFunc(j.Passed, func(p machine.Passed) bool { return p.Check == c.ID })
		if b.hidden(c) && f.Verdict.Open() && !passed {
			faults = append(faults, "closing "+j.Name+" hid "+c.Name+", which is "+string(f.Verdict))
		}
	}
	for _, k := range b.waits[j] {
		if !b.isShut[k] && !k.OneWay && !b.wayIn(k) {
			faults = append(faults, "closing "+j.Name+" took the last way in to "+k.Name+", which is open")
		}
	}
	return faults
}

// wayIn tells whether an open joint can still be worked on.
func (b *build) wayIn(k *machine.Joint) bool {
	for _, r := range k.Reach {
		if !slices.ContainsFunc(r.Any, func(set []machine.JointID) bool {
			return !slices.ContainsFunc(set, func(id machine.JointID) bool { return b.isShut[b.m.Joint(id)] && b.m.Joint(id).Left == "" })
		}) {
			return false
		}
	}
	return true
}
