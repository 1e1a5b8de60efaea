package machine

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// TestAgainIsFold: a log folded on from any part of it, and on from there,
// gives what folding the whole gives, and leaves the earlier machines as they
// were.
func TestAgainIsFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := anyLog(t)
		var before *Machine
		for _, n := range []int{rapid.IntRange(0, len(log)).Draw(t, "first"), rapid.IntRange(0, len(log)).Draw(t, "then"), len(log)} {
			was := ""
			if before != nil {
				was = dump(before)
			}
			got, want := Again(log[:n], before), dump(Fold(log[:n]))
			if diff := cmp.Diff(want, dump(got)); diff != "" {
				t.Fatalf("%d entries (-Fold +Again):\n%s", n, diff)
			}
			if before != nil && dump(before) != was {
				t.Fatalf("the machine before was changed:\n%s", cmp.Diff(was, dump(before)))
			}
			knowsItsOwn(t, got)
			before = got
		}
	})
}

// TestAgainCopies: bench facts alone lead to a copy, a declaring fact does not.
func TestAgainCopies(t *testing.T) {
	b := engine()
	first := Again(b.entries, nil)
	b.say(&JointOpened{Joint: "cover-bolts", Tray: "1", Off: []PartID{"cover"}})
	second := Again(b.entries, first)
	if second.base != first.base {
		t.Error("an opening changed what is declared")
	}
	if second.Joint("cover-bolts").State != Open || first.Joint("cover-bolts").State != AsMade {
		t.Error("the opening is not where it belongs")
	}
	b.say(&DatumSet{Datum{ID: "system-volts", Unit: "V"}})
	if third := Again(b.entries, second); third.base == second.base || third.Datum("system-volts") == nil {
		t.Error("a new figure of the machine is not declared")
	}
}

// knowsItsOwn asserts that whatever a machine points at is of that machine.
func knowsItsOwn(t *rapid.T, m *Machine) {
	t.Helper()
	part := func(where string, list ...*Part) {
		for _, p := range list {
			if p != nil && m.Part(p.ID) != p {
				t.Fatalf("%s: part %s is of another machine", where, p.ID)
			}
		}
	}
	feature := func(where string, list ...*Feature) {
		for _, ft := range list {
			if ft != nil && m.Feature(ft.ID) != ft {
				t.Fatalf("%s: feature %s is of another machine", where, ft.ID)
			}
		}
	}
	joint := func(where string, list ...*Joint) {
		for _, j := range list {
			if m.Joint(j.ID) != j {
				t.Fatalf("%s: joint %s is of another machine", where, j.ID)
			}
		}
	}
	for _, p := range m.Parts {
		feature("part", p.Features...)
		joint("part", p.Joints...)
	}
	for _, ft := range m.Features {
		part("feature", ft.Part)
	}
	for _, j := range m.Joints {
		part("joint", append(j.Parts, j.Plan.Into)...)
		for _, c := range j.Checks {
			if m.Check(c.ID) != c {
				t.Fatalf("joint %s: check %s is of another machine", j.ID, c.ID)
			}
		}
	}
	for _, c := range m.Checks {
		part("check", c.Parts...)
		joint("check", c.Joints...)
		feature("check", c.Surfaces()...)
		for _, set := range c.HiddenBy {
			joint("hiding", set...)
		}
	}
}
