package sequence

import (
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// listChecks settles which joints stay closed and how each check stands. A
// check over which its own joint was closed, but which something still open is
// yet to hide, wants that joint apart again; since that may bring other joints
// within reach, it goes round until nothing changes.
func (d *draft) listChecks() {
	for again := true; again; {
		again = false
		clear(d.kept)
		d.left = nil
		d.keepShut()
		for _, c := range d.m.Checks {
			s := &d.checks[c.Number()]
			s.moot, s.shut = d.outOfReach(c)
			s.accepted = s.shut && d.letThrough(c)
			if s.shut && s.open() && !s.accepted && d.stillToHide(c) {
				d.reopen(closedJoints(c))
				again = true
			}
		}
	}
}

// letThrough tells whether every closing over the check was passed by hand.
func (d *draft) letThrough(c *machine.Check) bool {
	some := false
	for _, j := range d.checks[c.Number()].own {
		if d.closedOver(j) {
			if passed(j, c) == nil {
				return false
			}
			some = true
		}
	}
	return some
}

// stillToHide tells whether a check closed in by its own joint has hiding
// joints that still stand open.
func (d *draft) stillToHide(c *machine.Check) bool {
	own, sets := d.checks[c.Number()].own, d.checks[c.Number()].sets
	return slices.ContainsFunc(own, d.closedOver) && slices.ContainsFunc(d.standing(sets), func(set []*machine.Joint) bool {
		return !every(set, func(j *machine.Joint) bool { return slices.Contains(own, j) })
	})
}

// outOfReach tells whether a check is moot, since nothing of it was ever
// opened, or shut away, since its ways in or what hides it were closed for
// good. A check of a part that names what hides it is shut away by that alone.
func (d *draft) outOfReach(c *machine.Check) (moot, shut bool) {
	sets := d.checks[c.Number()].beside
	switch {
	case c.When == machine.Running:
		return false, false
	case c.When == machine.Apart || isDry(c):
		if len(c.Joints) > 0 || len(c.HiddenBy) == 0 {
			ways := jointsOf(c)
			moot = len(ways) > 0 && every(ways, func(j *machine.Joint) bool { return d.kept[j.Number()] })
			return moot, !moot && len(ways) > 0 && every(ways, d.shutForGood)
		}
		sets = c.HiddenBy
	}
	if len(sets) == 0 || !every(sets, func(set []*machine.Joint) bool { return slices.ContainsFunc(set, d.shutForGood) }) {
		return false, false
	}
	shut = slices.ContainsFunc(sets, func(set []*machine.Joint) bool { return slices.ContainsFunc(set, d.closedOver) })
	moot = !shut && every(c.Joints, func(j *machine.Joint) bool { return d.kept[j.Number()] })
	return moot, shut
}

func every[T any](list []T, is func(T) bool) bool {
	return !slices.ContainsFunc(list, func(x T) bool { return !is(x) })
}

// stepChecks gives a step to every check that can still be made or settled.
func (d *draft) stepChecks() {
	for _, c := range d.m.Checks {
		s := &d.checks[c.Number()]
		if s.moot || s.shut && s.open() {
			continue
		}
		s.step = d.add(Step{ID: CheckID(c.ID), Act: Check, Name: checkWords(c, s), Assembly: c.Assembly, Check: c,
			Hours: d.hours.check(c), Hazards: hazards(c.Hazards, partsOf(c)), Done: !s.open()})
	}
}

// checkWords say what is to be done about a check that is not sound.
func checkWords(c *machine.Check, s *standing) string {
	name := spelling.Inside(c.Name)
	switch {
	case len(s.rework) > 0:
		return "Check " + name + " after the rework"
	case s.stale:
		return "Check " + name + " again: it was read before the joint came apart"
	case s.verdict == judge.Worn:
		return "Decide what is done: " + name + " is worn"
	case s.verdict == judge.Doubtful:
		return "Measure " + name + " again: doubtful"
	case s.verdict == judge.NoLimit:
		return "Give a limit for " + name
	}
	return "Check " + name
}

// rulesOfCheck writes when a check can be made and what it must come before.
func (d *draft) rulesOfCheck(c *machine.Check) {
	s := &d.checks[c.Number()]
	if s.step < 0 || c.When == machine.Running {
		return
	}
	if c.When == machine.Apart {
		d.checkApart(c, s)
	} else {
		d.checkMade(c, s)
	}
	d.words++
	d.checkInSight(c, s)
	d.checkHidden(c, s)
}

// checkApart: after some way in, before its own joints close; an unread one
// before their trial too.
func (d *draft) checkApart(c *machine.Check, s *standing) {
	var ways [][]int
	for _, j := range jointsOf(c) {
		if n, ok := d.wayIn(j); ok {
			ways = append(ways, []int{n})
		}
	}
	d.after(s.step, ways, process("it is checked apart"))
	if !s.unread() {
		return
	}
	for _, j := range s.own {
		if t := d.roleOf(j).trial; t >= 0 && passed(j, c) == nil {
			d.before(s.step, [][]int{{t}}, process("it is read apart, before a dry build"))
		}
	}
}

// checkMade: after its own joints are closed, or on trial where it is read on
// the dry build.
func (d *draft) checkMade(c *machine.Check, s *standing) {
	all := []int{}
	for _, j := range c.Joints {
		r := d.roleOf(j)
		if s.dry {
			all = append(all, r.trial)
		} else {
			all = append(all, r.close)
		}
	}
	note := "it is checked once closed"
	if s.dry {
		note = "it is read on the dry build"
	}
	d.after(s.step, [][]int{all}, process(note))
}

// checkInSight: what hides the check now must be apart while it is made, all
// of some set. Sets that stay closed do not count; where none is left the
// check evidently can be seen.
func (d *draft) checkInSight(c *machine.Check, s *standing) {
	sets := c.HiddenBy
	if c.When == machine.Made {
		sets = s.beside
		if len(sets) < len(c.HiddenBy) {
			return
		}
	}
	d.after(s.step, d.allApart(sets), reason{word: d.words, evidence: machine.Hides, certainty: Assumed, stamp: c.Stamp, note: "it cannot be seen before"})
}

// checkHidden: before each closing of its own, and before all of some set that
// hides it. Where a hold was passed by hand that closing is let through.
func (d *draft) checkHidden(c *machine.Check, s *standing) {
	var direct []int
	for _, j := range s.own {
		if n := d.roleOf(j).close; n >= 0 && passed(j, c) == nil {
			direct = append(direct, n)
		}
	}
	if len(direct) > 0 {
		d.before(s.step, [][]int{direct}, process("it can no longer be made once that is closed"))
	}
	var alts [][]int
	for _, set := range d.standing(s.sets) {
		alt := []int{}
		for _, k := range set {
			if passed(k, c) == nil {
				alt = append(alt, d.roleOf(k).close)
			}
		}
		alts = append(alts, alt)
	}
	d.before(s.step, alts, reason{word: d.words, evidence: machine.Hides, certainty: Assumed, stamp: c.Stamp, note: "it is hidden once that is closed"})
}
