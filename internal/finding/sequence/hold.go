package sequence

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// Hold is one thing that forbids a closing: an open check that it would hide,
// or a joint that must be closed first. Reopen lists what would have to come
// apart again later to reach the joint, itself first, with the hours to close
// it all again; with several ways in they are near the least, not proved so.
type Hold struct {
	Step    StepID
	Joint   *machine.Joint
	Check   *machine.Check  // nil where First is meant
	First   *machine.Joint  // to be closed before Joint
	Verdict judge.Verdict   // of Check
	Life    bool            // guards life: cannot be passed by hand
	Due     bool            // nothing but checks that can be made now stands before this closing
	Passed  *machine.Passed // by whom and why, where it was let through
	Why     string
	Reopen  []*machine.Joint
	Hours   float64
}

// MayClose tells what forbids closing a joint now; nothing means it may close.
// final false asks about a trial. A final closing is held by each open check
// that it would hide for good and by each open joint or stated order that must
// come first; a trial only by unread checks of the joint that are made apart.
// An order that is merely the reverse of how things came apart (certainty
// unknown) never forbids. A joint that is not open is held by nothing.
// Cost: linear in the machine.
func MayClose(m *machine.Machine, v Verdicts, j *machine.Joint, final bool) []Hold {
	if m == nil || j == nil || isShut(j) {
		return nil
	}
	d := survey(m, v)
	if !final {
		return d.trialHolds(j)
	}
	return append(d.checkHolds(j), d.jointHolds(j)...)
}

// closingHeld tells whether anything forbids closing a joint for good now.
func (d *draft) closingHeld(j *machine.Joint) bool {
	return slices.ContainsFunc(d.hiding(j), func(c *machine.Check) bool { return d.holds(j, c) }) || len(d.jointHolds(j)) > 0
}

// holds tells whether closing the joint for good would hide an open check.
func (d *draft) holds(j *machine.Joint, c *machine.Check) bool {
	s := &d.checks[c.Number()]
	return s.open() && !s.moot && !s.accepted && passed(j, c) == nil && (slices.Contains(s.own, j) || d.completes(s.sets, j))
}

// checkHolds are the open checks that closing the joint for good would hide.
func (d *draft) checkHolds(j *machine.Joint) []Hold {
	var out []Hold
	for _, c := range d.hiding(j) {
		if !d.holds(j, c) {
			continue
		}
		why := "; closing " + spelling.Inside(j.Name) + " would hide it"
		if slices.Contains(d.checks[c.Number()].own, j) {
			why = "; it can no longer be made once " + spelling.Inside(j.Name) + " is closed"
		}
		out = append(out, d.hold(j, c, d.standsAs(c)+why))
	}
	return out
}

// trialHolds are the unread apart checks of the joint itself.
func (d *draft) trialHolds(j *machine.Joint) []Hold {
	var out []Hold
	for _, c := range d.hiding(j) {
		s := &d.checks[c.Number()]
		if c.When == machine.Apart && s.unread() && slices.Contains(s.own, j) && passed(j, c) == nil {
			h := d.hold(j, c, fmt.Sprintf("%s; it is read apart, before a dry build", d.standsAs(c)))
			h.Step = TrialID(j.ID)
			out = append(out, h)
		}
	}
	return out
}

// hiding lists the checks that a closing of the joint has to do with.
func (d *draft) hiding(j *machine.Joint) []*machine.Check {
	if d.hides == nil {
		d.hides = make([][]*machine.Check, len(d.m.Joints))
		note := func(set []*machine.Joint, c *machine.Check) {
			for _, k := range set {
				if list := d.hides[k.Number()]; len(list) == 0 || list[len(list)-1] != c {
					d.hides[k.Number()] = append(list, c)
				}
			}
		}
		for _, c := range d.m.Checks {
			s := &d.checks[c.Number()]
			note(s.own, c)
			for _, set := range s.sets {
				note(set, c)
			}
		}
	}
	return d.hides[j.Number()]
}

// completes tells whether closing j is what would close the last open set:
// every set that still stands open has j in it. It asks so of the sets as they
// will be, with what is yet to be opened counted open, and of the sets as they
// are now.
func (d *draft) completes(sets [][]*machine.Joint, j *machine.Joint) bool {
	var now [][]*machine.Joint
	for _, set := range sets {
		if !slices.ContainsFunc(set, isShut) {
			now = append(now, set)
		}
	}
	last := func(open [][]*machine.Joint) bool {
		return len(open) > 0 && every(open, func(set []*machine.Joint) bool { return slices.Contains(set, j) })
	}
	return last(now) || last(d.standing(sets))
}

