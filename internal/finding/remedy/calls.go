package remedy

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// Proposal is the call that the plan suggests for a part, with its reason. The
// person decides; see machine.Part.Call for what was said.
type Proposal struct {
	Call machine.Call
	Why  string
}

// Calls proposes a call for every part: renewed where a job renews it or it is
// a one-use part that came off; made good where a job reworks a surface of it;
// goes back where every check that names it is sound or made good by work on
// other parts; else not judged, and why.
//
// A check names a part through its parts and its surfaces. Checks made apart
// must all have been made; those made after closing count once they are read.
func Calls(m *machine.Machine, p Plan) map[machine.PartID]Proposal {
	out := make(map[machine.PartID]Proposal, len(m.Parts))
	c := caller{m: m, plan: p, about: map[machine.PartID][]*machine.Check{}}
	for _, check := range m.Checks {
		for _, id := range named(check) {
			c.about[id] = append(c.about[id], check)
		}
	}
	for _, checks := range c.about {
		slices.SortFunc(checks, func(a, b *machine.Check) int { return compareIDs(a.ID, b.ID) })
	}
	for _, part := range m.Parts {
		out[part.ID] = c.call(part)
	}
	return out
}

type caller struct {
	m     *machine.Machine
	plan  Plan
	about map[machine.PartID][]*machine.Check
}

// named lists the parts that a check is about.
func named(c *machine.Check) []machine.PartID {
	var out []machine.PartID
	for _, p := range c.Parts {
		out = append(out, p.ID)
	}
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil && ft.Part != nil {
			out = append(out, ft.Part.ID)
		}
	}
	sortIDs(&out)
	return out
}

func (c *caller) call(p *machine.Part) Proposal {
	for _, j := range c.plan.Jobs {
		if slices.Contains(j.Renews, p.ID) {
			return Proposal{machine.Renew, c.because(j)}
		}
	}
	if p.OneUse && cameOff(c.m, p) {
		return Proposal{machine.Renew, "It came off, and is used once only."}
	}
	for _, j := range c.plan.Jobs {
		if slices.ContainsFunc(j.Reworks, func(f machine.FeatureID) bool { return f.Part() == p.ID }) {
			return Proposal{machine.MakeGood, c.because(j)}
		}
	}
	return c.soundness(p)
}

// because names the job and the failing checks it serves.
func (c *caller) because(j Job) string {
	var names []string
	for _, id := range j.Serves {
		names = append(names, c.m.Check(id).Name)
	}
	if len(names) == 0 {
		return fmt.Sprintf("%s, with its size group.", quoted(j.Name))
	}
	return fmt.Sprintf("%s, for %s.", quoted(j.Name), listed(names))
}

// soundness judges a part by the checks that name it.
func (c *caller) soundness(p *machine.Part) Proposal {
	var bad, wanting, elsewhere []string
	made := 0
	for _, check := range c.about[p.ID] {
		f := c.plan.From.Of(check.ID)
		switch {
		case f == nil:
		case f.Verdict == judge.Sound:
			made++
		case c.served(check.ID):
			made++
			elsewhere = append(elsewhere, check.Name)
		case f.Verdict == judge.Worn, f.Verdict == judge.Doubtful:
			bad = append(bad, check.Name+" is "+string(f.Verdict))
		case check.When == machine.Apart:
			wanting = append(wanting, fmt.Sprintf("%s: %s", check.Name, f.Verdict))
		}
	}
	switch {
	case len(bad) > 0:
		return Proposal{machine.NotJudged, sentence(bad)}
	case len(wanting) > 0:
		return Proposal{machine.NotJudged, sentence(wanting)}
	case made == 0:
		return Proposal{machine.NotJudged, "No check of it has been made."}
	case len(elsewhere) > 0:
		return Proposal{machine.GoesBack, fmt.Sprintf("%s made good by work on other parts; its other checks are sound.", isAre(elsewhere))}
	case made == 1:
		return Proposal{machine.GoesBack, "Its one check is sound."}
	}
	return Proposal{machine.GoesBack, fmt.Sprintf("All %d checks made of it are sound.", made)}
}

// served tells whether the plan makes a check good.
func (c *caller) served(id machine.CheckID) bool {
	return slices.ContainsFunc(c.plan.Choices, func(ch Choice) bool { return ch.Check == id })
}

// cameOff tells whether a part is off the machine and still the old one.
func cameOff(m *machine.Machine, p *machine.Part) bool {
	off := p.Tray != ""
	var last machine.Stamp
	for _, j := range p.Joints {
		off = off || j.State == machine.Open
		for _, r := range j.Removals {
			if before(last, r.Stamp) {
				last = r.Stamp
			}
		}
	}
	if !off {
		return false
	}
	for _, c := range m.Checks {
		for _, d := range c.Done {
			if slices.Contains(d.Renewed, p.ID) && !before(d.Stamp, last) {
				return false
			}
		}
	}
	return true
}

func sentence(parts []string) string { return strings.Join(parts, "; ") + "." }

func isAre(names []string) string {
	if len(names) == 1 {
		return names[0] + " is"
	}
	return listed(names) + " are"
}
