package sequence

import (
	"slices"

	"matchmark/internal/machine"
)

// listJoints gives every joint its steps.
func (d *draft) listJoints() {
	for _, j := range d.m.Joints {
		r := nothing
		opens := j.State == machine.AsMade && !d.kept[j.Number()] || j.State == machine.Closed && d.reopened[j.Number()]
		base := Step{Assembly: j.Assembly, Joint: j, Hazards: hazards(j.Hazards, j.Parts)}
		if opens {
			r.open = d.addJoint(base, Open, d.hours.open(j), false)
		} else if j.Opened > 0 {
			d.addJoint(base, Open, d.hours.open(j), true)
		}
		if isTrial(j) {
			r.undo = d.addJoint(base, Undo, d.hours.open(j), false)
		}
		if opens || !isShut(j) {
			if d.needsTrial(j) {
				r.trial = d.addJoint(base, Trial, d.hours.close(j), false)
			}
			r.close = d.addJoint(base, Close, d.hours.close(j), false)
		} else if j.Made > 0 {
			d.addJoint(base, Close, d.hours.close(j), true)
		}
		d.roles[j.Number()] = r
	}
}

func (d *draft) addJoint(s Step, act Act, hours float64, done bool) int {
	s.ID, s.Act, s.Hours, s.Done = stepID(act, string(s.Joint.ID)), act, hours, done
	s.Name = jointWords(act, s.Joint)
	return d.add(s)
}

// needsTrial tells whether a joint is still to be closed dry: while a check
// read on its dry build is open and not passed, or, where it has no such check,
// until it was on trial once in this round. A joint on trial needs it again
// only where the dry build has to come apart for a rework first.
func (d *draft) needsTrial(j *machine.Joint) bool {
	dry := false
	for _, c := range j.Checks {
		s := &d.checks[c.Number()]
		if !s.dry {
			continue
		}
		dry = true
		if s.open() && passed(j, c) == nil && (!isTrial(j) || d.reworkedApart(c)) {
			return true
		}
	}
	return !dry && j.Dry && !isTrial(j) && !triedOnce(j)
}

// reworkedApart tells whether a rework pending for a check needs its joints
// apart.
func (d *draft) reworkedApart(c *machine.Check) bool {
	return slices.ContainsFunc(d.checks[c.Number()].rework, func(n int) bool { return len(d.jobs[n].parts) > 0 })
}

// triedOnce tells whether the joint was on trial in its present round.
func triedOnce(j *machine.Joint) bool {
	since := roundBegan(j)
	return slices.ContainsFunc(j.Closings, func(c machine.Closing) bool {
		return c.As == machine.Trial && c.At.After(since)
	})
}

// hazards joins the hazards of a thing and of its parts, each once.
func hazards(own []string, parts []*machine.Part) []string {
	out := slices.Clone(own)
	for _, p := range parts {
		for _, h := range p.Hazards {
			if !slices.Contains(out, h) {
				out = append(out, h)
			}
		}
	}
	return out
}
