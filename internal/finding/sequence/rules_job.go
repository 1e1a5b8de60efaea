package sequence

import (
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// job is a chosen remedy not yet carried out.
type job struct {
	check  *machine.Check
	remedy *machine.Remedy
	parts  []*machine.Part // renewed or reworked
	step   int
}

// listJobs finds the pending remedies, the checks that each opens again, and
// the joints that must come apart once more for it.
func (d *draft) listJobs() {
	byPart := map[*machine.Part][]*machine.Check{}
	for _, c := range d.m.Checks {
		for _, p := range c.Parts {
			byPart[p] = append(byPart[p], c)
		}
	}
	for _, c := range d.m.Checks {
		if !pending(c) {
			continue
		}
		n := len(d.jobs)
		jb := job{check: c, remedy: c.Remedy(c.Chosen.Key), step: -1}
		again := map[*machine.Check]bool{c: true}
		if r := jb.remedy; r != nil {
			jb.parts = d.touched(r)
			for _, id := range slices.Concat(r.Opens, r.Mends) {
				again[d.m.Check(id)] = true
			}
			for _, id := range r.Renews {
				if p := d.m.Part(id); p != nil {
					touching(p, byPart, again)
				}
			}
		}
		for other := range again {
			if other != nil { // a remedy may name what is not there
				s := &d.checks[other.Number()]
				s.rework = append(s.rework, n)
			}
		}
		d.jobs = append(d.jobs, jb)
		if len(jb.parts) > 0 {
			d.reopen(closedJoints(c))
		}
	}
}

// pending tells whether a remedy was chosen and none carried out since.
func pending(c *machine.Check) bool {
	if c.Chosen == nil {
		return false
	}
	return !slices.ContainsFunc(c.Done, func(x machine.Done) bool { return !x.At.Before(c.Chosen.At) })
}

// touched are the parts a remedy renews or reworks.
func (d *draft) touched(r *machine.Remedy) []*machine.Part {
	var out []*machine.Part
	add := func(id machine.PartID) {
		if p := d.m.Part(id); p != nil && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	for _, id := range r.Renews {
		add(id)
	}
	for _, id := range r.Reworks {
		add(id.Part())
	}
	return out
}

// touching marks the checks that are a condition on a part or a joint of it:
// renewing the part opens them again.
func touching(p *machine.Part, byPart map[*machine.Part][]*machine.Check, again map[*machine.Check]bool) {
	for _, c := range byPart[p] {
		again[c] = true
	}
	for _, j := range p.Joints {
		for _, c := range j.Checks {
			again[c] = true
		}
	}
}

func closedJoints(c *machine.Check) []*machine.Joint {
	var out []*machine.Joint
	for _, j := range c.Joints {
		if isShut(j) {
			out = append(out, j)
		}
	}
	return out
}

// stepJobs gives every pending remedy its step.
func (d *draft) stepJobs() {
	for i := range d.jobs {
		jb := &d.jobs[i]
		c := jb.check
		s := Step{ID: ReworkID(c.ID, c.Chosen.Key), Act: Rework, Assembly: c.Assembly, Check: c, Remedy: jb.remedy,
			Name: spelling.Head(c.Chosen.Key) + ": " + spelling.Inside(c.Name), Hazards: hazards(c.Hazards, jb.parts)}
		if r := jb.remedy; r != nil {
			s.Name = r.Name + ": " + spelling.Inside(c.Name)
			if r.Where == "bench" {
				s.Hours = r.Cost
			}
		}
		jb.step = d.add(s)
	}
}

// rulesOfJobs: a remedy that touches parts comes after the joints of its check
// are apart and before the first closing of any joint of those parts; the
// checks it opens come after it.
func (d *draft) rulesOfJobs() {
	for _, jb := range d.jobs {
		if len(jb.parts) > 0 {
			d.jobApart(jb)
			d.beforeClosings(jb.step, jb.parts, "rework comes before the part goes back")
		}
	}
	for _, c := range d.m.Checks {
		if s := &d.checks[c.Number()]; s.step >= 0 {
			for _, n := range s.rework {
				d.after(s.step, [][]int{{d.jobs[n].step}}, process("it is made again after the rework"))
			}
		}
	}
}

func (d *draft) jobApart(jb job) {
	why := process("the parts must be apart to be worked on")
	all := []int{}
	for _, j := range jb.check.Joints {
		n, ok := d.wayIn(j)
		if !ok {
			why.note = spelling.Inside(j.Name) + " stays closed"
			d.never(jb.step, why)
			return
		}
		all = append(all, n)
	}
	d.after(jb.step, [][]int{all}, why)
}

// beforeClosings puts a step before every closing still to come, dry or final,
// of the joints of some parts.
func (d *draft) beforeClosings(step int, parts []*machine.Part, note string) {
	all := []int{}
	for _, p := range parts {
		for _, j := range p.Joints {
			r := d.roleOf(j)
			all = append(all, r.trial, r.close)
		}
	}
	d.before(step, [][]int{all}, process(note))
}