// jointHolds are the joints now open that must be closed before j: those whose
// last way in j would take away, and those stated to go first.
func (d *draft) jointHolds(j *machine.Joint) []Hold {
	var out []Hold
	for _, u := range d.below(j) {
		k, any := u.joint, d.ways[u.joint.Number()][u.clause]
		first := len(out) == 0 || out[len(out)-1].First != k
		if isShut(k) || !first || !d.completes(any, j) || d.closingReason(k, any, k.Reach[u.clause]).certainty == Unknown {
			continue
		}
		out = append(out, d.holdFirst(j, k, fmt.Sprintf("%s is still open and is reached only while %s is open; close it first (%s)",
			k.Name, spelling.Inside(j.Name), source(d.reachReason(k.Reach[u.clause])))))
	}
	for _, s := range d.m.Stated {
		if k := d.m.Joint(s.First); s.Then == j.ID && k != nil && !isShut(k) {
			out = append(out, d.holdFirst(j, k, fmt.Sprintf("%s closes first (%s)", k.Name,
				source(reason{evidence: machine.SaidSo, certainty: Proved, stamp: s.Stamp}))))
		}
	}
	return out
}

// under is a joint and the number of a clause of its reach.
type under struct {
	joint  *machine.Joint
	clause int
}

// below lists the clauses that name j as in the way, in the machine's order.
func (d *draft) below(j *machine.Joint) []under {
	if d.unders == nil {
		d.unders = make([][]under, len(d.m.Joints))
		for _, k := range d.m.Joints {
			for i, any := range d.ways[k.Number()] {
				for _, set := range any {
					for _, over := range set {
						list := d.unders[over.Number()]
						if u := (under{k, i}); len(list) == 0 || list[len(list)-1] != u {
							d.unders[over.Number()] = append(list, u)
						}
					}
				}
			}
		}
	}
	return d.unders[j.Number()]
}

func (d *draft) hold(j *machine.Joint, c *machine.Check, why string) Hold {
	h := Hold{Step: CloseID(j.ID), Joint: j, Check: c, Verdict: d.checks[c.Number()].verdict, Life: c.Life || j.Life, Why: why}
	if h.Life {
		h.Why += ". It guards life and cannot be passed by hand"
	}
	h.Reopen, h.Hours = d.reopening(j)
	return h
}

func (d *draft) holdFirst(j, first *machine.Joint, why string) Hold {
	h := Hold{Step: CloseID(j.ID), Joint: j, First: first, Why: why}
	h.Reopen, h.Hours = d.reopening(j)
	return h
}

// standsAs says how an open check stands.
func (d *draft) standsAs(c *machine.Check) string {
	s := &d.checks[c.Number()]
	switch {
	case len(s.rework) > 0:
		return c.Name + " is to be made again after the rework"
	case s.stale:
		return c.Name + " was read before the joint came apart and must be read again"
	case s.verdict == judge.NoLimit:
		return c.Name + " was read, but no limit is known"
	}
	return c.Name + " is " + string(s.verdict)
}

// held lists the holds by checks on every joint that is now apart or on trial,
// the dearest to reopen first, and those that were passed by hand.
func (d *draft) held(due func(close int) bool) (held, passedBy []Hold) {
	for _, j := range d.m.Joints {
		if !isShut(j) {
			for _, h := range d.checkHolds(j) {
				h.Due = due(d.roleOf(j).close)
				held = append(held, h)
			}
		}
		if len(j.Passed) == 0 {
			continue
		}
		for _, c := range d.hiding(j) {
			if p := passed(j, c); p != nil && d.checks[c.Number()].open() && j.State != machine.AsMade {
				h := d.hold(j, c, fmt.Sprintf("%s; passed by %s: %s", d.standsAs(c), p.Initials, strings.TrimSpace(p.Why)))
				h.Passed = p
				passedBy = append(passedBy, h)
			}
		}
	}
	for _, list := range [][]Hold{held, passedBy} {
		slices.SortFunc(list, func(a, b Hold) int {
			return cmp.Or(cmp.Compare(b.Hours, a.Hours), cmp.Compare(a.Joint.ID, b.Joint.ID), cmp.Compare(a.Check.ID, b.Check.ID))
		})
	}
	return held, passedBy
}
