package machine

import (
	"iter"
	"slices"
)

// declared is a machine as the declaring facts of a log have it, before
// anything was done to it. It is not changed once it is made.
type declared struct {
	facts []Entry // in the order in which they speak
	m     *Machine
	kinds
}

// declaring gives the speaking entries that say what the machine consists of.
func (s *sequence) declaring(speaks []bool) iter.Seq[*Entry] {
	return func(yield func(*Entry) bool) {
		for n := range speaks {
			if i := s.next(n); speaks[i] && declares(s.entries[i].Body) && !yield(&s.entries[i]) {
				return
			}
		}
	}
}

// by tells whether d was made from these facts.
func (d *declared) by(facts iter.Seq[*Entry]) bool {
	n := 0
	for e := range facts {
		if n == len(d.facts) || d.facts[n] != *e {
			return false
		}
		n++
	}
	return n == len(d.facts)
}

// declare builds the machine that the facts declare. It depends on nothing
// else.
func declare(from iter.Seq[*Entry]) *declared {
	var facts []Entry
	for e := range from {
		facts = append(facts, *e)
	}
	f := &folder{m: &Machine{index: newIndex()},
		kinds: kinds{map[PartID]kin[*Part]{}, map[JointID]kin[*Joint]{}, map[CheckID]kin[*Check]{}}}
	f.structure(facts)
	return &declared{facts: facts, m: f.m, kinds: f.kinds}
}

// copy gives the machine anew, for a history of its own. The things that bench
// facts change are copied, with all that points at them; lists that bench facts
// may add to have no room left, so that adding moves them. All else is shared.
func (d *declared) copy() *Machine {
	m := *d.m
	m.Parts, m.Features, m.Joints, m.Checks, m.Tests = clones(m.Parts), clones(m.Features), clones(m.Joints), clones(m.Checks), clones(m.Tests)
	parts, features, joints, checks := twins[*Part]{all: m.Parts}, twins[*Feature]{all: m.Features}, twins[*Joint]{all: m.Joints}, twins[*Check]{all: m.Checks}
	for _, p := range m.Parts {
		p.Features, p.Joints = features.of(p.Features), joints.of(p.Joints)
	}
	for _, ft := range m.Features {
		ft.Part = parts.one(ft.Part)
	}
	for _, j := range m.Joints {
		j.Parts, j.Checks, j.Reach = parts.of(j.Parts), checks.of(j.Checks), slices.Clip(j.Reach)
		j.Plan.Into = parts.one(j.Plan.Into)
	}
	for _, c := range m.Checks {
		c.Joints, c.Parts, c.Limits = joints.of(c.Joints), parts.of(c.Parts), slices.Clip(c.Limits)
		c.Outer, c.Inner = features.one(c.Outer), features.one(c.Inner)
		c.Terms, c.HiddenBy = slices.Clone(c.Terms), slices.Clone(c.HiddenBy)
		for i := range c.Terms {
			c.Terms[i].Feature = features.one(c.Terms[i].Feature)
		}
		for i, set := range c.HiddenBy {
			c.HiddenBy[i] = joints.of(set)
		}
	}
	return &m
}

// clones copies things into one block of memory.
func clones[T any](list []*T) []*T {
	block, out := make([]T, len(list)), make([]*T, len(list))
	for i, x := range list {
		block[i] = *x
		out[i] = &block[i]
	}
	return out
}

// twins finds the copies of things by their number.
type twins[T interface {
	comparable
	Number() int
}] struct {
	all  []T
	room []T // for the next lists
}

// one is the copy of x, nil of nil.
func (t *twins[T]) one(x T) T {
	var none T
	if x == none {
		return none
	}
	return t.all[x.Number()]
}

// of are the copies of a list, in a list without room for more.
func (t *twins[T]) of(list []T) []T {
	n := len(list)
	if n == 0 {
		return nil
	}
	if len(t.room) < n {
		t.room = make([]T, max(n, 512))
	}
	out := t.room[:n:n]
	t.room = t.room[n:]
	for i, x := range list {
		out[i] = t.all[x.Number()]
	}
	return out
}
