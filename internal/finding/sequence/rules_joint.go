package sequence

import (
	"slices"

	"matchmark/internal/machine"
)

// rulesOfJoint writes what must be apart before a joint can be worked on, and
// the same turned round for building back.
func (d *draft) rulesOfJoint(j *machine.Joint) {
	r := d.roleOf(j)
	d.after(r.trial, [][]int{{r.open, r.undo}}, process("it is apart before it is closed"))
	d.after(r.close, [][]int{{r.open, r.undo, r.trial}}, process("it is apart before it is closed for good"))
	for i, reach := range j.Reach {
		d.words++
		any := d.ways[j.Number()][i]
		if r.open >= 0 {
			d.reachOpening(r.open, any, d.reachReason(reach), j)
		}
		d.reachUndoing(r, any, d.reachReason(reach))
		d.reachClosing(j, r, any, reach)
	}
}

// reachOpening: opening waits for all of some alternative.
func (d *draft) reachOpening(open int, any [][]*machine.Joint, why reason, j *machine.Joint) {
	alts := d.allApart(any)
	if len(alts) == 0 && len(any) > 0 {
		if over := d.buriedUnder(j, func(k *machine.Joint) bool { _, ok := d.wayIn(k); return !ok }); over != nil {
			why.note = over.Name + " stays closed"
		}
		d.never(open, why)
		return
	}
	d.after(open, alts, why)
}

// reachUndoing: what lies on trial over a joint comes apart before the joint
// is worked on. Joints closed for good over it are told as breaches.
func (d *draft) reachUndoing(r role, any [][]*machine.Joint, why reason) {
	var alts [][]int
	for _, set := range d.standing(any) {
		alt := []int{}
		for _, k := range set {
			switch {
			case isTrial(k):
				alt = append(alt, d.roleOf(k).undo)
			case k.State == machine.Closed:
				alt = append(alt, d.roleOf(k).open)
			}
		}
		alts = append(alts, alt)
	}
	for _, step := range []int{r.undo, r.trial, r.close} {
		d.after(step, alts, why)
	}
}

// reachClosing: a joint closes before the closing that would take away its
// last way in. Ways already closed off are lost; where all are, there is
// nothing left to order and the breach is told elsewhere.
func (d *draft) reachClosing(j *machine.Joint, r role, any [][]*machine.Joint, reach machine.Reach) {
	if r.close < 0 {
		return
	}
	why := d.closingReason(j, any, reach)
	var closes, trials [][]int
	for _, set := range d.standing(any) {
		set = d.yielding(j, set, why.certainty)
		closes = append(closes, d.toClose(set))
		alt := []int{}
		for _, k := range set {
			alt = append(alt, d.roleOf(k).trial)
		}
		trials = append(trials, alt)
	}
	d.before(r.close, closes, why)
	why.note = "the dry build goes together in the same order"
	d.before(r.trial, trials, why)
}

// closingReason is the reason for the reverse of a reach, which need not hold
// for joints that close otherwise than they open, nor where the record itself
// speaks against the kit.
func (d *draft) closingReason(j *machine.Joint, any [][]*machine.Joint, reach machine.Reach) reason {
	why := d.reachReason(reach)
	switch {
	case j.OneWay:
		why.certainty = Unknown
		why.note = "closing it is no reversal of opening it, so this order need not hold"
	case reach.Evidence == machine.Geometry && refuted(j, any):
		why.certainty = Unknown
		why.note = "the record has it apart while that was still closed"
	}
	return why
}

// yielding leaves out the joints that were stated to close before j, where the
// order would only be an uncertain reversal: a person's word is better.
func (d *draft) yielding(j *machine.Joint, set []*machine.Joint, c Certainty) []*machine.Joint {
	if c != Unknown {
		return set
	}
	return slices.DeleteFunc(slices.Clone(set), func(k *machine.Joint) bool {
		return slices.ContainsFunc(d.m.Stated, func(s machine.Stated) bool {
			return s.First == k.ID && s.Then == j.ID
		})
	})
}

// refuted tells whether the record itself has the joint apart before any way
// in was: each alternative has a joint that first came apart later or never.
func refuted(j *machine.Joint, any [][]*machine.Joint) bool {
	if len(j.Removals) == 0 {
		return false
	}
	at := j.Removals[0].At
	for _, set := range any {
		if !slices.ContainsFunc(set, func(k *machine.Joint) bool {
			return len(k.Removals) == 0 || k.Removals[0].At.After(at)
		}) {
			return false
		}
	}
	return true
}

// rulesStated: the user's word that one joint closes before another.
func (d *draft) rulesStated() {
	for _, s := range d.m.Stated {
		first, then := d.m.Joint(s.First), d.m.Joint(s.Then)
		if first == nil || then == nil {
			continue
		}
		d.words++
		why := reason{word: d.words, evidence: machine.SaidSo, certainty: Proved, stamp: s.Stamp, note: s.Why}
		if to := d.roleOf(then).close; to >= 0 {
			d.before(d.roleOf(first).close, [][]int{{to}}, why)
		}
	}
}

// reachReason: what was seen on this machine is proved, the kit's word is
// assumed.
func (d *draft) reachReason(r machine.Reach) reason {
	why := reason{word: d.words, evidence: r.Evidence, certainty: Proved, stamp: r.Stamp, photo: r.Photo, note: r.Note}
	if r.Evidence == machine.Geometry {
		why.certainty = Assumed
	}
	return why
}
