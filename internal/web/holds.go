package web

import (
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// heldJoints are the joints that an open check keeps from being closed.
func heldJoints(v *bench.View) map[machine.JointID]bool {
	out := map[machine.JointID]bool{}
	for _, h := range v.Plan().Held {
		out[h.Joint.ID] = true
	}
	return out
}

// dueJoints are those of them that nothing but checks stands before: a person
// might close them now.
func dueJoints(v *bench.View) map[machine.JointID]bool {
	out := map[machine.JointID]bool{}
	for _, h := range v.Plan().Held {
		if h.Due {
			out[h.Joint.ID] = true
		}
	}
	return out
}

// holdsOf lists what forbids closing a joint now.
func holdsOf(v *bench.View, base string, j *machine.Joint, final bool) []holdRow {
	var out []holdRow
	for _, h := range v.MayClose(j, final) {
		out = append(out, holdOf(base, h))
	}
	return out
}

func holdOf(base string, h sequence.Hold) holdRow {
	row := holdRow{Joint: string(h.Joint.ID), Name: "Do not close " + spelling.Inside(h.Joint.Name), Why: spelling.Head(h.Why) + ".", Cost: reopenWords(h), Life: h.Life}
	row.Why = strings.ReplaceAll(row.Why, "..", ".")
	if h.Check != nil {
		row.Check, row.CheckID = h.Check.Name, string(h.Check.ID)
		for _, l := range measureLinks(base, h.Check) {
			if l.Name == "Measure" || l.Name == "Look" {
				l.Name += ": " + spelling.Inside(plainName(h.Check.Name, h.Check.Place))
			}
			row.Clear = append(row.Clear, l)
		}
	}
	if h.First != nil {
		row.Clear = []link{{"To " + spelling.Inside(h.First.Name), jointAddress(base, h.First.ID)}}
	}
	return row
}

// reopenWords is what it would cost to reach the joint again later.
func reopenWords(h sequence.Hold) string {
	if len(h.Reopen) == 0 {
		return ""
	}
	words := "To reach it again later, " + plural(len(h.Reopen), "joint comes", "joints come") + " apart"
	if h.Hours > 0 {
		words += ", about " + hoursWords(h.Hours)
	}
	return words + "."
}

// stepAddress is where a step is done.
func stepAddress(base string, s *sequence.Step) string {
	switch s.Act {
	case sequence.Open, sequence.Undo:
		return base + "/photo?joint=" + string(s.Joint.ID)
	case sequence.Close, sequence.Trial:
		return closeAddress(base, s.Joint.ID)
	case sequence.Check:
		return measureLinks(base, s.Check)[0].At
	case sequence.Clean:
		return partAddress(base, s.Part.ID) + "#clean"
	case sequence.Rework:
		return base + "/fits#fit-" + string(s.Check.ID)
	case sequence.Collect:
		return base + "/trays#away"
	}
	return base + "/prove"
}

// dependents lists, for each step still to be done, the steps that come
// directly after it.
func dependents(p *sequence.Plan) map[sequence.StepID][]sequence.StepID {
	out := map[sequence.StepID][]sequence.StepID{}
	for _, s := range p.Order {
		for _, id := range p.Waits(s.ID) {
			out[id] = append(out[id], s.ID)
		}
	}
	return out
}
