package closing

import (
	"fmt"

	"matchmark/internal/machine"
)

// Found is a torque that the joint came undone at.
type Found struct {
	machine.Stamp
	NM        float64
	Typed     string
	What      string  // what was written with it
	Low, High float64 // what it says was on it, N·m
	Say       string
}

// Torque to just move a bolt over the torque it had, where it is not rusted.
// Source: common practice, no source.
const (
	movesLow  = 0.8
	movesHigh = 1.1
)

// foundOf lists the torques read when a joint was undone, at the opening and as
// evidence before it.
func foundOf(j *machine.Joint) []Found {
	var out []Found
	add := func(s machine.Stamp, a *machine.Amount, what string) {
		if a == nil || a.Unit != "N·m" || !(a.Value > 0) {
			return
		}
		f := Found{Stamp: s, NM: a.Value, Typed: a.Typed, What: what, Low: a.Value / movesHigh, High: a.Value / movesLow}
		f.Say = fmt.Sprintf("Came undone at %s N·m%s: it had about %s to %s, if it was not rusted (common practice, no source).", nm(f.NM), when(s), nm(f.Low), nm(f.High))
		out = append(out, f)
	}
	for _, e := range j.Evidence {
		add(e.Stamp, e.Value, e.What)
	}
	for _, r := range j.Removals {
		add(r.Stamp, r.Breakaway, "")
	}
	return out
}

// weigh holds what was found on a joint against what is worked out for it, so
// that a range far below what the joint was built with does not pass unseen.
// Empty where there is nothing to hold against.
func weigh(found []Found, sets []Tightening) string {
	list := ranges(sets)
	if len(found) == 0 || len(list) == 0 {
		return ""
	}
	low, high := found[0].Low, found[0].High
	for _, f := range found {
		low, high = min(low, f.Low), max(high, f.High)
	}
	had := fmt.Sprintf("It had %s to %s N·m when it came undone.", nm(low), nm(high))
	top := list[len(list)-1]
	switch {
	case low > top.most():
		return fmt.Sprintf("%s That is more than class %s is sure to stand (%s): the bolts are stronger, or rubbed more. Find the class before you choose; the joint may want more clamp than the ranges here give.", had, top.Class, floored(top.most()))
	case high < list[0].LowNM:
		return fmt.Sprintf("%s That is less than any range here: it had slackened, or it is meant to be lighter.", had)
	}
	for _, q := range list {
		if low <= q.most() && high >= q.LowNM {
			return fmt.Sprintf("%s That agrees with class %s.", had, q.Class)
		}
	}
	return had + " That lies between the classes here."
}

// Paper is the torque of a joint as it was read somewhere.
type Paper struct {
	NM     float64
	Typed  string
	From   machine.Provenance
	Source string
	Rules  bool     // it comes before what is worked out here
	Warn   []string // where it is more than a bolt or thread stands
	Say    string
}

// PaperDatum is the id of the datum that holds the torque of a joint as read in
// a paper: "torque-head-block" for all joints of the type, "torque-main-cap.2"
// for one.
func PaperDatum(id machine.JointID) string { return "torque-" + string(id) }

// paperOf looks a joint's torque up among the data, the joint's own before
// that of its type, and holds it against what its fasteners stand.
func (d *Desk) paperOf(j *machine.Joint, sets []Tightening) *Paper {
	datum := d.m.Datum(PaperDatum(j.ID))
	if datum == nil || datum.Value == nil {
		datum = d.m.Datum(PaperDatum(j.Type))
	}
	if datum == nil || datum.Value == nil || datum.Unit != "N·m" || !(*datum.Value > 0) {
		return nil
	}
	p := &Paper{NM: *datum.Value, Typed: datum.Typed, From: datum.From, Source: datum.Source, Rules: datum.From == machine.Paperwork}
	p.Say = fmt.Sprintf("%s N·m, %s%s.", nm(p.NM), p.From, behind(", ", p.Source))
	for _, t := range ranges(sets) {
		if p.NM > t.most() {
			p.Warn = append(p.Warn, fmt.Sprintf("More than class %s is sure to stand (%s N·m): read the head again before going there.", t.Class, floored(t.most())))
		}
	}
	return p
}
